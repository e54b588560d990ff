package sprag.bench.drawing.sheet;

import sprag.bench.review.wiring.schedule.PartKind;

/** The letter of a part: classes by what it is for, in the manner of IEC 81346-2. */
final class LetterClass {
    private LetterClass() {}

    /** One letter. */
    static String of(PartKind kind) {
        return switch (kind) {
            case SENSOR, SHUNT, CURRENT_SENSOR, ISOLATION_MONITOR, MONITOR, PEDAL -> "B";
            case HEATER, LAMP -> "E";
            case FUSE -> "F";
            case PACK, LV_BATTERY -> "G";
            case RELAY, TIMER, SUPERVISOR -> "K";
            case MOTOR, LOAD -> "M";
            case CONTACTOR -> "Q";
            case RESISTOR, SUPPRESSOR -> "R";
            case SWITCH, KEY, CUT_OFF -> "S";
            case INVERTER, DCDC, CHARGER -> "T";
            case SPLICE, CONNECTOR, INLET, CHASSIS -> "X";
            case OTHER -> "A";
        };
    }
}
