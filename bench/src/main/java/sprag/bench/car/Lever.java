package sprag.bench.car;

import static sprag.supervisor.vocabulary.Unit.AMPERE;
import static sprag.supervisor.vocabulary.Unit.CELSIUS;
import static sprag.supervisor.vocabulary.Unit.KPH;
import static sprag.supervisor.vocabulary.Unit.NUMBER;
import static sprag.supervisor.vocabulary.Unit.SWITCH;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import sprag.supervisor.vocabulary.Unit;

/** Everything a person can do to the car or its surroundings. One row each. */
public enum Lever {
    // @formatter:off
    //               unit     min   max  initial  how        what it is
    KEY             (SWITCH,    0,    1,    0,  Way.HELD, "key in the drive position"),
    START           (SWITCH,    0,    1,    0,  Way.HELD, "start button, held while 1"),
    DIRECTION       (NUMBER,   -1,    1,    0,  Way.HELD, "direction lever: -1 reverse, 0 neutral, 1 forward"),
    PEDAL           (NUMBER,    0,    1,    0,  Way.HELD, "travel of the accelerator pedal"),
    BRAKE           (NUMBER,    0,    1,    0,  Way.HELD, "travel of the brake pedal; the switch closes at 0.02, force grows with travel"),
    REGEN_LEVEL     (NUMBER,    0,    4,    1,  Way.HELD, "regeneration level, 0 is coast"),
    REGEN_DEMAND    (NUMBER,    0,    1,    0,  Way.HELD, "lever that asks for regeneration, where regen.by is lever"),
    GEAR            (NUMBER,    0,    1,    1,  Way.HELD, "gearbox with a clutch: the ratio as a share of drive.gear_ratio; 0 is neutral or the clutch pressed"),
    HEATER          (SWITCH,    0,    1,    0,  Way.HELD, "cabin heat asked for"),
    SERVICE_RESET   (SWITCH,    0,    1,    0,  Way.HELD, "reset button at the supervisor"),
    CUT_LOOP        (SWITCH,    0,    1,    1,  Way.HELD, "emergency cut-off and service switch, 1 is closed"),
    COVER_LOOP      (SWITCH,    0,    1,    1,  Way.HELD, "connectors and lids, 1 is closed"),
    CRASH_LOOP      (SWITCH,    0,    1,    1,  Way.HELD, "inertia switch, 1 is closed"),
    DISCHARGE_PERMIT(SWITCH,    0,    1,    1,  Way.HELD, "0 makes the battery monitor withdraw the permit, 1 leaves it to its own rules"),
    CHARGE_PERMIT   (SWITCH,    0,    1,    1,  Way.HELD, "0 makes the battery monitor withdraw the permit, 1 leaves it to its own rules"),
    PLUG            (SWITCH,    0,    1,    0,  Way.HELD, "charging cable in the inlet and at the station; 0 pulls it out, or pulls in vain while a lock holds it"),
    LATCH           (SWITCH,    0,    1,    0,  Way.HELD, "latch button of a type-1 connector pressed"),
    CABLE_A         (AMPERE,   13,   63,   32,  Way.HELD, "rating of the cable, coded in its connector (13, 20, 32 or 63)"),
    STATION_ON      (SWITCH,    0,    1,    1,  Way.HELD, "station has mains and is willing"),
    STATION_LIMIT_A (AMPERE,    0,   80,   32,  Way.HELD, "current the station offers; below 6 it offers none"),
    GRADE_PERCENT   (NUMBER,  -40,   40,    0,  Way.HELD, "slope of the road, positive uphill in forward direction"),
    WHEEL_SLIP_KPH  (KPH,     -250,  100,    0,  Way.HELD, "what the driven wheels turn faster than the road, as on ice; -250 locks them; only the speed sensor of the motor sees it"),
    HEADWIND_KPH    (KPH,      -80,   80,    0,  Way.HELD, "wind along the road, positive against a car that drives forward"),
    AMBIENT_C       (CELSIUS, -40,   60,   20,  Way.HELD, "temperature of the air"),
    SOC             (NUMBER,    0,    1,  0.8,  Way.ONCE, "sets the state of charge"),
    LV_SOC          (NUMBER,    0,    1,  0.8,  Way.ONCE, "sets the state of charge of the 12 V battery"),
    PACK_TEMP_C     (CELSIUS, -40,  100,   20,  Way.ONCE, "sets the temperature of the pack"),
    MOTOR_TEMP_C    (CELSIUS, -40,  220,   20,  Way.ONCE, "sets the temperature of the motor"),
    INVERTER_TEMP_C (CELSIUS, -40,  150,   20,  Way.ONCE, "sets the temperature of the inverter"),
    COOLANT_TEMP_C  (CELSIUS, -40,  130,   20,  Way.ONCE, "sets the temperature of the coolant"),
    CHARGER_TEMP_C  (CELSIUS, -40,  130,   20,  Way.ONCE, "sets the temperature of the chargers"),
    HEATER_TEMP_C   (CELSIUS, -40,  200,   20,  Way.ONCE, "sets the temperature of the heater"),
    SPEED_KPH       (KPH,    -200,  250,    0,  Way.ONCE, "sets the speed");
    // @formatter:on

    /** Whether a lever stays where it is put or sets something once. */
    public enum Way {
        /** Acts as long as it stands there. */
        HELD,
        /** Sets a start condition when it is moved, and then lets go. */
        ONCE
    }

    /** How many levers there are. */
    public static final int COUNT = values().length;

    /** What it is given in. */
    public final Unit unit;
    /** The least it can be. */
    public final double min;
    /** The most it can be. */
    public final double max;
    /** Where it stands at first. */
    public final double initial;
    /** Whether it stays where it is put, or sets something once. */
    public final Way way;
    /** One sentence for people. */
    public final String meaning;

    Lever(Unit unit, double min, double max, double initial, Way way, String meaning) {
        this.unit = unit;
        this.min = min;
        this.max = max;
        this.initial = initial;
        this.way = way;
        this.meaning = meaning;
    }

    /** The name in files and on pages, e.g. {@code station_limit_a}. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** The lever of a name. */
    public static Optional<Lever> of(String key) {
        return Arrays.stream(values()).filter(l -> l.key().equals(key)).findFirst();
    }

    /** The lever of a name that must be one.
     *
     * @throws IllegalArgumentException when there is none
     */
    public static Lever named(String key) {
        return of(key).orElseThrow(() -> new IllegalArgumentException("no lever is called " + key));
    }
}
