package sprag.bench.car.electric;

import sprag.bench.car.Faults;
import sprag.bench.car.PartFault;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/** What draws from the bus: the inverter, the heater, other loads of constant power, and a load left on by a fault. */
public final class BusLoads {
    private final double elementSiemens;
    private final double halfNominalV;
    private final double leftOnByDesignW;
    private double leftOnW;

    // inputs, set before each step
    /** Power of the inverter, less than 0 when it gives back. */
    public double inverterW;
    /** Constant power of other loads. */
    public double otherW;
    /** Whether the heater's element is connected. */
    public boolean heaterOn;

    /** Energy so far: the heater's, the inverter's, and that of all loads without the inverter. */
    public double heaterJ;

    public double inverterJ;
    public double loadJ;

    /** What the heater conducts in this step, and what a load left on conducts at low voltage. */
    double heaterSiemens;

    double leftOnSiemens;

    BusLoads(Vehicle vehicle) {
        double nominalV = vehicle.get(Parameter.PACK_NOMINAL_V);
        elementSiemens = vehicle.get(CarParameter.WARMER_POWER_W) / (nominalV * nominalV);
        halfNominalV = nominalV / 2;
        leftOnByDesignW = vehicle.get(CarParameter.PARTS_LEFT_ON_W);
    }

    void refresh(Faults faults) {
        leftOnW = faults.of(PartFault.BUS_LOAD_LEFT_ON, leftOnByDesignW);
    }

    /** Whether nothing takes or gives a constant power. */
    boolean isWithoutPower() {
        return inverterW == 0 && otherW == 0 && leftOnW == 0;
    }

    /** Brings the conductances up to date. Below half of the nominal voltage a load left on is a resistor. */
    void prepare(double busV) {
        leftOnSiemens = leftOnW > 0 && busV < halfNominalV ? leftOnW / (halfNominalV * halfNominalV) : 0;
        heaterSiemens = heaterOn ? elementSiemens : 0;
    }

    /** The constant power of all loads in this step. */
    double powerW() {
        return inverterW + otherW + (leftOnSiemens > 0 ? 0 : leftOnW);
    }

    /** Power of the heater's element at a bus voltage. */
    double heaterW(double busV) {
        return heaterOn ? elementSiemens * busV * busV : 0;
    }

    /** Books what loads of constant power took from the capacitors of a bus that the pack does not hold. */
    void bookStored(double takenJ, double powerW) {
        double inverterShare = powerW == 0 ? 0 : inverterW / powerW;
        inverterJ += takenJ * inverterShare;
        loadJ += takenJ * (1 - inverterShare);
    }

    /**
     * Books a step.
     *
     * @param powerW of all loads of constant power
     * @param secondsOfPower how long they had their power
     * @param squareVoltSeconds the integral of the square of the bus voltage
     * @param packSideJ what the loads on the pack's side took
     */
    void book(double powerW, double secondsOfPower, double squareVoltSeconds, double packSideJ) {
        inverterJ += inverterW * secondsOfPower;
        double heatJ = heaterSiemens * squareVoltSeconds;
        heaterJ += heatJ;
        loadJ += (powerW - inverterW) * secondsOfPower + heatJ + leftOnSiemens * squareVoltSeconds + packSideJ;
    }
}
