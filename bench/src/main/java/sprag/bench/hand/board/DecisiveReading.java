package sprag.bench.hand.board;

import java.util.Collection;
import java.util.List;
import java.util.function.Predicate;
import java.util.stream.Stream;
import sprag.bench.review.formula.DangerousVoltage;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/**
 * The readings that decide when a contactor may close and when it must open. A board that does not have one leaves it to the
 * simulated car: then real contactors follow an invented reading.
 */
public enum DecisiveReading {
    // @formatter:off
    //            signal                        what is decided by it
    BUS          (Signal.BUS_VOLTAGE_V,         "when the precharge ends, and whether the bus is dead"),
    PACK         (Signal.PACK_VOLTAGE_V,        "what the bus is compared with before the positive contactor closes"),
    CURRENT      (Signal.PACK_CURRENT_A,        "whether a contactor opens under load, and every overcurrent"),
    NEGATIVE_AUX (Signal.NEGATIVE_AUX_CLOSED,   "whether the negative contactor has moved or is welded"),
    PRECHARGE_AUX(Signal.PRECHARGE_AUX_CLOSED,  "whether the precharge relay has moved or is welded"),
    POSITIVE_AUX (Signal.POSITIVE_AUX_CLOSED,   "whether the positive contactor has moved or is welded");
    // @formatter:on

    private static final List<Output> CONTACTORS =
            List.of(Output.NEGATIVE_CONTACTOR, Output.PRECHARGE_RELAY, Output.POSITIVE_CONTACTOR);
    /** The auxiliary contacts, in the order of their contactors. */
    private static final List<Signal> CONTACTS =
            List.of(Signal.NEGATIVE_AUX_CLOSED, Signal.PRECHARGE_AUX_CLOSED, Signal.POSITIVE_AUX_CLOSED);

    private final Signal signal;
    private final String decides;

    DecisiveReading(Signal signal, String decides) {
        this.signal = signal;
        this.decides = decides;
    }

    /** The auxiliary contacts of all contactors. */
    static List<Signal> contacts() {
        return CONTACTS;
    }

    /** The auxiliary contact that answers a contactor, null for another output. */
    static Signal contactOf(Output output) {
        int index = CONTACTORS.indexOf(output);
        return index < 0 ? null : CONTACTS.get(index);
    }

    /** Those that the vehicle has and the board has not, one sentence each.
     *
     * @param isFitted whether the vehicle has a signal
     * @param real the signals of the board
     */
    public static List<String> invented(Predicate<Signal> isFitted, Collection<Signal> real) {
        return Stream.of(values())
                .filter(each -> isFitted.test(each.signal) && !real.contains(each.signal))
                .map(each -> each.signal.key() + " is simulated; it decides " + each.decides)
                .toList();
    }

    /** Whether real contactors would follow an invented bus voltage: then nothing but an absent pack makes arming safe.
     *
     * @param driven the outputs of the board
     */
    public static boolean needsPackAbsent(Collection<Signal> real, Collection<Output> driven) {
        return !real.contains(Signal.BUS_VOLTAGE_V) && CONTACTORS.stream().anyMatch(driven::contains);
    }

    /** What the board's own readings say against an absent pack; empty when nothing does.
     *
     * @param signal pack or bus voltage, read by the board
     * @param volts its reading, NaN when unknown
     */
    public static String againstAbsence(Signal signal, double volts) {
        if (Double.isNaN(volts)) {
            return signal.key() + " of the board gives no reading";
        }
        return Math.abs(volts) > DangerousVoltage.ABOVE_V
                ? signal.key() + " of the board reads " + Math.round(volts) + " V"
                : "";
    }
}
