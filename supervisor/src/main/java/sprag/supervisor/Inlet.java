package sprag.supervisor;

/** What the inlet shows: plug, cable and the station's offer. */
public final class Inlet {
    /** Supply behind the proximity contact (V). */
    public static final double PROXIMITY_SUPPLY_V = 5;

    Inlet(Settings settings) {
        // nothing to keep yet
    }

    /** Reads the inlet for one tick.
     *
     * @param in the readings
     * @param facts where the inlet's facts are set
     * @param settle the debouncer
     * @param out where the allowed current is set
     */
    void update(Readings in, TickFacts facts, Settle settle, Conditioned out) {
        facts.set(Fact.PLUG_SEEN, !in.isOff(Signal.PLUG_PRESENT));
        facts.set(Fact.CHARGE_OFFERED, false);
        facts.set(Fact.PILOT_INVALID, settle.settle(Fact.PILOT_INVALID, false));
        facts.set(Fact.PROXIMITY_INVALID, settle.settle(Fact.PROXIMITY_INVALID, false));
        facts.set(Fact.PROXIMITY_MISSING, settle.settle(Fact.PROXIMITY_MISSING, false));
        out.allowedAcA = 0;
    }

    /** The current that a pilot duty allows.
     *
     * @param duty 0 to 1
     * @return A a.c.; 0 for no charging, NaN for a duty that makes no sense
     */
    public static double dutyCurrentA(double duty) {
        return Double.NaN;
    }
}
