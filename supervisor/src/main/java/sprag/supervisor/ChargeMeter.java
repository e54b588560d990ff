package sprag.supervisor;

/** Keeps the long times of a charge. */
final class ChargeMeter {
    ChargeMeter(Settings settings) {
        // nothing to keep yet
    }

    /** Looks at the charge for one tick.
     *
     * @param last the commands of the tick before
     * @param facts where the charge's facts are set
     * @param settle the debouncer
     * @param c the quantities of this tick
     */
    void update(Commands last, TickFacts facts, Settle settle, Conditioned c) {
        facts.set(Fact.CHARGE_DUE, false);
        facts.set(Fact.CHARGE_DONE, true);
        facts.set(Fact.CHARGE_RETRY, false);
        facts.set(Fact.CHARGE_TOO_LONG, false);
        facts.set(Fact.CHARGER_RUNS_ON, settle.settle(Fact.CHARGER_RUNS_ON, false));
        facts.set(Fact.CHARGE_OVERVOLTAGE, settle.settle(Fact.CHARGE_OVERVOLTAGE, false));
    }
}
