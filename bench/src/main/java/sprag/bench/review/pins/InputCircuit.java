package sprag.bench.review.pins;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import sprag.bench.review.wiring.circuit.SwitchSupply;
import sprag.hal.board.PinKind;

/** The circuit between a wire of the loom and a pin of a board, for a switch. One row each. */
public enum InputCircuit {
    // @formatter:off
    //              pin reads   the switch closes to        pin is low when closed
    TO_GROUND      (PinKind.PULL_UP, SwitchSupply.GROUND,        true),
    SUPPLY_5V      (PinKind.DIGITAL, SwitchSupply.SENSOR_SUPPLY, false),
    SUPPLY_12V     (PinKind.DIGITAL, SwitchSupply.TWELVE_VOLT,   false),
    DIVIDER        (PinKind.DIGITAL, SwitchSupply.TWELVE_VOLT,   false),
    OPTOCOUPLER    (PinKind.PULL_UP, SwitchSupply.TWELVE_VOLT,   true);
    // @formatter:on

    /** The words in a board's file, in the order of the rows. */
    public static final List<String> WORDS =
            Arrays.stream(values()).map(InputCircuit::word).toList();

    /** The highest voltage of a 12 V side while it charges (V); common practice. */
    public static final double HIGHEST_V = 15;
    /** The lowest voltage with which a 12 V side works (V); common practice. */
    public static final double LOWEST_V = 9;
    /** What a pin of 5 V bears (V; from memory of common microcontrollers). */
    public static final double PIN_MAX_V = 5.2;
    /** What such a pin surely takes for high (V; 0.6 of the supply, from memory of common microcontrollers). */
    public static final double PIN_HIGH_V = 3;
    /** Forward voltage of an optocoupler's diode (V). */
    public static final double DIODE_V = 1.2;
    /** The current with which an optocoupler surely conducts (A). */
    public static final double LEAST_A = 0.002;
    /** The current that an optocoupler bears (A). */
    public static final double MOST_A = 0.02;

    /** How the pin must be read. */
    public final PinKind kind;
    /** What the switch must join the wire to. */
    public final SwitchSupply supply;
    /** Whether the pin is low when the switch is closed. */
    public final boolean lowWhenClosed;

    InputCircuit(PinKind kind, SwitchSupply supply, boolean lowWhenClosed) {
        this.kind = kind;
        this.supply = supply;
        this.lowWhenClosed = lowWhenClosed;
    }

    /** The word in a board's file. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
