package sprag.bench.evidence.prove.explore;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class RecalledTest {
    private static Watched<RandomWaiter> watched(long seed) {
        return watched(seed, new RandomWaiter(seed));
    }

    private static Watched<RandomWaiter> watched(long seed, RandomWaiter waiter) {
        List<Property<RandomWaiter>> properties = IntStream.range(0, 8)
                .boxed()
                .flatMap(mode -> Stream.of(RandomWaiter.patience(mode), RandomWaiter.lamp(mode)))
                .toList();
        return new Watched<>(waiter, properties, RandomWaiter.observers(seed));
    }

    private static Exploration explore(Supplier<? extends Machine> machines, int workers) {
        return Explorer.of(machines).workers(workers).explore();
    }

    private static void assertSame(Exploration plain, Exploration recalled, int events, long seed) {
        assertEquals(plain.summary(), recalled.summary(), "seed " + seed);
        for (int event = 0; event < events; event++) {
            assertEquals(
                    plain.trace(event).map(Trace::steps),
                    recalled.trace(event).map(Trace::steps),
                    "seed " + seed + ", event " + event);
        }
    }

    @Test
    void waitingMachines_explored_asIfEveryStepWereAskedAbout() {
        int broken = 0;
        int states = 0;
        for (long seed = 0; seed < 40; seed++) {
            long of = seed;
            Courses courses = new Courses();
            int events = watched(seed).events();
            Exploration plain = explore(() -> watched(of), 1);
            assertSame(plain, explore(() -> new Recalled<>(watched(of), courses), 1), events, seed);
            states += (int) plain.size().states();
            broken += (int) IntStream.range(0, 19)
                    .filter(i -> plain.happened(watched(of).eventOfProperty(i)))
                    .count();
        }
        assertTrue(states > 4_000, states + " states");
        assertTrue(broken > 40, broken + " promises broken");
    }

    @ParameterizedTest(name = "{0} workers")
    @ValueSource(ints = {2, 3})
    void waitingMachine_exploredByMany_theSame(int workers) {
        for (long seed = 0; seed < 20; seed++) {
            long of = seed;
            Courses courses = new Courses();
            Exploration alone = explore(() -> watched(of), 1);
            int events = watched(seed).events();
            assertSame(alone, explore(() -> watched(of), workers), events, seed);
            assertSame(alone, explore(() -> new Recalled<>(watched(of), courses), workers), events, seed);
        }
    }

    @Test
    void waitingMachines_explored_fewerCoursesThanStates() {
        long states = 0;
        long kept = 0;
        for (long seed = 0; seed < 20; seed++) {
            long of = seed;
            Courses courses = new Courses();
            states += explore(
                            () -> new Recalled<>(new Watched<>(new RandomWaiter(of), List.of(), List.of()), courses), 1)
                    .size()
                    .states();
            kept += courses.size();
        }
        assertTrue(3 * kept < states, kept + " courses of " + states + " states");
    }

    private static Exploration exploreChanged(long seed, int mode, Recollection known) {
        return explore(() -> new Recalled<>(watched(seed, new RandomWaiter(seed, mode)), known, "watchers"), 1);
    }

    @Test
    void machineLikeAnother_exploredAfterIt_asIfNothingWereKnown() {
        int misled = 0;
        for (long seed = 0; seed < 40; seed++) {
            long of = seed;
            int mode = (int) seed % 8;
            Recollection known = new Recollection();
            explore(() -> new Recalled<>(watched(of), known, "watchers"), 1);
            Exploration plain = explore(() -> watched(of, new RandomWaiter(of, mode)), 1);
            int events = watched(seed).events();
            Recollection.Likeness elsewhere = (state, labels) -> RandomWaiter.modeOf(state) != mode;
            assertSame(plain, exploreChanged(seed, mode, known.of(elsewhere)), events, seed);
            assertSame(plain, exploreChanged(seed, mode, known.of((state, labels) -> false)), events, seed);
            Recollection.Likeness wrong = (state, labels) -> true;
            misled += plain.summary()
                            .equals(exploreChanged(seed, mode, known.of(wrong)).summary())
                    ? 0
                    : 1;
        }
        assertTrue(misled > 10, misled + " are misled by a likeness that is not there");
    }
}
