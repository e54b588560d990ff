package sprag.bench.evidence.prove.explore;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import java.util.function.Supplier;
import java.util.stream.IntStream;
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
        Promise asks = new Promise("ASKS", door -> door.choices.choose(UNUSED, 4) >= 0);
        Watched<Door> plain = watched(1, NOTHING, opensWithin(5));
        Watched<Door> asking = watched(1, asks, opensWithin(5));
        Exploration without = Explorer.of(() -> plain).explore();
        Exploration with = Explorer.of(() -> asking).explore();

        assertEquals(without.size().states(), with.size().states());
        assertEquals(4 * without.size().transitions(), with.size().transitions());
        assertFalse(with.happened(asking.eventOfProperty(0)));
    }

    @Test
    void watchers_neverConcerned_neverApply() {
        Property<Door> never = new Property<>() {
            @Override
            public String name() {
                return "NEVER";
            }

            @Override
            public String explanation() {
                return "never asked";
            }

            @Override
            public boolean concerns(Door step) {
                return false;
            }

            @Override
            public boolean holds(Door step) {
                return false;
            }
        };
        Within<Door> ofNoCause = new Within<>("NEVER", "no cause", 1, door -> false, door -> true);
        Watched<Door> machine = watched(2, never, ofNoCause);
        Exploration found = Explorer.of(() -> watched(2, never, ofNoCause)).explore();
        Watched<Door> sound = watched(2, NOTHING, opensWithin(5));
        Exploration applying =
                Explorer.of(() -> watched(2, NOTHING, opensWithin(5))).explore();

        assertFalse(found.happened(machine.eventOfConcern(0)));
        assertFalse(found.happened(machine.eventOfApplying(0)));
        assertEquals(1, applying.stepsTo(sound.eventOfConcern(0)));
        assertEquals(2, applying.stepsTo(sound.eventOfApplying(0)), "the step after the knock");
    }

    @Test
    void labels_noted_comeFirst() {
        Watched<Door> machine = watched(2, NOTHING, opensWithin(5));
        Exploration found = Explorer.of(() -> machine).explore();
        assertEquals(3, found.stepsTo(0), "the door has been open");
        assertEquals(5, machine.events());
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
        assertThrows(UnrepeatableMachineException.class, () -> machine.show(new Trace.Step(0, 2, 0)));
        assertThrows(UnrepeatableMachineException.class, () -> machine.show(new Trace.Step(0, 1, 5)));
    }

    /** A step that asks nothing, a hundred questions, or as many as it is told. */
    private static final class Asker implements Stepper {
        private static final int MOST = 100;
        private final int asks;
        private Choices choices;

        Asker(int asks) {
            this.asks = asks;
        }

        @Override
        public long initial() {
            return 0;
        }

        @Override
        public int bits() {
            return 1;
        }

        @Override
        public int keys() {
            return MOST;
        }

        @Override
        public long step(long state, Choices world, Successors out) {
            choices = world;
            for (int key = 0; key < asks; key++) {
                world.choose(key, 2);
            }
            return 0;
        }

        Property<Asker> never(int key) {
            return new Property<>() {
                @Override
                public String name() {
                    return "never " + key;
                }

                @Override
                public String explanation() {
                    return name();
                }

                @Override
                public boolean holds(Asker step) {
                    return step.choices.choose(key, 2) == 0;
                }
            };
        }
    }

    @Test
    void manyBrokenProperties_exploredTogether_doNotMultiply() {
        List<Property<Asker>> properties = new ArrayList<>();
        for (int key = 0; key < Asker.MOST; key++) {
            properties.add(new Asker(0).never(key));
        }
        Watched<Asker> machine = new Watched<>(new Asker(0), properties, List.of());
        Exploration found = Explorer.of(() -> new Watched<>(new Asker(0), properties, List.of()))
                .explore();

        assertTrue(found.complete());
        assertTrue(found.size().transitions() <= 2 * Asker.MOST, found.summary());
        for (int i = 0; i < Asker.MOST; i++) {
            assertTrue(found.happened(machine.eventOfProperty(i)), "property " + i);
            machine.show(found.trace(machine.eventOfProperty(i))
                    .orElseThrow()
                    .steps()
                    .get(0));
            assertEquals(1, machine.choices().answer(i), "the step shown is the one that breaks it");
        }
    }

    @Test
    void stateWithTooManySuccessors_explored_endsAndSaysSo() {
        Exploration found = Explorer.of(() -> new Watched<>(new Asker(Asker.MOST), List.of(), List.of()))
                .explore();

        assertFalse(found.complete());
        assertEquals(
                "a state at depth 0 has more than 1048576 successors",
                found.stoppedBy().orElseThrow());
    }

    @Test
    void severalEvents_tracedTogether_sameAsOneByOne() {
        Promise lowOnly = new Promise("LOW_ONLY", door -> door.level < 2);
        Supplier<Watched<Door>> machines = () -> watched(3, lowOnly, opensWithin(2));
        Exploration found = Explorer.of(machines).explore();
        int events = machines.get().events();
        Map<Integer, Trace> together = found.traces(IntStream.range(0, events));

        assertEquals(events, together.size());
        for (int event = 0; event < events; event++) {
            assertEquals(found.trace(event).orElse(null), together.get(event), "event " + event);
        }
    }
}
