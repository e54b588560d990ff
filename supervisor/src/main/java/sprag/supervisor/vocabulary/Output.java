package sprag.supervisor.vocabulary;

import static sprag.supervisor.vocabulary.Unit.AMPERE;
import static sprag.supervisor.vocabulary.Unit.NEWTON_METRE;
import static sprag.supervisor.vocabulary.Unit.NUMBER;
import static sprag.supervisor.vocabulary.Unit.SWITCH;
import static sprag.supervisor.vocabulary.Unit.VOLT;

import java.util.Locale;

/** Everything that can be commanded. One row each; released means 0 for every one of them. */
public enum Output {
    // @formatter:off
    //                       unit          what it does
    NEGATIVE_CONTACTOR     (SWITCH,       "closes the contactor in the negative traction line"),
    PRECHARGE_RELAY        (SWITCH,       "closes the relay in series with the precharge resistor, across the positive contactor"),
    POSITIVE_CONTACTOR     (SWITCH,       "closes the contactor in the positive traction line"),
    INVERTER_ENABLE        (SWITCH,       "lets the inverter switch"),
    TORQUE_REQUEST_NM      (NEWTON_METRE, "torque asked of the inverter, positive drives forward"),
    CHARGER_ENABLE         (SWITCH,       "lets the chargers deliver; also asks the station for power"),
    CHARGE_CURRENT_LIMIT_A (AMPERE,       "direct current asked of all chargers together"),
    CHARGE_VOLTAGE_LIMIT_V (VOLT,         "voltage the chargers must not pass"),
    CHARGER_1_LIMIT_A      (AMPERE,       "first charger's share of the direct current"),
    CHARGER_2_LIMIT_A      (AMPERE,       "second charger's share of the direct current"),
    CHARGER_3_LIMIT_A      (AMPERE,       "third charger's share of the direct current"),
    PLUG_LOCK              (SWITCH,       "drives the inlet's lock: 1 holds the plug, 0 lets it go"),
    DCDC_ENABLE            (SWITCH,       "lets the DC-DC converter feed the 12 V side"),
    COOLANT_PUMP           (SWITCH,       "runs the coolant pump"),
    RADIATOR_FAN_DUTY      (NUMBER,       "speed of the radiator fan, 0 to 1"),
    HEATER_BLOWER          (SWITCH,       "runs the heater's blower"),
    HEATER_ELEMENT         (SWITCH,       "switches the heater's element on the bus"),
    BRAKE_LAMP             (SWITCH,       "brake lamps at the rear"),
    READY_LAMP             (SWITCH,       "green: the car can move"),
    FAULT_LAMP             (SWITCH,       "red when latched, flashing yellow for a warning: see docs"),
    CHARGE_LAMP            (SWITCH,       "white: charging; flashing: waiting or refused"),
    BUZZER                 (SWITCH,       "ready-to-drive sound and warnings"),
    GAUGE_FRACTION         (NUMBER,       "state of charge shown to the driver, 0 to 1"),
    HEARTBEAT              (SWITCH,       "toggles every tick while the supervisor is alive, for an external watchdog relay");
    // @formatter:on

    /** How many outputs there are; no more than one long has bits. */
    public static final int COUNT = Bounds.counted(values().length, Long.SIZE, "outputs");

    /** What it is commanded in. */
    public final Unit unit;
    /** One sentence for people. */
    public final String meaning;

    Output(Unit unit, String meaning) {
        this.unit = unit;
        this.meaning = meaning;
    }

    /** The name in files, traces and on pages, e.g. {@code torque_request_nm}.
     *
     * @return the name in lower case with its unit
     */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** Whether it switches power: a contactor, a relay, an enable, a pump. Lamps, buzzer and heartbeat only show something.
     *
     * @return true when current or torque may follow from it
     */
    public boolean switchesPower() {
        return switch (this) {
            case BRAKE_LAMP, READY_LAMP, FAULT_LAMP, CHARGE_LAMP, BUZZER, HEARTBEAT -> false;
            default -> isSwitch();
        };
    }

    /** Whether it is a switch rather than a quantity.
     *
     * @return true for a switch
     */
    public boolean isSwitch() {
        return unit == SWITCH;
    }
}
