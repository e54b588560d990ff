package sprag.hal.board;

/**
 * Between a board's counts and a unit: {@code value = offset + scale * raw}.
 *
 * <p>A 10-bit converter on a 5 V reference with a 20:1 divider has a scale of 5 / 1023 * 20 = 0.09775 V a count, so that 512
 * counts are 50.05 V.
 *
 * @param perCount the value of one count, in the signal's or output's unit; negative turns the direction
 * @param offset the value at zero counts, in the same unit
 * @param bits how many bits the counts have, which the board must confirm where it can
 * @param signed whether the highest bit is a sign, in two's complement
 */
public record Scale(double perCount, double offset, int bits, boolean signed) {
    /** For on and off: one bit, 0 or 1. */
    public static final Scale SWITCH = new Scale(1, 0, 1, false);

    /** From counts to the unit.
     *
     * @param raw what the board said, without sign
     * @return the value in the unit
     */
    public double value(long raw) {
        boolean negative = signed && raw >= 1L << bits - 1;
        return offset + perCount * (negative ? raw - (1L << bits) : raw);
    }

    /** From the unit to counts, limited to the range of the counts.
     *
     * @param value in the unit; not a number counts as zero counts
     * @return what to write, without sign
     */
    public long raw(double value) {
        double counts = (value - offset) / perCount;
        double held = Math.max(leastCount(), Math.min(greatestCount(), counts == counts ? counts : 0));
        return Math.round(held) & (1L << bits) - 1;
    }

    /** The least count.
     *
     * @return 0, or negative when signed
     */
    public long leastCount() {
        return signed ? -(1L << bits - 1) : 0;
    }

    /** The greatest count.
     *
     * @return e.g. 1023 for 10 bits without sign
     */
    public long greatestCount() {
        return signed ? (1L << bits - 1) - 1 : (1L << bits) - 1;
    }
}
