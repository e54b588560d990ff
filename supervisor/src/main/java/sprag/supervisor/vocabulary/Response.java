package sprag.supervisor.vocabulary;

/** What an interlock does, strongest first. A stronger response includes what the weaker ones forbid. */
public enum Response {
    /** Everything opens at once, under load if need be (stop category 0 in the sense of EN 60204-1). */
    OPEN_NOW("asks everything to open at once"),
    /** Torque or charge current goes to zero, then the contactors open at low current (stop category 1). */
    STOP_THEN_OPEN("stops, then opens the contactors"),
    /** No torque; the contactors stay as they are, so that lights, steering and heating go on. */
    ZERO_TORQUE("takes the torque away"),
    /** A start is refused. */
    BLOCK_START("refuses a start"),
    /** A charge is refused, or brought to an end. Asked before {@link #LIMIT}, which it includes. */
    BLOCK_CHARGE("refuses or ends a charge"),
    /** Torque or current is reduced. */
    LIMIT("reduces torque or current"),
    /** The driver is told. */
    WARN("warns");

    /** The same for people, to follow the name of an interlock. */
    public final String words;

    Response(String words) {
        this.words = words;
    }
}
