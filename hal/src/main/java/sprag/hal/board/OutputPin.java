package sprag.hal.board;

import sprag.supervisor.vocabulary.Output;

/**
 * One output: which pin an output drives.
 *
 * @param output the output
 * @param pin the pin, in the words of the driver
 * @param kind what the pin does
 * @param inverted for a switch: low means on
 * @param scale from the output's unit to counts
 * @param safe what it falls back to, in the output's unit
 */
public record OutputPin(Output output, String pin, PinKind kind, boolean inverted, Scale scale, double safe) {
    /** What to write for a request.
     *
     * @param value in the output's unit
     * @return counts, or 0 and 1 for a switch
     */
    public long raw(double value) {
        return kind.twoState ? (value != 0 ^ inverted ? 1 : 0) : scale.raw(value);
    }

    /** What to write when released.
     *
     * @return counts, or 0 and 1 for a switch
     */
    public long safeRaw() {
        return raw(safe);
    }
}
