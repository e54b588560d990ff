package sprag.bench.drawing.live.element;

/**
 * Something with two positions that does not follow from the rest of the circuit.
 *
 * @param kind what it is
 * @param part the part that it belongs to
 * @param setWords what is said when it is not in its position of rest, such as {@code cut_off pressed}
 */
public record Control(Kind kind, String part, String setWords) {
    /** What can have two positions. */
    public enum Kind {
        /** A switched output of the supervisor; at rest it is off. */
        OUTPUT,
        /** A cut-off or a service switch; at rest it conducts. */
        CUT_OFF,
        /** The drive position of the key; at rest it is off. */
        KEY,
        /** The start position of the key; at rest it is off. */
        KEY_START,
        /** Whether the time of a timer relay is over; at rest it is not. */
        TIMER,
        /** Any other switch; at rest is what a parked car with its doors shut shows. */
        SWITCH,
        /** A 12 V battery; at rest it is connected. */
        BATTERY,
        /** The mains at an inlet; at rest there are none. */
        STATION,
        /** A fuse; at rest it is whole. */
        FUSE,
        /** Contacts of which somebody else says where they are. */
        POSITION;

        /** Whether a hand, a moving part or a timer moves it, other than the drive position of the key and the cut-offs. */
        public boolean isSwitched() {
            return this == SWITCH || this == KEY_START || this == TIMER;
        }
    }
}
