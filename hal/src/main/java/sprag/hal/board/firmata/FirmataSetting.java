package sprag.hal.board.firmata;

import java.util.List;
import java.util.Locale;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Unit;

/** What is set for a board that speaks Firmata. One row each. */
enum FirmataSetting implements Row {
    // @formatter:off
    //           default  min   max  a value outside the range would
    SAMPLING_MS (     10,   1,  200, "load the line with readings, or let the supervisor decide on old ones"),
    REFRESH_MS  (    100,  20, 1000, "load the line with outputs that have not changed, or leave a garbled one standing");
    // @formatter:on

    private final double byDefault;
    private final double min;
    private final double max;
    private final String risk;

    FirmataSetting(double byDefault, double min, double max, String risk) {
        this.byDefault = byDefault;
        this.min = min;
        this.max = max;
        this.risk = risk;
    }

    @Override
    public String key() {
        return "firmata." + name().toLowerCase(Locale.ROOT);
    }

    @Override
    public Unit unit() {
        return Unit.MILLISECOND;
    }

    @Override
    public double byDefault() {
        return byDefault;
    }

    @Override
    public double min() {
        return min;
    }

    @Override
    public double max() {
        return max;
    }

    @Override
    public List<String> choices() {
        return List.of();
    }

    @Override
    public String risk() {
        return risk;
    }
}
