package sprag.bench.evidence.prove.explore;

import java.util.List;
import java.util.Random;

/**
 * A stepper made at random that mostly waits: it has eight modes and counts the steps in each up to a limit. What it does then,
 * and what a question about the world changes, comes from tables. A lamp goes out at a count, and shows in no state.
 */
final class RandomWaiter implements Stepper {
    private static final int MODE_BITS = 3;
    private static final int COUNT_BITS = 6;
    private static final int MODES = 1 << MODE_BITS;
    private static final int ANSWERS = 3;
    private static final int ASIDE = 1;

    private final int[] limit = new int[MODES];
    private final int[] known = new int[MODES];
    private final int[][] leads = new int[MODES][ANSWERS];
    private final int[][] leadsAtLimit = new int[MODES][ANSWERS];
    private final int[] lamp = new int[MODES];
    private Choices choices;
    private boolean lit;
    private int mode;
    private int next;
    private int count;
    private int answer;
    private int least;
    private int most;

    RandomWaiter(long seed) {
        Random random = new Random(seed);
        for (int m = 0; m < MODES; m++) {
            limit[m] = 1 + random.nextInt(40);
            known[m] = random.nextInt(42);
            for (int a = 0; a < ANSWERS; a++) {
                leads[m][a] = random.nextInt(3) > 0 ? m : random.nextInt(MODES);
                leadsAtLimit[m][a] = random.nextInt(3) == 0 ? m : random.nextInt(MODES);
            }
        }
        for (int m = 0; m < MODES; m++) {
            lamp[m] = random.nextInt(40);
        }
    }

    /** One that differs in a single mode: it leads elsewhere. */
    RandomWaiter(long seed, int changed) {
        this(seed);
        Random random = new Random(~seed);
        for (int a = 0; a < ANSWERS; a++) {
            leads[changed][a] = random.nextInt(MODES);
        }
    }

    static int modeOf(long state) {
        return (int) state & MODES - 1;
    }

    @Override
    public long initial() {
        return 0;
    }

    @Override
    public int bits() {
        return MODE_BITS + COUNT_BITS;
    }

    @Override
    public int countFrom() {
        return MODE_BITS;
    }

    @Override
    public int leastCount() {
        return least;
    }

    @Override
    public int mostCount() {
        return most;
    }

    @Override
    public int keys() {
        return 2;
    }

    @Override
    public int labels() {
        return MODES;
    }

    @Override
    public long shape() {
        return ((long) mode << MODE_BITS | next) << 1 | (lit ? 1 : 0);
    }

    @Override
    public long step(long state, Choices world, Successors out) {
        choices = world;
        least = 0;
        most = Integer.MAX_VALUE;
        mode = modeOf(state);
        count = (int) (state >>> MODE_BITS);
        lit = count < lamp[mode];
        answer = world.choose(0, ANSWERS);
        boolean over = count + 1 >= limit[mode];
        next = (over ? leadsAtLimit : leads)[mode][answer];
        if (next != mode) {
            out.note(next);
            return next;
        }
        return mode | (long) Math.min(count + 1, limit[mode]) << MODE_BITS;
    }

    /** Whether the count has reached a number. */
    private boolean reached(int number) {
        boolean reached = count >= number;
        least = reached ? Math.max(least, number) : least;
        most = reached ? most : Math.min(most, number - 1);
        return reached;
    }

    /** A property that looks at the count, and at the world beyond what the step asked. */
    static Property<RandomWaiter> patience(int of) {
        return new Property<>() {
            @Override
            public String name() {
                return "PATIENCE_" + of;
            }

            @Override
            public String explanation() {
                return "mode " + of + " is left too soon";
            }

            @Override
            public boolean concerns(RandomWaiter step) {
                return step.mode == of && step.next != of;
            }

            @Override
            public boolean holds(RandomWaiter step) {
                return step.reached(step.known[of]) || step.choices.choose(ASIDE, 2) == 0;
            }
        };
    }

    /** A property that looks at what the step did beside the states: the lamp must burn when a mode is left. */
    static Property<RandomWaiter> lamp(int of) {
        return new Property<>() {
            @Override
            public String name() {
                return "LAMP_" + of;
            }

            @Override
            public String explanation() {
                return "mode " + of + " is left in the dark";
            }

            @Override
            public boolean concerns(RandomWaiter step) {
                return step.mode == of && step.next != of;
            }

            @Override
            public boolean holds(RandomWaiter step) {
                return step.lit;
            }
        };
    }

    /** Observers that count and one that does not. */
    static List<Observer<RandomWaiter>> observers(long seed) {
        Random random = new Random(seed);
        int from = random.nextInt(MODES);
        int to = random.nextInt(MODES);
        return List.of(
                new Within<>(
                        "COMES", "it does not come", 1 + random.nextInt(60), s -> s.mode == from, s -> s.next == to),
                new Within<>("ANSWERS", "no answer", random.nextInt(3), s -> s.next == to, s -> s.answer == 1),
                new Latch(from, to));
    }

    /** Remembers that a mode was seen, until the world answers otherwise. */
    private record Latch(int mode, int clears) implements Observer<RandomWaiter> {
        @Override
        public String name() {
            return "LATCH";
        }

        @Override
        public String explanation() {
            return "the mode came again";
        }

        @Override
        public int bits() {
            return 1;
        }

        @Override
        public int next(int memory, RandomWaiter step) {
            if (memory == 1 && step.next == mode && step.mode != mode) {
                return BROKEN;
            }
            return step.mode == mode || memory == 1 && step.choices.choose(ASIDE, 2) == 0 && step.next != clears
                    ? 1
                    : 0;
        }
    }
}
