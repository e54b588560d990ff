package sprag.bench.evidence.campaign;

/** What would notice a fault that nothing noticed. The first row whose pattern the fault's name begins with speaks. */
enum Remedy {
    // @formatter:off
    BRAKE_LAMP     ("brake_lamp",      "a current sensor in the brake lamp's supply, and a look at the lamps before each drive"),
    LAMPS          ("ready_lamp",      "the lamp test at key-on: somebody must look"),
    FAULT_LAMP     ("fault_lamp",      "the lamp test at key-on: somebody must look"),
    CHARGE_LAMP    ("charge_lamp",     "the lamp test at key-on: somebody must look"),
    BUZZER         ("buzzer",          "the sound at ready: somebody must listen"),
    GAUGE          ("gauge_fraction",  "a driver who compares the gauge with the way driven"),
    HEARTBEAT      ("heartbeat",       "the external watchdog relay that the heartbeat feeds"),
    FAN            ("radiator_fan",    "a speed signal from the fan; until then the coolant temperature limits the drive"),
    FAN_PART       ("fan.",            "a speed signal from the fan; until then the coolant temperature limits the drive"),
    PUMP           ("coolant_pump",    "a flow switch; until then inverter and coolant temperature tell it under load"),
    PUMP_PART      ("pump.",           "a flow switch; until then inverter and coolant temperature tell it under load"),
    HEATER         ("heater",          "a thermostat of its own in the element's supply: it must exist in any case"),
    BLOWER         ("blower",          "an airflow switch"),
    THERMISTOR     ("motor_temp",      "a second sensor, or a comparison with the others after a night's rest"),
    THERMISTOR_2   ("inverter_temp",   "a second sensor, or a comparison with the others after a night's rest"),
    THERMISTOR_3   ("coolant_temp",    "a second sensor, or a comparison with the others after a night's rest"),
    THERMISTOR_4   ("pack_",           "a second measurement by the battery monitor and a comparison of the two"),
    THERMISTOR_5   ("charger_temp",    "the charger's own protection"),
    CELLS          ("cell_",           "the sum of the cells against the pack voltage"),
    CELL           ("cell.",           "the cells' limits, once it reaches them; until then it is within what cells may do"),
    MONITOR        ("battery_monitor", "its cell voltages and permits, where the vehicle has them"),
    COIL           ("coil_supply",     "auxiliary contacts; until then the bus at the next start"),
    LINK           ("link.",           "the board's own watchdog, which must release by itself"),
    ISOLATION      ("isolation",       "a monitor that tests itself; a yearly measurement by hand"),
    BUS            ("bus_voltage",     "a second measurement, e.g. the one in the inverter, compared with this one"),
    CURRENT        ("pack_current",    "a second sensor in the other pole, or torque times speed against voltage times current"),
    WHEEL          ("wheel_speed",     "the motor's speed, once both differ by more than slip"),
    SPEED          ("motor_speed",     "a wheel speed compared with this one"),
    PEDAL          ("pedal_",          "a second track, where there is none; a comparison of released positions at each key-on"),
    BRAKE          ("brake_pressed",   "a second brake switch or a pressure sensor, compared with this one"),
    LEVER          ("forward_switch",  "a lever whose two contacts must change together"),
    LEVER_2        ("reverse_switch",  "a lever whose two contacts must change together"),
    LOOPS          ("cut_loop",        "a loop tested on purpose at every service: open it and see everything drop"),
    LOOPS_2        ("cover_loop",      "a loop tested on purpose at every service: open it and see everything drop"),
    LOOPS_3        ("crash_loop",      "a loop tested on purpose at every service: open it and see everything drop"),
    PERMITS        ("discharge_permit","a toggling permit instead of a level"),
    PERMITS_2      ("charge_permit",   "a toggling permit instead of a level"),
    AUX            ("negative_aux",    "the bus voltage during the weld test; the contact itself shows at the next opening"),
    AUX_2          ("positive_aux",    "the bus voltage during the weld test; the contact itself shows at the next opening"),
    AUX_3          ("precharge_aux",   "the bus voltage during the weld test; the contact itself shows at the next opening"),
    NEGATIVE       ("negative_contactor", "an auxiliary contact; until then the next weld test"),
    POSITIVE       ("positive_contactor", "an auxiliary contact; until then the next weld test"),
    RELAY_SLOW     ("precharge_relay.slow", "a shorter contactor.release_ms, if the relay allows it"),
    RELAY_LATE     ("precharge_relay.delay", "a shorter contactor.release_ms, if the relay allows it"),
    RELAY_WELDED   ("precharge_relay.welded", "an auxiliary contact on the relay"),
    RESISTOR_SHORT ("precharge_resistor.shorted", "nothing: one inrush comes before the rise can be seen to be too fast"),
    PRECHARGE      ("precharge",       "an auxiliary contact on the relay; until then the next precharge"),
    LOCK           ("plug_lock",       "a second look by hand: pull at the plug before leaving it"),
    PLUG           ("plug_present",    "proximity and pilot still tell the plug; compare the three at every charge"),
    PROXIMITY      ("proximity",       "plug switch and pilot still tell the plug; compare the three at every charge"),
    PILOT          ("pilot",           "the station: it watches the same wire"),
    STATION        ("station",         "a measurement of the a.c. current at the inlet"),
    CHARGER        ("charger",         "current measured for each charger, compared with its share"),
    CHARGE         ("charge_",         "current measured for each charger, compared with its share"),
    DCDC           ("dcdc",            "the 12 V level while the bus is up"),
    LV             ("lv_",             "a battery test at service"),
    TORQUE         ("torque_request",  "torque fed back by the inverter and compared with the request"),
    INVERTER       ("inverter",        "torque fed back by the inverter and compared with the request"),
    MOTOR          ("motor",           "torque fed back by the inverter and compared with the request"),
    RESISTOR       ("resistor",        "the next precharge"),
    BUS_SHORT      ("bus.shorted",     "the fuse, and enclosed bus parts"),
    BLEED          ("bus.bleed_open",  "a second bleed resistor; measure before touching"),
    BUS_LOAD       ("bus.load",        "the next precharge"),
    FUSE           ("pack_fuse",       "a charger with a voltage limit of its own"),
    CAPACITOR      ("bus.",            "the next precharge, or the bleed-down after the next drive"),
    REGEN          ("regen_level",     "nothing needs to: a wrong level is felt and harms nobody"),
    KEY            ("key_on",          "a second key contact"),
    START          ("start_request",   "the check at key-on that the button was seen released"),
    SERVICE        ("service_reset",   "the check that it is seen released"),
    OTHER          ("",                "nothing in this vehicle; think about whether it needs noticing");
    // @formatter:on

    private final String pattern;
    private final String words;

    Remedy(String pattern, String words) {
        this.pattern = pattern;
        this.words = words;
    }

    /** What would notice a fault. */
    static String of(String fault) {
        for (Remedy remedy : values()) {
            if (fault.startsWith(remedy.pattern)) {
                return remedy.words;
            }
        }
        throw new IllegalStateException("the last row speaks for everything, but not for " + fault);
    }
}
