package sprag.bench.evidence.prove.explore;

import java.util.Arrays;

/**
 * Visited states as an open-addressing table of longs with linear probing.
 *
 * <p>States that differ only in their lowest bits share a slot. The upper part of a slot holds the rest of the state.
 * The lower part has one bit for each of these states, as many as a long can hold beside the rest. Sharing saves memory
 * and waiting for memory. Where no two states are neighbours it costs nothing.
 *
 * <pre>
 *   state:  rest (k bits)            | lowest b bits              k + 2^b: at most 64
 *   slot:   rest, mixed (k bits)     | which of the 2^b neighbours have been seen
 * </pre>
 *
 * <p>Packed states differ in a few bits and cluster under a weak hash, so every bit of the rest is mixed into every
 * other. The mixing is one-to-one, so that two states are never merged. The table grows by half and is filled to at
 * most four fifths, so a state takes at most 15 bytes.
 */
final class HashedStates implements Visited {
    private static final int SMALLEST = 1 << 10;
    private static final int LARGEST = Integer.MAX_VALUE - 8;
    private static final int GROUP = 16;
    private static final int RECENT = 1 << 9;
    private static final int RECENT_SHIFT = Long.SIZE - Integer.numberOfTrailingZeros(RECENT);

    private final long allowed;
    private final int lowBits;
    private final Mixer mixer;
    private final int[] slots = new int[GROUP];
    private final long[] keys = new long[GROUP];
    private final long[] group = new long[GROUP];
    private final long[] recent = new long[RECENT];
    private long[] table = new long[SMALLEST];
    private int used;
    private long touched;

    HashedStates(int bits) {
        if (bits < 1 || bits > Machine.MOST_BITS) {
            throw new IllegalArgumentException("states of " + bits + " bits are outside 1.." + Machine.MOST_BITS);
        }
        allowed = (1L << bits) - 1;
        Arrays.fill(recent, -1);
        lowBits = sharedBits(bits);
        mixer = new Mixer(bits - lowBits);
    }

    /** The most low bits that fit: at least one bit is left above them. */
    private static int sharedBits(int bits) {
        int shared = 0;
        while (shared + 1 < bits && bits - (shared + 1) + (1 << shared + 1) <= Long.SIZE) {
            shared++;
        }
        return shared;
    }

    @Override
    public void addAll(long[] states, int count, LongQueue fresh) {
        int waiting = 0;
        for (int i = 0; i < count; i++) {
            long state = states[i];
            if ((state & ~allowed) != 0) {
                throw new IllegalStateException("state " + state + " is outside 0.." + allowed
                        + ", the range of the bits the machine declares");
            }
            int at = Mixer.spread(state, RECENT_SHIFT);
            if (recent[at] == state) {
                continue; // many branches of a step end alike
            }
            recent[at] = state;
            group[waiting++] = state;
            if (waiting == GROUP) {
                insertGroup(waiting, fresh);
                waiting = 0;
            }
        }
        insertGroup(waiting, fresh);
    }

    private void insertGroup(int count, LongQueue fresh) {
        growFor(count);
        touch(count);
        for (int i = 0; i < count; i++) {
            if (insert(keys[i], 1L << (group[i] & (1 << lowBits) - 1), slots[i])) {
                fresh.add(group[i]);
            }
        }
    }

    /** Reads a group's slots ahead of the inserts: the waits for memory then overlap instead of adding up. */
    private void touch(int count) {
        long[] slotOf = table;
        int keyShift = 1 << lowBits;
        long sum = 0;
        for (int i = 0; i < count; i++) {
            long state = group[i];
            long mixed = mixer.mix(state >>> lowBits);
            int slot = mixer.slot(mixed, slotOf.length);
            keys[i] = mixed << keyShift;
            slots[i] = slot;
            sum += slotOf[slot];
        }
        touched += sum;
    }

    private boolean insert(long key, long bit, int firstSlot) {
        long[] slotOf = table;
        long keyMask = -1L << (1 << lowBits);
        int slot = firstSlot;
        for (long held = slotOf[slot]; held != 0; held = slotOf[slot]) {
            if ((held & keyMask) == key) {
                slotOf[slot] = held | bit;
                return (held & bit) == 0;
            }
            slot = slot + 1 == slotOf.length ? 0 : slot + 1;
        }
        slotOf[slot] = key | bit;
        used++;
        return true;
    }

    private void growFor(int more) {
        if (used + more > table.length / 5L * 4) {
            if (table.length == LARGEST) {
                throw new IllegalStateException("the table is full at " + used + " slots and cannot grow any further");
            }
            rehash((int) Math.min(LARGEST, table.length + table.length / 2L));
        }
    }

    /** The slots keep the order of the mixed values, so both tables are walked from front to back. */
    private void rehash(int length) {
        long[] old = table;
        table = new long[length];
        int keyShift = 1 << lowBits;
        for (long held : old) {
            if (held != 0) {
                int slot = mixer.slot(held >>> keyShift, length);
                while (table[slot] != 0) {
                    slot = slot + 1 == length ? 0 : slot + 1;
                }
                table[slot] = held;
            }
        }
    }

    @Override
    public long bytes() {
        return (long) table.length * Long.BYTES;
    }

    /** How far the fullest run of slots reaches, a sign of clustering. */
    int longestRun() {
        int longest = 0;
        int run = 0;
        for (long held : table) {
            run = held == 0 ? 0 : run + 1;
            longest = Math.max(longest, run);
        }
        return longest;
    }
}
