package sprag.hal.board;

import java.util.List;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Unit;

/** The settings that every board has, for every protocol. One row each. */
public enum BoardSetting implements Row {
    // @formatter:off
    //          unit              default    min      max  a value outside the range would
    /** Speed of the line. */
    BAUD       (Unit.NUMBER,    Double.NaN,  300, 4_000_000, "name a speed that serial lines do not have"),
    /** Check bit of the line. */
    PARITY     (List.of("none", "even", "odd"), "name a parity that does not exist"),
    /** Stop bits of the line. */
    STOP_BITS  (Unit.NUMBER,             1,    1,         2, "name a number of stop bits that does not exist"),
    /** How long the board may take to answer after the port was opened. */
    CONNECT_MS (Unit.MILLISECOND,     6000,  200,    30_000, "give up while the board still starts, or wait for ever"),
    /** How long an input may be silent before the link counts as lost. */
    SILENCE_MS (Unit.MILLISECOND,      200,   20,      2000, "lose the link for one late frame, or drive on old readings"),
    /** How long commands may be silent before the outputs are released. */
    COMMAND_MS (Unit.MILLISECOND,      250,   50,      2000, "release for one late tick, or keep driving for a dead loop"),
    /** How long to wait before the program looks for a lost board again. */
    RETRY_MS   (Unit.MILLISECOND,     1000,  100,    60_000, "load the machine with attempts, or leave a board unnoticed");
    // @formatter:on

    private final Spec spec;

    BoardSetting(Unit unit, double byDefault, double min, double max, String risk) {
        spec = Spec.number(unit, byDefault, min, max, risk);
    }

    BoardSetting(List<String> choices, String risk) {
        spec = Spec.choice(0, choices, risk);
    }

    @Override
    public Spec spec() {
        return spec;
    }

    @Override
    public String key() {
        return "board." + lowerName();
    }
}
