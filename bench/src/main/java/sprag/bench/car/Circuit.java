package sprag.bench.car;

import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/**
 * Contactor box and bus: one node with a capacitor, solved exactly over each step.
 *
 * <pre>
 *            fuse   negative   positive
 *  pack  +---[]-------/ ---------/ ------+-----+------+------+------+----- bus
 *        |                |              |     |      |      |      |
 *   pack-side loads       +-/ --/\/\/\---+   ====   bleed  heater  constant power,
 *   and chargers       precharge  resistor     |      |      |     chargers, spinning motor
 * </pre>
 *
 * <p>With everything but the voltage held over the step, C dV/dt = J - G V has the solution
 * V(t) = V' + (V0 - V') exp(-t G/C) with V' = J/G, and so have the integrals of current, its square and power. A load of
 * constant power counts as the current it draws at V' while a contactor holds the bus, and is taken from the stored energy
 * where none does. Inductance is left out: real peaks are lower.
 */
final class Circuit {
    private static final double SHORTED_RESISTOR_OHM = 0.02;
    private static final double CAPACITOR_LEFT_SHARE = 0.01;
    private static final double BLEED_LEFT_SHARE = 0.01;
    private static final double FUSE_TEST_FACTOR = 2;
    /** Less than this is nothing; it also keeps the arithmetic away from the smallest numbers, which are slow. */
    private static final double NOTHING_V = 1e-9;

    private static final int OPEN = 0;
    private static final int THROUGH_RESISTOR = 1;
    private static final int THROUGH_CONTACTOR = 2;

    private final double contactOhm;
    private final double soundResistorOhm;
    private final double soundCapacitanceF;
    private final double soundBleedS;
    private final double shortS;
    private final double heaterS;
    private final double sourceS;
    private final double arcS;
    private final double cautiousA;
    private final double fuseA2;
    private final double fuseLimitA2s;
    private final double halfNominalV;
    private final double leftOnByDesignW;

    /** Bus voltage, and the pack's at its terminals. */
    double busV;

    double packV;
    /** Integral of the pack's voltage over the last step. */
    double packVs;
    /** Mean currents of the last step. */
    double packA;

    double boxA;
    /** Greatest current through the box so far. */
    double peakA;

    private boolean fuseMelted;
    private boolean fuseFault;
    /** What wears the contacts, so far. */
    double arcJ;

    double inrushJ;
    /** Heat and energy so far. */
    double boxLossJ;

    double resistorJ;
    double bleedJ;
    double loadJ;
    double heaterJ;
    double inverterJ;
    /** Work the spinning motor did on the bus in the last step, and what of it became heat, by its own voltage. */
    double emfWorkJ;

    double emfLossJ;

    // inputs, set before each step
    /** Power of the inverter, less than 0 when it gives back. */
    double inverterW;
    /** Current of loads and of chargers on the pack's side. */
    double packLoadA;

    double packChargeA;
    /** Constant power of other loads on the bus. */
    double busLoadW;
    /** Current of the chargers on the bus. */
    double busChargeA;
    /** Whether the heater's element is connected. */
    boolean heaterOn;
    /** Rectified voltage of the motor; 0 while the inverter controls it. */
    double emfV;

    private double resistorOhm;
    private double capacitanceF;
    private double bleedAndShortS;
    private boolean resistorOpen;
    private double leftOnW;
    private int path = OPEN;
    private double nowA;
    private double fuseA2s;
    private double boxSeriesOhm = -1;
    private double boxResistorOhm;
    private int boxPath = OPEN;
    private double boxS;
    private double heaterNowS;
    private double leftOnS;
    private double driveS;
    /** One over the voltage that loads of constant power see; 0 while there is none. */
    private double perVolt;

    private double cachedG = -1;
    private double cachedDtS = -1;
    private double perConductance;
    private double perStep;
    private double keep;
    // what the exact solution of the last step gives
    private double decayS;
    private double decay2S;
    private double finalV;
    private double deltaV;
    private double integralV;
    private double integralV2;

    Circuit(Vehicle vehicle) {
        contactOhm = vehicle.get(CarParameter.BOX_CONTACT_MOHM) / 1000;
        soundResistorOhm = vehicle.get(CarParameter.PARTS_PRECHARGE_OHM);
        soundCapacitanceF = vehicle.get(CarParameter.PARTS_CAPACITANCE_UF) / 1e6;
        soundBleedS = 1 / vehicle.get(CarParameter.PARTS_BLEED_OHM);
        shortS = 1 / vehicle.get(CarParameter.PARTS_SHORT_OHM);
        double nominalV = vehicle.get(Parameter.PACK_NOMINAL_V);
        heaterS = vehicle.get(CarParameter.WARMER_POWER_W) / (nominalV * nominalV);
        sourceS = 1 / vehicle.get(CarParameter.MACHINE_SOURCE_OHM);
        arcS = vehicle.get(CarParameter.BOX_ARC_MS) / 1000;
        cautiousA = vehicle.get(CarParameter.BOX_CAUTIOUS_A);
        double fuseA = vehicle.get(CarParameter.BOX_FUSE_A);
        fuseA2 = fuseA * fuseA;
        fuseLimitA2s = (FUSE_TEST_FACTOR * FUSE_TEST_FACTOR - 1) * fuseA2 * vehicle.get(CarParameter.BOX_FUSE_S);
        halfNominalV = nominalV / 2;
        leftOnByDesignW = vehicle.get(CarParameter.PARTS_LEFT_ON_W);
    }

    void reset(double openPackV) {
        busV = 0;
        packV = openPackV;
        packA = 0;
        boxA = 0;
        peakA = 0;
        fuseMelted = false;
        arcJ = 0;
        inrushJ = 0;
        boxLossJ = 0;
        resistorJ = 0;
        bleedJ = 0;
        loadJ = 0;
        heaterJ = 0;
        inverterJ = 0;
        emfWorkJ = 0;
        emfLossJ = 0;
        inverterW = 0;
        packLoadA = 0;
        packChargeA = 0;
        busLoadW = 0;
        busChargeA = 0;
        heaterOn = false;
        emfV = 0;
        path = OPEN;
        nowA = 0;
        fuseA2s = 0;
    }

    /** The pack carries no current. */
    void stand(Pack pack) {
        packV = pack.sourceV();
    }

    /** Takes over the faults after a change. */
    void refresh(Faults faults) {
        resistorOpen = faults.has(PartFault.RESISTOR_OPEN);
        resistorOhm = faults.has(PartFault.RESISTOR_SHORTED) ? SHORTED_RESISTOR_OHM : soundResistorOhm;
        double beforeF = capacitanceF;
        capacitanceF = faults.has(PartFault.BUS_CAPACITOR_MISSING)
                ? soundCapacitanceF * CAPACITOR_LEFT_SHARE
                : soundCapacitanceF;
        cachedG = capacitanceF == beforeF ? cachedG : -1;
        double bleedS = faults.has(PartFault.BUS_BLEED_OPEN) ? soundBleedS * BLEED_LEFT_SHARE : soundBleedS;
        bleedAndShortS = bleedS + (faults.has(PartFault.BUS_SHORTED) ? shortS : 0);
        leftOnW = faults.of(PartFault.BUS_LOAD_LEFT_ON, leftOnByDesignW);
        fuseFault = faults.has(PartFault.FUSE_BLOWN);
    }

    /** Whether the pack's main fuse is open, by itself or by a fault. */
    boolean fuseBlown() {
        return fuseMelted || fuseFault;
    }

    /** Energy in the capacitors. */
    double storedJ() {
        return capacitanceF * busV * busV / 2;
    }

    /** Integral of the bus voltage over the last step. */
    double busVs() {
        return integralV;
    }

    /** Power of the heater's element at the moment. */
    double heaterW() {
        return heaterOn ? heaterS * busV * busV : 0;
    }

    /** Whether a contactor or a contact holds the bus to the pack. */
    boolean isHeld() {
        return path == THROUGH_CONTACTOR;
    }

    /** Resistance between the pack's source and the bus while it is held. */
    double heldOhm(Pack pack) {
        return pack.seriesOhm + 2 * contactOhm;
    }

    /** The current that would bring an open bus to a voltage within a time. */
    double currentToReach(double targetV, double withinS) {
        return (targetV - busV) * capacitanceF / withinS + bleedAndShortS * targetV;
    }

    /** Whether a long step would be as good as many short ones. */
    boolean isSmooth() {
        if (path == THROUGH_CONTACTOR) {
            return Math.abs(nowA - boxA) < 1;
        }
        boolean power = busV > 0 && (inverterW != 0 || busLoadW != 0 || leftOnW != 0);
        return !power && emfV <= busV;
    }

    /** Whether the pack holds the bus, the current hardly changes and leaves the fuse cold. */
    boolean isSteady() {
        return path == THROUGH_CONTACTOR && Math.abs(nowA - boxA) < 1 && fuseA2s == 0;
    }

    /** Follows the contacts. */
    void connect(Contactor negative, Contactor precharge, Contactor positive, Pack pack) {
        int next = OPEN;
        if (negative.closed && !fuseBlown()) {
            boolean pre = precharge.closed && !resistorOpen;
            next = positive.closed ? THROUGH_CONTACTOR : pre ? THROUGH_RESISTOR : OPEN;
        }
        if (next == path) {
            return;
        }
        boolean unlimited = next == THROUGH_CONTACTOR || next == THROUGH_RESISTOR && resistorOhm < soundResistorOhm;
        if (unlimited) {
            double acrossV = pack.sourceV() - busV;
            inrushJ += capacitanceF * acrossV * acrossV / 2;
        } else if (path == THROUGH_CONTACTOR && Math.abs(nowA) > cautiousA) {
            arcJ += Math.abs(nowA) * packV * arcS / 2;
        }
        path = next;
        nowA = 0;
    }

    /** One step. */
    void step(double dtS, Pack pack) {
        double seriesOhm = pack.seriesOhm;
        box(seriesOhm);
        double sourceV = pack.sourceV() - seriesOhm * (packLoadA - packChargeA);
        leftOnS = leftOnW > 0 && busV < halfNominalV ? leftOnW / (halfNominalV * halfNominalV) : 0;
        double powerW = inverterW + busLoadW + (leftOnS > 0 ? 0 : leftOnW);
        heaterNowS = heaterOn ? heaterS : 0;
        double sumS = boxS + bleedAndShortS + heaterNowS + leftOnS;
        double injectedA = boxS * sourceV + busChargeA;
        double startV = busV;
        boolean stored = powerW != 0 && path != THROUGH_CONTACTOR;
        if (stored) {
            startV = Math.sqrt(Math.max(0, startV * startV - 2 * powerW * dtS / capacitanceF));
            bookStored(startV, powerW);
        }
        driveS = emfV > startV ? sourceS : 0;
        prepare(sumS + driveS, dtS);
        if (powerW != 0 && !stored) {
            double guess = perVolt > 0 ? perVolt : 1 / Math.max(1, startV);
            double nearV = (injectedA + driveS * emfV - powerW * guess) * perConductance;
            perVolt = nearV > 1 ? 1 / nearV : 1;
        } else {
            perVolt = 0;
        }
        double towardsV = (injectedA + driveS * emfV - powerW * perVolt) * perConductance;
        if (driveS > 0 && towardsV >= emfV) {
            driveS = 0;
            prepare(sumS, dtS);
            towardsV = (injectedA - powerW * perVolt) * perConductance;
        }
        relax(dtS, startV, towardsV);
        book(dtS, sourceV, pack);
        bookLoads(powerW);
    }

    /** Conductance between the pack's source and the bus. */
    private void box(double seriesOhm) {
        if (seriesOhm != boxSeriesOhm || path != boxPath || resistorOhm != boxResistorOhm) {
            boxSeriesOhm = seriesOhm;
            boxPath = path;
            boxResistorOhm = resistorOhm;
            double boxOhm = path == THROUGH_CONTACTOR ? 2 * contactOhm : 2 * contactOhm + resistorOhm;
            boxS = path == OPEN ? 0 : 1 / (seriesOhm + boxOhm);
        }
    }

    /** What depends on conductance, capacitance and step only, and so changes seldom. */
    private void prepare(double conductanceS, double dtS) {
        if (conductanceS != cachedG || dtS != cachedDtS) {
            cachedG = conductanceS;
            cachedDtS = dtS;
            perConductance = 1 / conductanceS;
            perStep = 1 / dtS;
            keep = Math.exp(-dtS * conductanceS / capacitanceF);
            double timeS = capacitanceF / conductanceS;
            decayS = timeS * (1 - keep);
            decay2S = timeS / 2 * (1 - keep * keep);
        }
    }

    private void relax(double dtS, double startV, double towardsV) {
        finalV = towardsV;
        deltaV = startV - towardsV;
        integralV = towardsV * dtS + deltaV * decayS;
        integralV2 = towardsV * towardsV * dtS + 2 * towardsV * deltaV * decayS + deltaV * deltaV * decay2S;
        double endV = towardsV + deltaV * keep;
        busV = endV > NOTHING_V ? endV : 0;
    }

    /** Books what flows between pack and bus, with i(t) = (source - V(t)) * conductance. */
    private void book(double dtS, double sourceV, Pack pack) {
        double chargeAs = 0;
        double squareA2s = 0;
        if (path != OPEN) {
            double endA = (sourceV - finalV) * boxS;
            double moreA = -deltaV * boxS;
            chargeAs = endA * dtS + moreA * decayS;
            squareA2s = endA * endA * dtS + 2 * endA * moreA * decayS + moreA * moreA * decay2S;
            nowA = (sourceV - busV) * boxS;
            peak(endA + moreA);
            peak(nowA);
            boxLossJ += 2 * contactOhm * squareA2s;
            if (path == THROUGH_RESISTOR) {
                resistorJ += resistorOhm * squareA2s;
            }
            fuse(squareA2s, dtS);
        }
        double sideA = packLoadA - packChargeA;
        boxA = chargeAs * perStep;
        packA = boxA + sideA;
        double packAs = chargeAs + sideA * dtS;
        double packA2s = squareA2s + 2 * sideA * chargeAs + sideA * sideA * dtS;
        packV = pack.sourceV() - pack.seriesOhm * (nowA + sideA);
        packVs = pack.sourceV() * dtS - pack.seriesOhm * packAs;
        pack.draw(packAs, packA2s, dtS);
    }

    private void peak(double ampere) {
        if (ampere > peakA || -ampere > peakA) {
            peakA = Math.abs(ampere);
        }
    }

    /** The fuse melts when the square of the current above its rating has lasted long enough. */
    private void fuse(double squareA2s, double dtS) {
        double sumA2s = fuseA2s + squareA2s - fuseA2 * dtS;
        fuseA2s = sumA2s > 0 ? sumA2s : 0;
        if (sumA2s > fuseLimitA2s) {
            fuseMelted = true;
        }
    }

    /** A load of constant power on a bus that nothing holds lives on the capacitors; it gets what there was. */
    private void bookStored(double leftV, double powerW) {
        double takenJ = capacitanceF / 2 * (busV * busV - leftV * leftV);
        double inverterPart = powerW == 0 ? 0 : inverterW / powerW;
        inverterJ += takenJ * inverterPart;
        loadJ += takenJ * (1 - inverterPart);
    }

    private void bookLoads(double powerW) {
        double share = perVolt * integralV;
        inverterJ += inverterW * share;
        double heaterNowJ = heaterNowS * integralV2;
        heaterJ += heaterNowJ;
        loadJ += (powerW - inverterW) * share + heaterNowJ + leftOnS * integralV2 + packLoadA * packVs;
        bleedJ += bleedAndShortS * integralV2;
        emfWorkJ = 0;
        if (driveS > 0) {
            double chargeAs = driveS * (emfV / perStep - integralV);
            emfWorkJ = emfV * chargeAs;
            double givenJ = driveS * (emfV * integralV - integralV2);
            emfLossJ = emfWorkJ - givenJ;
            inverterJ -= givenJ;
        }
    }
}
