package sprag.bench.hand.board;

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

    static final List<String> WORDS =
            Arrays.stream(values()).map(InputCircuit::word).toList();

    /** The highest voltage of a 12 V side while it charges (V), and the lowest with which it works; common practice. */
    static final double HIGHEST_V = 15;

    static final double LOWEST_V = 9;
    /** What a pin of 5 V bears, and what it surely takes for high (0.6 of the supply; from memory of common microcontrollers). */
    static final double PIN_MAX_V = 5.2;

    static final double PIN_HIGH_V = 3;
    /** Forward voltage of an optocoupler's diode (V), and the current with which it surely conducts and that it bears (A). */
    static final double DIODE_V = 1.2;

    static final double LEAST_A = 0.002;
    static final double MOST_A = 0.02;

    /** How the pin must be read. */
    final PinKind kind;
    /** What the switch must join the wire to. */
    public final SwitchSupply supply;
    /** Whether the pin is low when the switch is closed. */
    final boolean lowWhenClosed;

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
