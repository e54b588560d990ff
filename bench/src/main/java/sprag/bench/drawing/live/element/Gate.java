package sprag.bench.drawing.live.element;

/**
 * When something conducts: a control in one position, and a coil or another consumer that is fed or not.
 *
 * @param control which control; {@link #NONE} when it does not matter
 * @param opens whether setting the control opens it
 * @param consumer which consumer; {@link #NONE} when it does not matter
 * @param releases whether feeding the consumer opens it, as at a rest contact
 */
public record Gate(int control, boolean opens, int consumer, boolean releases) {
    public static final int NONE = -1;
    public static final Gate ALWAYS = new Gate(NONE, false, NONE, false);

    public static Gate closedBy(int control) {
        return new Gate(control, false, NONE, false);
    }

    public static Gate openedBy(int control) {
        return new Gate(control, true, NONE, false);
    }

    public static Gate pulledBy(int consumer) {
        return new Gate(NONE, false, consumer, false);
    }

    public static Gate releasedBy(int consumer) {
        return new Gate(NONE, false, consumer, true);
    }

    /** Closed while the control is set and the consumer is fed. */
    public static Gate both(int control, int consumer) {
        return new Gate(control, false, consumer, false);
    }

    /** The same gate seen from the other throw of a switch. */
    public Gate inverse() {
        return new Gate(control, !opens, consumer, !releases);
    }

    /** Where it conducts, one bit for each of 64 combinations. */
    public long mask(long[] controls, long[] fed) {
        long mask = -1;
        if (control != NONE) {
            mask &= opens ? ~controls[control] : controls[control];
        }
        if (consumer != NONE) {
            mask &= releases ? ~fed[consumer] : fed[consumer];
        }
        return mask;
    }
}
