package sprag.bench.vehicle;

import static sprag.bench.vehicle.NoDefault.ABSENT;
import static sprag.supervisor.vocabulary.Unit.AMPERE;
import static sprag.supervisor.vocabulary.Unit.CELSIUS;
import static sprag.supervisor.vocabulary.Unit.JOULE;
import static sprag.supervisor.vocabulary.Unit.METRE;
import static sprag.supervisor.vocabulary.Unit.NUMBER;
import static sprag.supervisor.vocabulary.Unit.SECOND;
import static sprag.supervisor.vocabulary.Unit.VOLT;
import static sprag.supervisor.vocabulary.Unit.WATT;

import java.util.List;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Unit;

/**
 * What only the design review needs to know: cables, fuses, ratings. The supervisor never sees these values.
 *
 * <p>The key follows from the name: {@code CABLE_MAIN_MM2} is {@code main_mm2} in the section {@code [design.cable]}. All
 * may be left out; what then cannot be judged is said in a note.
 */
public enum SizingParameter implements Row {
    // @formatter:off
    //                        unit     default    min      max   a value outside the range would
    CABLE_MAIN_MM2           (NUMBER,    ABSENT,   0.5,    400, "describe no cable (the two between pack and inverter)"),
    CABLE_MAIN_LENGTH_M      (METRE,     ABSENT,   0.1,     50, "describe no cable (one way)"),
    CABLE_LASTING_A          (AMPERE,    ABSENT,     1,   2000, "heat the cable as no real journey does (root mean square over the hardest half hour)"),
    CABLE_INSULATION_C       (CELSIUS,      105,    60,    250, "describe no insulation"),
    CABLE_RATED_V            (VOLT,      ABSENT,    12,   5000, "describe no traction cable (d.c. between conductor and screen or body)"),
    CABLE_THIN_INSULATION_C  (CELSIUS,      105,    60,    250, "describe no insulation (12 V and signal wires)"),
    CABLE_AMBIENT_C          (CELSIUS,       50,     0,    150, "describe no place in a car (air around the cables)"),
    CABLE_BUNDLED            (NUMBER,         2,     1,     60, "describe no bundle (traction conductors that lie together)"),
    CABLE_STRANDS            (           1, List.of("class-2", "class-5", "class-5-tinned"), "make the drop wrong (IEC 60228: class 2 has few strands, class 5 many fine ones)"),
    CABLE_DROP_SHARE         (NUMBER,      0.03, 0.001,    0.2, "allow a drop that nothing stands"),

    FUSE_RATED_V             (VOLT,      ABSENT,    12,   2000, "describe no fuse (d.c.)"),
    FUSE_BREAKS_A            (AMPERE,    ABSENT,   100, 500000, "describe no fuse (breaking capacity, d.c.)"),
    FUSE_POINT_1_A           (AMPERE,    ABSENT,     1,  50000, "describe no fuse (a point of its time-current curve)"),
    FUSE_POINT_1_S           (SECOND,    ABSENT,  1e-4,  20000, "describe no fuse (time to melt at point_1_a)"),
    FUSE_POINT_2_A           (AMPERE,    ABSENT,     1,  50000, "describe no fuse (a second point, more current)"),
    FUSE_POINT_2_S           (SECOND,    ABSENT,  1e-4,  20000, "describe no fuse"),
    FUSE_POINT_3_A           (AMPERE,    ABSENT,     1,  50000, "describe no fuse (a third point, more current still)"),
    FUSE_POINT_3_S           (SECOND,    ABSENT,  1e-4,  20000, "describe no fuse"),

    RESISTOR_PULSE_J         (JOULE,     ABSENT,   0.1, 100000, "describe no resistor (energy of one pulse, from cold)"),
    RESISTOR_LASTING_W       (WATT,      ABSENT,   0.1,   5000, "describe no resistor (lasting power)"),
    RESISTOR_RATED_V         (VOLT,      ABSENT,    10,   5000, "describe no resistor"),

    CONTACTS_RATED_V         (VOLT,      ABSENT,    12,   2000, "describe no contactor (d.c.)"),
    CONTACTS_CARRIES_A       (AMPERE,    ABSENT,     1,   5000, "describe no contactor (for ever)"),
    CONTACTS_MAKES_A         (AMPERE,    ABSENT,     1,  50000, "describe no contactor (inrush it may close onto)"),
    CONTACTS_BREAKS_A        (AMPERE,    ABSENT,     1,  50000, "describe no contactor (at the voltage of the pack)"),
    CONTACTS_RELAY_BREAKS_A  (AMPERE,    ABSENT,   0.1,   1000, "describe no precharge relay (at the voltage of the pack)"),

    INSULATION_CREEPAGE_MM   (NUMBER,    ABSENT,   0.5,    100, "describe no surface (the least way over insulation that you built)"),

    SUPPLY_LIGHTS_A          (AMPERE,    ABSENT,     0,    200, "describe no car (12 V: all lamps at night)"),
    SUPPLY_WIPERS_A          (AMPERE,    ABSENT,     0,    200, "describe no car (12 V: wipers, rear window)"),
    SUPPLY_ASSIST_A          (AMPERE,    ABSENT,     0,    200, "describe no car (12 V: brake and steering assistance, lasting)"),

    SUPPLY_PARKING_DAYS      (NUMBER,        21,     1,    365, "describe no car (days that it must stand and still wake up)"),

    STATION_BREAKER_A        (AMPERE,    ABSENT,     6,    400, "describe no supply circuit (its over-current device)"),
    STATION_CABLE_A          (AMPERE,    ABSENT,     6,    400, "describe no charging cable"),

    SENSOR_ADC_BITS          (NUMBER,        12,     8,     24, "describe no converter"),
    SENSOR_RESOLUTION_K      (NUMBER,         1,  0.01,     10, "ask for more or less than a limit needs"),
    SENSOR_SPEED_MARGIN      (NUMBER,      0.05,     0,    0.5, "leave no room above the speed limit, or too much"),

    WIRING_INVERTER_SUPPLY   (           ABSENT, List.of("any-time", "after-precharge"), "let the inverter's logic live when it must not");
    // @formatter:on

    private final Spec spec;

    SizingParameter(Unit unit, double byDefault, double min, double max, String risk) {
        spec = Spec.number(unit, byDefault, min, max, risk);
    }

    SizingParameter(double byDefault, List<String> choices, String risk) {
        spec = Spec.choice(byDefault, choices, risk);
    }

    @Override
    public Spec spec() {
        return spec;
    }

    @Override
    public String key() {
        return "design." + Row.super.key();
    }

    @Override
    public boolean required() {
        return false;
    }
}
