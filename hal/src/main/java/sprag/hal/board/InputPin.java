package sprag.hal.board;

import sprag.supervisor.vocabulary.Signal;

/**
 * One input: which pin stands for which signal.
 *
 * @param signal the signal
 * @param pin the pin, in the words of the driver
 * @param kind what the pin does
 * @param inverted for a switch: low means on
 * @param scale from counts to the signal's unit
 * @param filterMs time constant of the low-pass, 0 for none
 */
public record InputPin(Signal signal, String pin, PinKind kind, boolean inverted, Scale scale, double filterMs) {
    /** The signal's value for what the board said.
     *
     * @param raw counts, or 0 and 1 for a switch
     * @return the value in the signal's unit
     */
    public double value(long raw) {
        return kind.twoState ? (raw != 0 ^ inverted ? 1 : 0) : scale.value(raw);
    }
}
