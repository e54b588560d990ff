package sprag.bench.drawing.live;

/**
 * Something with two positions that does not follow from the rest of the circuit.
 *
 * @param kind what it is
 * @param part the part that it belongs to
 * @param setWords what is said when it is not in its position of rest, such as {@code cut_off pressed}
 */
public record Control(Kind kind, String part, String setWords) {
    /** Ends what is said of a timer relay whose time is over. */
    static final String HAS_RUN = " has run";

    /** Begins what is said of an inlet that gets mains. */
    static final String STATION = "station";

    /** What can have two positions. */
    public enum Kind {
        /** A switched output of the supervisor; at rest it is off. */
        OUTPUT,
        /** A cut-off or a service switch; at rest it conducts. */
        CUT_OFF,
        /** The drive position of the key; at rest it is off. */
        KEY,
        /** Any other switch; at rest is what a parked car with its doors shut shows. */
        SWITCH,
        /** A source that can be there or not. */
        SOURCE,
        /** A fuse; at rest it is whole. */
        FUSE,
        /** Contacts of which somebody else says where they are. */
        POSITION
    }
}
