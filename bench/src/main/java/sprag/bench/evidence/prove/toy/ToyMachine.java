package sprag.bench.evidence.prove.toy;

import sprag.bench.evidence.prove.explore.Machine;
import sprag.bench.evidence.prove.explore.Successors;

/**
 * Seven states and three timers that count to a limit: a yardstick for explorers.
 *
 * <p>In each step the fault timer goes one up or one down, the timer of the present state runs, and then one of the state's
 * exits is taken. A full fault timer leaves no exit but the fault, and so does the limit of the state's own timer in place
 * of staying. The same machine is written in Promela in {@code toy.pml}.
 *
 * <pre>
 *   precharge timer | rundown timer | fault timer | state (3 bits)      each timer as wide as the limit needs
 * </pre>
 */
public final class ToyMachine implements Machine {
    /** The event noted when driving is reached with the fault timer full or the precharge timer at zero: never, if all is well. */
    public static final int BAD_DRIVE = 0;

    private static final int OFF = 0;
    private static final int IGNITION = 1;
    private static final int PRECHARGE = 2;
    private static final int DRIVE = 3;
    private static final int RUNDOWN = 4;
    private static final int CHARGE = 5;
    private static final int FAULT = 6;
    private static final int MOST = 255;

    // @formatter:off
    /** Where each state may go while the fault timer is not full, in the order of toy.pml; staying is last. */
    private static final int[][] EXITS = {
        /* OFF       */ {CHARGE, IGNITION, OFF},
        /* IGNITION  */ {OFF, CHARGE, PRECHARGE, IGNITION},
        /* PRECHARGE */ {RUNDOWN, DRIVE, PRECHARGE},
        /* DRIVE     */ {RUNDOWN, FAULT, DRIVE},
        /* RUNDOWN   */ {IGNITION, OFF, RUNDOWN},
        /* CHARGE    */ {IGNITION, OFF, CHARGE},
        /* FAULT     */ {OFF, FAULT},
    };
    // @formatter:on

    private final int limit;
    private final boolean dense;
    private final int bits;
    private final int mask;

    private ToyMachine(int limit, boolean dense) {
        if (limit < 1 || limit > MOST) {
            throw new IllegalArgumentException("a timer limit of " + limit + " is outside 1.." + MOST);
        }
        this.limit = limit;
        this.dense = dense;
        this.bits = Integer.SIZE - Integer.numberOfLeadingZeros(limit);
        this.mask = (1 << bits) - 1;
    }

    /** The machine with its states hashed.
     *
     * @param limit what the timers count to, 1 to 255
     */
    public static ToyMachine hashed(int limit) {
        return new ToyMachine(limit, false);
    }

    /** The machine with its packed states as a dense numbering.
     *
     * @param limit what the timers count to, 1 to 255
     */
    public static ToyMachine dense(int limit) {
        return new ToyMachine(limit, true);
    }

    @Override
    public long initial() {
        return 0;
    }

    @Override
    public int bits() {
        return 3 * bits + 3;
    }

    @Override
    public long indexSpace() {
        return dense ? 1L << bits() : 0;
    }

    @Override
    public int events() {
        return 1;
    }

    @Override
    public void expand(long packed, Successors out) {
        int state = (int) packed & 7;
        int timers = (int) packed >>> 3;
        int prechargeTimer = timers >>> 2 * bits;
        int rundownTimer = timers >>> bits & mask;
        int faultTimer = timers & mask;
        boolean outOfTime = false;
        if (state == OFF) {
            prechargeTimer = 0;
            rundownTimer = 0;
        } else if (state == PRECHARGE) {
            outOfTime = prechargeTimer + 1 >= limit;
            prechargeTimer = Math.min(prechargeTimer + 1, limit);
        } else if (state == RUNDOWN) {
            outOfTime = rundownTimer + 1 >= limit;
            rundownTimer = Math.min(rundownTimer + 1, limit);
        }
        int others = prechargeTimer << 2 * bits | rundownTimer << bits;
        leave(state, others | Math.max(faultTimer - 1, 0), outOfTime, out);
        leave(state, others | Math.min(faultTimer + 1, limit), outOfTime, out);
    }

    private void leave(int state, int timers, boolean outOfTime, Successors out) {
        put(FAULT, timers, out);
        if ((timers & mask) >= limit) {
            return;
        }
        for (int exit : EXITS[state]) {
            put(exit == state && outOfTime ? FAULT : exit, timers, out);
        }
    }

    private void put(int state, int timers, Successors out) {
        if (state == DRIVE && ((timers & mask) >= limit || timers >>> 2 * bits == 0)) {
            out.note(BAD_DRIVE);
        }
        out.add((long) timers << 3 | state);
    }
}
