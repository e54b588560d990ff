package sprag.bench.car;

import java.util.List;
import java.util.stream.Stream;
import sprag.supervisor.vocabulary.Signal;

/** What up to three chargers tell, charger by charger. */
public final class ChargerSignals {
    /** Whether each is ready. */
    public static final List<Signal> OK = List.of(Signal.CHARGER_1_OK, Signal.CHARGER_2_OK, Signal.CHARGER_3_OK);
    /** The current that each says it gives. */
    public static final List<Signal> CURRENT_A =
            List.of(Signal.CHARGER_1_CURRENT_A, Signal.CHARGER_2_CURRENT_A, Signal.CHARGER_3_CURRENT_A);
    /** The voltage that each measures at its output. */
    public static final List<Signal> VOLTAGE_V =
            List.of(Signal.CHARGER_1_VOLTAGE_V, Signal.CHARGER_2_VOLTAGE_V, Signal.CHARGER_3_VOLTAGE_V);

    /** All of these. */
    public static final List<Signal> ALL =
            Stream.of(OK, CURRENT_A, VOLTAGE_V).flatMap(List::stream).toList();

    private ChargerSignals() {}
}
