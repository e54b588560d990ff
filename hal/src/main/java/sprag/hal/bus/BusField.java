package sprag.hal.bus;

import sprag.hal.board.Scale;

/**
 * A number in a message.
 *
 * @param name what people call it
 * @param place which bits
 * @param factor the value of one count
 * @param offset the value at zero counts
 * @param unit the symbol of its unit, empty for none
 * @param codes what certain raw values mean
 * @param pin which input or output of the map it is, -1 for none
 * @param fixedRaw what is sent in it when it is no output
 */
public record BusField(
        String name, BitField place, double factor, double offset, String unit, Codes codes, int pin, long fixedRaw) {
    /** Which pin it is when it is none. */
    public static final int NO_PIN = -1;

    /** The value of a frame's field.
     *
     * @param data eight bytes
     * @return the value in its unit; NaN when the frame says that it is not known
     */
    public double value(byte[] data) {
        long raw = place.raw(data);
        return codes.isUnknown(raw) ? Double.NaN : offset + factor * place.asDouble(raw);
    }

    /** The scale between counts and unit, for a field of at most 32 bits.
     *
     * @return the scale
     */
    public Scale scale() {
        return new Scale(factor, offset, place.length(), place.signed());
    }
}
