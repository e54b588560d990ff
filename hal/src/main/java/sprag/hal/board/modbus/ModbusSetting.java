package sprag.hal.board.modbus;

import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Unit;

/** What is set for a module that speaks Modbus RTU. One row each. */
enum ModbusSetting implements Row {
    // @formatter:off
    //                 unit             default   min    max  a value outside the range would
    UNIT_ID           (Unit.NUMBER,          1,    1,   247, "name an address that no module can have"),
    TIMEOUT_MS        (Unit.MILLISECOND,    50,    5,  2000, "give up before a module can answer, or notice a dead one too late"),
    RETRIES           (Unit.NUMBER,          1,    0,     5, "notice a dead module too late"),
    REFRESH_MS        (Unit.MILLISECOND,   200,   20,  5000, "load the line with outputs that have not changed, or starve the watchdog"),
    /** Holding register of the module's own communication watchdog; -1 for none. */
    WATCHDOG_REGISTER (Unit.NUMBER,         -1,   -1, 65535, "name a register that does not exist"),
    /** What to write there, in the module's own unit. */
    WATCHDOG_VALUE    (Unit.NUMBER,          0,    0, 65535, "not fit into a register");
    // @formatter:on

    private final Spec spec;

    ModbusSetting(Unit unit, double byDefault, double min, double max, String risk) {
        spec = Spec.number(unit, byDefault, min, max, risk);
    }

    @Override
    public Spec spec() {
        return spec;
    }

    @Override
    public String key() {
        return "modbus." + lowerName();
    }
}
