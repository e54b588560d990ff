package sprag.bench.evidence.prove.explore;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WatchedTest {
    private static final int KNOCK = 0;
    private static final int LEVEL = 1;
    private static final int UNUSED = 2;

    /** A door that opens so many steps after a knock; the level is only asked for while it is open. */
    private static final class Door implements Stepper {
        private final int delay;
        private Choices choices;
        private boolean knocked;
        private boolean open;
        private int level;

        Door(int delay) {
            this.delay = delay;
        }

        @Override
        public long initial() {
            return 0;
        }

        @Override
        public int bits() {
            return 4;
        }

        @Override
        public int keys() {
            return 3;
        }

        @Override
        public int labels() {
            return 1;
        }

        @Override
        public long step(long state, Choices world, Successors out) {
            choices = world;
            knocked = world.choose(KNOCK, 2) == 1;
            open = state == delay;
            level = open ? world.choose(LEVEL, 3) : 0;
            if (open) {
                out.note(0);
                return 0;
            }
            return state > 0 || knocked ? state + 1 : 0;
        }
    }

    private record Promise(String name, Predicate<Door> kept) implements Property<Door> {
        @Override
        public String explanation() {
            return name + " is broken";
        }

        @Override
        public boolean holds(Door step) {
            return kept.test(step);
        }
    }

    private static Watched<Door> watched(int delay, Property<Door> property, Observer<Door> observer) {
        return new Watched<>(new Door(delay), List.of(property), List.of(observer));
    }

    private static final Promise NOTHING = new Promise("nothing", door -> true);

    private static Within<Door> opensWithin(int steps) {
        return new Within<>("OPENS", "nobody opened", steps, door -> door.knocked, door -> door.open);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            DELAY | WITHIN | BROKEN_AFTER | BECAUSE
            3     | 3      | 0            | opens in the third step after the knock
            3     | 2      | 3            | the knock and two steps are over without an answer
            3     | 0      | 1            | an answer in the same step is asked for
            1     | 1      | 0            | one step of delay, one allowed
            1     | 0      | 1            | one step of delay, none allowed
            """)
    void knock_answerBounded_brokenExactlyWhenLater(int delay, int within, int brokenAfter, String because) {
        Watched<Door> machine = watched(delay, NOTHING, opensWithin(within));
        Exploration found =
                Explorer.of(() -> watched(delay, NOTHING, opensWithin(within))).explore();

        assertTrue(found.complete());
        assertEquals(brokenAfter > 0, found.happened(machine.eventOfObserver(0)), because);
        if (brokenAfter > 0) {
            assertEquals(brokenAfter, found.stepsTo(machine.eventOfObserver(0)), because);
        }
    }

    @Test
    void property_brokenByOneAnswer_traceShowsThatAnswer() {
        Promise lowOnly = new Promise("LOW_ONLY", door -> door.level < 2);
        Watched<Door> machine = watched(2, lowOnly, opensWithin(5));
        Exploration found =
                Explorer.of(() -> watched(2, lowOnly, opensWithin(5))).explore();
        Trace trace = found.trace(machine.eventOfProperty(0)).orElseThrow();

        assertEquals(3, trace.length(), "knock, wait, open at level 2");
        assertTrue(trace.runsOn(machine));
        List<String> story = new ArrayList<>();
        for (Trace.Step step : trace.steps()) {
            Door door = machine.show(step);
            story.add(door.knocked + "," + door.open + "," + door.level);
        }
        assertEquals("false,true,2", story.get(2), story.toString());
        assertEquals(2, machine.choices().answer(LEVEL));
        assertEquals(KNOCK, machine.choices().key(0));
        assertFalse(machine.choices().knows(UNUSED));
    }

    @Test
    void property_asksForMore_thatIsBranchedOnToo() {
        Promise asks = new Promise("ASKS", door -> door.choices.choose(UNUSED, 4) != 3);
        Watched<Door> plain = watched(1, NOTHING, opensWithin(5));
        Watched<Door> asking = watched(1, asks, opensWithin(5));
        Exploration without = Explorer.of(() -> plain).explore();
        Exploration with = Explorer.of(() -> asking).explore();

        assertEquals(without.size().states(), with.size().states());
        assertEquals(4 * without.size().transitions(), with.size().transitions());
        assertEquals(1, with.stepsTo(asking.eventOfProperty(0)));
    }

    @Test
    void labels_noted_comeFirst() {
        Watched<Door> machine = watched(2, NOTHING, opensWithin(5));
        Exploration found = Explorer.of(() -> machine).explore();
        assertEquals(3, found.stepsTo(0), "the door has been open");
        assertEquals(3, machine.events());
        assertEquals(1, machine.eventOfProperty(0));
        assertEquals(2, machine.eventOfObserver(0));
    }

    @Test
    void observers_tooManyBits_refusedWithTheirNumber() {
        List<Observer<Door>> many = new ArrayList<>();
        for (int i = 0; i < 5; i++) {
            many.add(opensWithin(8000));
        }
        String said = assertThrows(
                        IllegalArgumentException.class,
                        () -> new Watched<>(new Door(1), List.<Property<Door>>of(), many))
                .getMessage();
        assertEquals("the machine's 4 bits and the observers' 65 exceed 63: explore fewer observers at a time", said);
    }

    @Test
    void show_branchThatIsNotThere_refused() {
        Watched<Door> machine = watched(2, NOTHING, opensWithin(5));
        assertThrows(IllegalArgumentException.class, () -> machine.show(new Trace.Step(0, 2, 0)));
        assertThrows(IllegalArgumentException.class, () -> machine.show(new Trace.Step(0, 1, 5)));
    }
}
