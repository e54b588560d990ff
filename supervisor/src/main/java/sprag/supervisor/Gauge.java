package sprag.supervisor;

/** State of charge and how far it may be off. */
final class Gauge {
    Gauge(Settings settings) {
        // nothing to keep yet
    }

    /** Counts one tick.
     *
     * @param c the quantities of this tick; the state of charge is set there
     * @param facts where GAUGE_UNSURE is set
     */
    void update(Conditioned c, TickFacts facts) {
        c.stateOfCharge = Double.NaN;
        c.stateOfChargeUncertainty = 1;
        facts.set(Fact.GAUGE_UNSURE, true);
    }
}
