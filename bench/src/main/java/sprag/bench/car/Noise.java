package sprag.bench.car;

/** A stream of numbers in -1..1 that look random and are the same for the same seed (xorshift, 64 bit). */
public final class Noise {
    private static final long SPREAD = 0x9E3779B97F4A7C15L;
    private static final double TO_UNIT = 1.0 / (1L << 52);

    private long state;

    public Noise(long seed) {
        state = (seed + 1) * SPREAD;
        state = state == 0 ? SPREAD : state;
    }

    public double next() {
        long x = state;
        x ^= x << 13;
        x ^= x >>> 7;
        x ^= x << 17;
        state = x;
        return (x >> 11) * TO_UNIT;
    }
}
