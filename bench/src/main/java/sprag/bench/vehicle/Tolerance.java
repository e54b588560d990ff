package sprag.bench.vehicle;

import static sprag.supervisor.vocabulary.Unit.AMPERE;
import static sprag.supervisor.vocabulary.Unit.CELSIUS;
import static sprag.supervisor.vocabulary.Unit.NUMBER;
import static sprag.supervisor.vocabulary.Unit.VOLT;

import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Unit;

/**
 * By how much the cars that are built from one drawing differ from it and from each other: parts, sensors, age, the day.
 * The review of the sizes uses the same values. The supervisor never sees them.
 *
 * <p>The key follows from the name: {@code CAPACITANCE} is {@code capacitance} in the section {@code [tolerance]}.
 */
public enum Tolerance implements Row {
    // @formatter:off
    //              unit     default    min   max   a value outside the range would
    CAPACITANCE    (NUMBER,      0.2,    0,   0.8, "describe no capacitor (share by which the bus capacitance may differ; 0.2 is common for electrolytic ones)"),
    RESISTANCE     (NUMBER,     0.05,    0,   0.5, "describe no resistor (share by which precharge and bleed resistor may differ; 0.05 is common)"),
    VOLTAGE        (NUMBER,     0.01,    0,   0.2, "describe no sensor (share by which the readings of bus and pack may differ from each other; common practice)"),
    TIMES          (NUMBER,      0.5,    0,     3, "describe no relay (share by which contactors and relays may be slower than their data sheet says; common practice)"),
    COIL           (NUMBER,      0.1,    0,   0.3, "describe no coil (share by which the voltages may differ at which a coil pulls in and lets go; common practice: warm copper)"),
    CURRENT        (NUMBER,     0.02,    0,   0.2, "describe no sensor (share by which the current reading may be off; common practice)"),
    CURRENT_A      (AMPERE,      0.5,    0,    50, "describe no sensor (what the current sensor may show without a current; common practice)"),
    CELL_V         (VOLT,      0.005,    0,   0.1, "describe no battery monitor (by which cell voltages may be off; common practice)"),
    PEDAL_V        (VOLT,       0.03,    0,   0.5, "describe no pedal (by which each track may be off; common practice)"),
    TEMPERATURE_K  (NUMBER,        2,    0,    20, "describe no thermistor (kelvins by which each sensor may be off; common practice)"),
    SUPPLY         (NUMBER,     0.01,    0,   0.1, "describe no board (share by which the readings of the 5 V and 12 V supplies may be off; common practice)"),
    PILOT          (NUMBER,     0.03,    0,   0.1, "describe no station (share by which the reading of the pilot may be off; common practice)"),
    UNMEASURED     (NUMBER,      0.1,    0,   0.5, "describe no part (share by which what nobody has measured may differ: losses, heat, brakes, lag; chosen)"),
    LOAD           (NUMBER,     0.15,    0,     1, "describe no load (share by which the mass may differ; chosen)"),
    ROLLING        (NUMBER,     0.25,    0,     1, "describe no tyre and no body (share by which rolling and drag may differ; chosen)"),
    AGE_CAPACITY   (NUMBER,      0.2,    0,   0.6, "describe no cell (share of its capacity that an old pack has lost; 0.2 is the usual end of life, common practice)"),
    AGE_RESISTANCE (NUMBER,        1,    0,     4, "describe no cell (share by which the resistance of an old pack has grown; common practice)"),
    COLD_C         (CELSIUS,       5,  -40,    60, "describe no day (the coldest day; chosen for a temperate climate)"),
    HOT_C          (CELSIUS,      35,  -40,    60, "describe no day (the hottest day; chosen for a temperate climate)"),
    CHARGE_LOW     (NUMBER,      0.2,    0,     1, "describe no pack (least state of charge at the start; chosen)"),
    CHARGE_HIGH    (NUMBER,      0.9,    0,     1, "describe no pack (greatest state of charge at the start; chosen)"),
    LV_CHARGE_LOW  (NUMBER,      0.5,    0,     1, "describe no battery (least state of charge of the 12 V battery at the start, the greatest is full; chosen)");
    // @formatter:on

    private final Spec spec;

    Tolerance(Unit unit, double byDefault, double min, double max, String risk) {
        spec = Spec.number(unit, byDefault, min, max, risk);
    }

    @Override
    public Spec spec() {
        return spec;
    }

    @Override
    public String key() {
        return "tolerance." + lowerName();
    }
}
