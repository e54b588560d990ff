package sprag.bench.port.equal;

import java.util.SplittableRandom;
import sprag.supervisor.Supervisor;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.Settings;

/** Numbers that a memory may hold when power comes back, and the packed state after waking up with each in Java.
 *
 * @param remembered the numbers
 * @param states after each
 */
record Wakes(long[] remembered, long[] states) {
    private static final int COUNT = 1024;

    /** States with some bits changed, small numbers, and anything. */
    static Wakes of(Settings settings, long seed) {
        SplittableRandom chance = new SplittableRandom(seed);
        Supervisor supervisor = new Supervisor(settings);
        long[] remembered = new long[COUNT];
        long[] states = new long[COUNT];
        for (int i = 0; i < COUNT; i++) {
            remembered[i] = switch (i % 4) {
                case 0 -> chance.nextLong();
                case 1 -> chance.nextLong(1L << LogicState.CONTROL_BITS);
                case 2 -> i;
                default -> states[i - 1] ^ 1L << chance.nextInt(64) ^ 1L << chance.nextInt(LogicState.CONTROL_BITS);
            };
            supervisor.wake(remembered[i]);
            states[i] = supervisor.state().pack();
        }
        return new Wakes(remembered, states);
    }
}
