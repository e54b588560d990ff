package sprag.bench.trip.drive;

import sprag.bench.trip.trace.SpeedTrace;

/**
 * What came of one trip.
 *
 * @param drive how far it went
 * @param energy where the energy went
 * @param charge the state of charge
 * @param keeping how well the trace was kept
 * @param limits what acted
 * @param series values over time
 */
public record TripResult(
        Drive drive, Energy energy, Charge charge, Keeping keeping, LimitsMet limits, TripSeries series) {
    private static final double J_PER_WH = 3600;

    /**
     * How far it went.
     *
     * @param distanceM the way that was driven
     * @param timeS the time of the trace that has passed
     * @param ended why it ended before the trace did, else empty
     */
    public record Drive(double distanceM, double timeS, SpeedTrace trace, String ended) {}

    /**
     * Where the energy went.
     *
     * @param cellsJ what the chemistry of the cells gave
     * @param drawnJ taken from the terminals of the pack
     * @param givenBackJ given back to the terminals
     * @param accountsJ where it went, one for each {@link EnergyAccount}
     */
    public record Energy(double cellsJ, double drawnJ, double givenBackJ, double... accountsJ) {
        public double wh(EnergyAccount account) {
            return accountsJ[account.ordinal()] / J_PER_WH;
        }

        /** What the accounts do not explain, as a share of what was drawn. */
        public double unexplainedShare() {
            double sum = 0;
            for (double each : accountsJ) {
                sum += each;
            }
            return drawnJ > 0 ? (cellsJ - sum) / drawnJ : Double.NaN;
        }

        /** What regeneration gave back of what was drawn. */
        public double givenBackShare() {
            return drawnJ > 0 ? givenBackJ / drawnJ : Double.NaN;
        }
    }

    /**
     * The state of charge.
     *
     * @param startSoc at the start
     * @param endSoc at the end
     */
    public record Charge(double startSoc, double endSoc) {}

    public boolean complete() {
        return drive.ended().isEmpty();
    }

    public double km() {
        return drive.distanceM() / 1000;
    }

    /** Consumption at the cells; unknown for a car that did not move. */
    public double cellsWhPerKm() {
        return km() > 0.01 ? energy.cellsJ() / J_PER_WH / km() : Double.NaN;
    }
}
