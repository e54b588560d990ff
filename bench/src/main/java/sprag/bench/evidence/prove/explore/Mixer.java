package sprag.bench.evidence.prove.explore;

/**
 * Mixes the bits of a number of given width, one to one.
 *
 * <p>Twice: fold the upper half onto the lower, multiply by an odd constant. Either can be undone within the width, so that
 * different numbers stay different; the constants are those of MurmurHash3's finish (A. Appleby, public domain).
 */
final class Mixer {
    private static final long FIRST = 0xff51afd7ed558ccdL;
    private static final long SECOND = 0xc4ceb9fe1a85ec53L;
    /** 2^64 over the golden ratio, odd: Fibonacci hashing (D. Knuth, volume 3, section 6.4). */
    private static final long GOLDEN = 0x9e3779b97f4a7c15L;

    private final int bits;
    private final int fold;
    private final long mask;

    /** A mixer for numbers of 1 to 64 bits. */
    Mixer(int bits) {
        this.bits = bits;
        this.fold = (bits + 1) / 2;
        this.mask = -1L >>> Long.SIZE - bits;
    }

    long mix(long number) {
        long h = number;
        h = (h ^ h >>> fold) * FIRST & mask;
        h = (h ^ h >>> fold) * SECOND & mask;
        return h ^ h >>> fold;
    }

    /** Undoes {@link #mix}: folding by half the width is its own inverse. */
    long unmix(long mixed) {
        long h = mixed ^ mixed >>> fold;
        h = h * inverse(SECOND) & mask;
        h = (h ^ h >>> fold) * inverse(FIRST) & mask;
        return h ^ h >>> fold;
    }

    /** Newton's iteration doubles the number of right bits each time; an odd number starts with three. */
    private static long inverse(long odd) {
        long x = odd;
        for (int i = 0; i < 5; i++) {
            x *= 2 - odd * x;
        }
        return x;
    }

    /** Spreads numbers over places, cheaply and not one to one: for small tables that hold the number itself.
     *
     * @param shift 64 less the bits of a place
     */
    static int spread(long number, int shift) {
        return (int) (number * GOLDEN >>> shift);
    }

    /** Where a mixed number belongs in a table whose length need not be a power of two: its upper 32 bits, scaled. */
    int slot(long mixed, int length) {
        return (int) ((mixed << Long.SIZE - bits >>> 32) * length >>> 32);
    }
}
