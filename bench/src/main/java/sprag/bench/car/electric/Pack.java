package sprag.bench.car.electric;

import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/**
 * The pack: open-circuit voltage, a resistance that acts at once, and one resistor with a capacitor for the slow part.
 *
 * <pre>
 *          polarOhm
 *       +--/\/\/\--+
 *  ocv -+          +--/\/\/\-- terminal
 *       +----||----+  seriesOhm
 *          polarV
 * </pre>
 *
 * <p>All cells share charge and resistance; the fullest and the emptiest differ from the mean by half the spread.
 */
public final class Pack {
    private static final double SECONDS_PER_HOUR = 3600;
    private static final double REFERENCE_C = 25;
    private static final double NOTHING_V = 1e-9;

    private final CellCurve curve;
    private final int cells;
    private final double perCells;
    private final double perCapacity;
    private final double cellOhm;
    private final double cellPolarOhm;
    private final double polarTimeS;
    private final double logPerKelvin;
    private final double halfSpread;

    /** State of charge. */
    public double soc;
    /** Voltage of the whole pack at rest, and the slow part's voltage that is taken from it under load. */
    public double ocvV;

    double polarV;
    /** Resistance of the whole pack that acts at once. */
    public double seriesOhm;
    /** Mean temperature. */
    public double tempC;
    /** Highest and lowest cell. */
    public double cellMaxV;

    public double cellMinV;
    /** Chemical energy taken out, heat in the cells, energy at the terminals; all since the start. */
    public double storedOutJ;

    public double lossJ;
    public double terminalOutJ;

    /** Energy in the capacitor of the slow part: neither heat nor at the terminals. */
    public double polarStoredJ;

    private double polarOhm;
    private double stepS = -1;
    private double perStep;
    private double polarKeep;

    public Pack(Vehicle vehicle, double ambientC) {
        curve = CellCurve.of(Parameter.PACK_CHEMISTRY.choices().get((int) vehicle.get(Parameter.PACK_CHEMISTRY)));
        cells = (int) vehicle.get(Parameter.PACK_CELLS);
        perCells = 1.0 / cells;
        perCapacity = 1 / (vehicle.get(CarParameter.CELLS_CAPACITY_AH) * SECONDS_PER_HOUR);
        cellOhm = vehicle.get(CarParameter.CELLS_RESISTANCE_MOHM) / 1000;
        cellPolarOhm = vehicle.get(CarParameter.CELLS_POLAR_MOHM) / 1000;
        polarTimeS = vehicle.get(CarParameter.CELLS_POLAR_S);
        logPerKelvin = StrictMath.log(vehicle.get(CarParameter.CELLS_COLD_PER_10_K)) / 10;
        halfSpread = vehicle.get(CarParameter.CELLS_SPREAD_SHARE) / 2;
        soc = vehicle.get(CarParameter.CELLS_START_SHARE);
        tempC = ambientC;
        heat();
        settle(0, 0, 0);
    }

    /** Follows the temperature: colder than 25 C the resistance grows, warmer it stays. */
    public void heat() {
        double cold = StrictMath.exp(logPerKelvin * Math.max(0, REFERENCE_C - tempC));
        seriesOhm = cells * cellOhm * cold;
        double otherOhm = cells * cellPolarOhm * cold;
        // With the same time constant the capacitor shrinks as its resistor grows; what is stored in it stays.
        polarV = polarOhm > 0 ? polarV * Math.sqrt(otherOhm / polarOhm) : 0;
        polarOhm = otherOhm;
    }

    /** Brings the open-circuit voltage and the cells up to date, each 10 ms. */
    public void settle(double currentA, double highV, double lowV) {
        ocvV = cells * curve.volts(soc);
        double dropV = (polarV + currentA * seriesOhm) * perCells;
        cellMaxV = curve.volts(soc + halfSpread) - dropV + highV;
        cellMinV = Math.max(0, curve.volts(soc - halfSpread) - dropV - lowV);
    }

    /** The voltage behind the series resistance. */
    public double sourceV() {
        return ocvV - polarV;
    }

    /**
     * Books one step of current.
     *
     * @param chargeAs the integral of the current, positive out of the pack
     * @param squareA2s the integral of its square
     */
    void draw(double chargeAs, double squareA2s, double dtS) {
        if (dtS != stepS) {
            stepS = dtS;
            perStep = 1 / dtS;
            polarKeep = StrictMath.exp(-dtS / polarTimeS);
        }
        double outJ = ocvV * chargeAs;
        double seriesJ = seriesOhm * squareA2s;
        double slowJ = polarV * chargeAs;
        storedOutJ += outJ;
        terminalOutJ += outJ - seriesJ - slowJ;
        soc -= chargeAs * perCapacity;
        double towardsV = polarOhm * chargeAs * perStep;
        double nextV = towardsV + (polarV - towardsV) * polarKeep;
        polarV = Math.abs(nextV) > NOTHING_V ? nextV : 0;
        double storedJ = polarOhm > 0 ? polarV * polarV * polarTimeS / (2 * polarOhm) : 0;
        lossJ += seriesJ + slowJ - (storedJ - polarStoredJ);
        polarStoredJ = storedJ;
    }
}
