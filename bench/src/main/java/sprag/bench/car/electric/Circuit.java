package sprag.bench.car.electric;

import sprag.bench.car.Faults;
import sprag.bench.car.PartFault;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;

/**
 * Pack terminals, contactor box and bus: one node with a capacitor, solved exactly over each step.
 *
 * <pre>
 *            fuse   negative   positive
 *  pack  +---[]-------/ ---------/ ------+-----+------+------+------+----- bus
 *        |                |              |     |      |      |      |
 *   pack-side loads       +-/ --/\/\/\---+   ====   bleed  heater  constant power,
 *   and chargers       precharge  resistor     |      |      |     chargers, spinning motor
 * </pre>
 *
 * <p>A load of constant power counts as the current it draws at the final voltage while a contactor holds the bus. On a bus
 * that nothing holds it takes its energy from the capacitors. Inductance is left out, so real peaks are lower.
 */
public final class Circuit {
    private static final double CAPACITOR_LEFT_SHARE = 0.01;
    private static final double BLEED_LEFT_SHARE = 0.01;

    private final double soundCapacitanceF;
    private final double soundBleedSiemens;
    private final double shortSiemens;
    private final double motorSiemens;
    private final ExactStep exact = new ExactStep();

    /** Everything between the pack's terminals and the bus. */
    public final ContactorBox box;
    /** Everything that draws from the bus. */
    public final BusLoads loads;

    /** Voltage of the bus, and of the pack at its terminals. */
    public double busV;

    public double packV;
    /** Integral of the pack's voltage over the last step. */
    public double packVoltSeconds;
    /** Mean current of the pack in the last step. */
    public double packA;
    /** Heat in the bleed resistor so far. */
    public double bleedJ;
    /** Work that the spinning motor did on the bus in the last step, and its part that became heat in the motor. */
    public double emfWorkJ;

    public double emfLossJ;

    // inputs, set before each step
    /** Current of the loads and of the chargers on the pack's side. */
    public double packLoadA;

    public double packChargeA;
    /** Current of the chargers on the bus. */
    public double busChargeA;
    /** Rectified voltage of the motor; 0 while the inverter controls it. */
    public double emfV;

    private double capacitanceF;
    private double bleedAndShortSiemens;
    private double emfSiemens;
    /** One over the voltage that loads of constant power see; 0 while there is none. */
    private double perVolt;

    public Circuit(Vehicle vehicle, double openPackV) {
        packV = openPackV;
        soundCapacitanceF = vehicle.get(CarParameter.PARTS_CAPACITANCE_UF) / 1e6;
        soundBleedSiemens = 1 / vehicle.get(CarParameter.PARTS_BLEED_OHM);
        shortSiemens = 1 / vehicle.get(CarParameter.PARTS_SHORT_OHM);
        motorSiemens = 1 / vehicle.get(CarParameter.MACHINE_SOURCE_OHM);
        box = new ContactorBox(vehicle);
        loads = new BusLoads(vehicle);
    }

    /** Takes over the pack's voltage while no current flows. */
    public void stand(Pack pack) {
        packV = pack.sourceV();
    }

    /** Takes over the faults after a change. */
    public void refresh(Faults faults) {
        box.refresh(faults);
        loads.refresh(faults);
        boolean missing = faults.has(PartFault.BUS_CAPACITOR_MISSING);
        capacitanceF = missing ? soundCapacitanceF * CAPACITOR_LEFT_SHARE : soundCapacitanceF;
        boolean bleedOpen = faults.has(PartFault.BUS_BLEED_OPEN);
        double bleedSiemens = bleedOpen ? soundBleedSiemens * BLEED_LEFT_SHARE : soundBleedSiemens;
        bleedAndShortSiemens = bleedSiemens + (faults.has(PartFault.BUS_SHORTED) ? shortSiemens : 0);
    }

    /** Energy in the capacitors. */
    public double storedJ() {
        return capacitanceF * busV * busV / 2;
    }

    /** Integral of the bus voltage over the last step. */
    public double busVoltSeconds() {
        return exact.voltSeconds;
    }

    /** Power of the heater's element at the moment. */
    public double heaterW() {
        return loads.heaterW(busV);
    }

    /** The current that would bring a bus that nothing holds to a voltage within a time. */
    public double currentToReach(double targetV, double withinS) {
        return (targetV - busV) * capacitanceF / withinS + bleedAndShortSiemens * targetV;
    }

    /** Whether a long step gives the same result as many short ones. */
    public boolean isSmooth() {
        if (box.isHeld()) {
            return box.isSettled();
        }
        return !(busV > 0 && !loads.isWithoutPower()) && emfV <= busV;
    }

    /** Whether the pack holds the voltage of the bus, the current hardly changes, and the fuse stays cold. */
    public boolean isSteady() {
        return box.isSettled() && box.isFuseCold();
    }

    /** Follows the contacts. */
    public void connect(Contactor negative, Contactor precharge, Contactor positive, Pack pack) {
        double acrossV = pack.sourceV() - busV;
        box.connect(box.pathThrough(negative, precharge, positive), acrossV, packV, capacitanceF);
    }

    /** One step. */
    public void step(double dtS, Pack pack) {
        box.prepare(pack.seriesOhm);
        double sourceV = pack.sourceV() - pack.seriesOhm * (packLoadA - packChargeA);
        loads.prepare(busV);
        double powerW = loads.powerW();
        double busSiemens = box.siemens + bleedAndShortSiemens + loads.heaterSiemens + loads.leftOnSiemens;
        double injectedA = box.siemens * sourceV + busChargeA;
        double startV = busV;
        boolean stored = powerW != 0 && !box.isHeld();
        if (stored) {
            startV = Math.sqrt(Math.max(0, startV * startV - 2 * powerW * dtS / capacitanceF));
            loads.bookStored(capacitanceF / 2 * (busV * busV - startV * startV), powerW);
        }
        emfSiemens = emfV > startV ? motorSiemens : 0;
        exact.prepare(busSiemens + emfSiemens, capacitanceF, dtS);
        double withEmfA = injectedA + emfSiemens * emfV;
        perVolt = powerW != 0 && !stored ? perVolt(withEmfA, powerW, startV) : 0;
        double towardsV = (withEmfA - powerW * perVolt) * exact.ohm;
        if (emfSiemens > 0 && towardsV >= emfV) {
            emfSiemens = 0;
            exact.prepare(busSiemens, capacitanceF, dtS);
            towardsV = (injectedA - powerW * perVolt) * exact.ohm;
        }
        busV = exact.solve(startV, towardsV);
        box.book(dtS, sourceV, busV, exact);
        bookPack(dtS, pack);
        bookLoads(powerW);
    }

    /** One over the voltage that a load of constant power sees, from the one of the last step. */
    private double perVolt(double givenA, double powerW, double startV) {
        double guess = perVolt > 0 ? perVolt : 1 / Math.max(1, startV);
        double nearV = (givenA - powerW * guess) * exact.ohm;
        return nearV > 1 ? 1 / nearV : 1;
    }

    private void bookPack(double dtS, Pack pack) {
        double sideA = packLoadA - packChargeA;
        packA = box.meanA + sideA;
        double packAs = box.chargeAs + sideA * dtS;
        double packA2s = box.squareA2s + 2 * sideA * box.chargeAs + sideA * sideA * dtS;
        packV = pack.sourceV() - pack.seriesOhm * (box.nowA + sideA);
        packVoltSeconds = pack.sourceV() * dtS - pack.seriesOhm * packAs;
        pack.draw(packAs, packA2s, dtS);
    }

    private void bookLoads(double powerW) {
        loads.book(powerW, perVolt * exact.voltSeconds, exact.squareVoltSeconds, packLoadA * packVoltSeconds);
        bleedJ += bleedAndShortSiemens * exact.squareVoltSeconds;
        emfWorkJ = 0;
        if (emfSiemens > 0) {
            double chargeAs = emfSiemens * (emfV / exact.perStep - exact.voltSeconds);
            emfWorkJ = emfV * chargeAs;
            double givenJ = emfSiemens * (emfV * exact.voltSeconds - exact.squareVoltSeconds);
            emfLossJ = emfWorkJ - givenJ;
            loads.inverterJ -= givenJ;
        }
    }
}
