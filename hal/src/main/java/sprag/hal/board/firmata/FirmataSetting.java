package sprag.hal.board.firmata;

import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Unit;

/** What is set for a board that speaks Firmata. One row each. */
enum FirmataSetting implements Row {
    // @formatter:off
    //           default  min   max  a value outside the range would
    SAMPLING_MS (     10,   1,  200, "load the line with readings, or let the supervisor decide on old ones"),
    REFRESH_MS  (    100,  20, 1000, "load the line with outputs that have not changed, or leave a garbled one standing");
    // @formatter:on

    private final Spec spec;

    FirmataSetting(double byDefault, double min, double max, String risk) {
        spec = Spec.number(Unit.MILLISECOND, byDefault, min, max, risk);
    }

    @Override
    public Spec spec() {
        return spec;
    }

    @Override
    public String key() {
        return "firmata." + lowerName();
    }
}
