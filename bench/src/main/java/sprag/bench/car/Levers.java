package sprag.bench.car;

import java.util.Arrays;

/** Where the levers of one car stand. Only the thread that advances the car may touch them. */
public final class Levers {
    private final double[] value = new double[Lever.COUNT];
    private final boolean[] moved = new boolean[Lever.COUNT];
    private boolean anyMoved = true;
    private int changes = 1;

    /** Levers as they stand before anybody moves one.
     *
     * @param ambientC the temperature of the day
     */
    public Levers(double ambientC) {
        for (Lever lever : Lever.values()) {
            value[lever.ordinal()] = lever.initial;
        }
        value[Lever.AMBIENT_C.ordinal()] = ambientC;
    }

    /** Where a lever stands; for one that sets once, what it was last set to. */
    public double get(Lever lever) {
        return value[lever.ordinal()];
    }

    /** Whether a lever stands anywhere but at 0. */
    public boolean isOn(Lever lever) {
        return value[lever.ordinal()] != 0;
    }

    /**
     * Moves a lever; the car follows in the next advance.
     *
     * @throws IllegalArgumentException when it cannot go there
     */
    public void set(Lever lever, double to) {
        if (!(to >= lever.min && to <= lever.max)) {
            throw new IllegalArgumentException(
                    lever.key() + " = " + to + " is outside " + lever.min + ".." + lever.max);
        }
        value[lever.ordinal()] = to;
        moved[lever.ordinal()] = true;
        anyMoved = true;
        changes++;
    }

    /** Whether anything was moved since the last call of {@link #settled()}. */
    public boolean anyMoved() {
        return anyMoved;
    }

    /** Whether a lever was moved since the last call of {@link #settled()}. */
    public boolean moved(Lever lever) {
        return moved[lever.ordinal()];
    }

    /** Grows with every move, so that caches know. */
    public int changes() {
        return changes;
    }

    public void settled() {
        Arrays.fill(moved, false);
        anyMoved = false;
    }
}
