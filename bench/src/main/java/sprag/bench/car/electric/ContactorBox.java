package sprag.bench.car.electric;

import java.util.Arrays;
import sprag.bench.car.Faults;
import sprag.bench.car.PartFault;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/** The contactor box: the path from the pack to the bus through fuse, contactors and precharge resistor, and its wear. */
public final class ContactorBox {
    private static final double SHORTED_RESISTOR_OHM = 0.02;

    /** How the bus is connected to the pack. */
    public enum Path {
        /** Not at all. */
        OPEN,
        /** Through the precharge resistor. */
        THROUGH_RESISTOR,
        /** Through contacts only. */
        THROUGH_CONTACTOR
    }

    /** How many positions the three contacts have together. */
    public static final int POSITIONS = 8;

    private static final int NEGATIVE = 1;
    private static final int PRECHARGE = 2;
    private static final int POSITIVE = 4;

    private final boolean onePole;
    private final double contactOhm;
    private final double soundResistorOhm;
    private final double arcTimeS;
    private final double cautiousA;
    private final Fuse fuse;

    /** Current through the box: mean of the last step, and the greatest so far in either direction. */
    public double meanA;

    public double peakA;
    /** What wears the contacts, so far. */
    public double arcJ;

    public double inrushJ;
    /** Heat so far, in the contacts and in the resistor. */
    public double lossJ;

    public double resistorJ;
    /** Conductance between the pack's source and the bus. */
    double siemens;
    /** Integrals of the current and of its square over the last step. */
    double chargeAs;

    double squareA2s;
    /** Current at the end of the last step. */
    double nowA;

    private double resistorOhm;
    private boolean resistorOpen;
    private Path path = Path.OPEN;
    private final Path[] ways = soundWays();
    private boolean isRewired;
    private double solvedPackOhm = -1;
    private double solvedResistorOhm;
    private Path solvedPath = Path.OPEN;

    ContactorBox(Vehicle vehicle) {
        onePole = vehicle.is(Parameter.CONTACTOR_POLES, "positive");
        contactOhm = vehicle.get(CarParameter.BOX_CONTACT_MOHM) / 1000;
        soundResistorOhm = vehicle.get(CarParameter.PARTS_PRECHARGE_OHM);
        arcTimeS = vehicle.get(CarParameter.BOX_ARC_MS) / 1000;
        cautiousA = vehicle.get(CarParameter.BOX_CAUTIOUS_A);
        fuse = new Fuse(vehicle);
    }

    void refresh(Faults faults) {
        resistorOpen = faults.has(PartFault.RESISTOR_OPEN);
        resistorOhm = faults.has(PartFault.RESISTOR_SHORTED) ? SHORTED_RESISTOR_OHM : soundResistorOhm;
        fuse.broken = faults.has(PartFault.FUSE_BLOWN);
    }

    /** Whether the pack's main fuse is open, by itself or by a fault. */
    public boolean fuseBlown() {
        return fuse.isOpen();
    }

    /** Whether the contactors connect the bus to the pack. */
    public boolean isHeld() {
        return path == Path.THROUGH_CONTACTOR;
    }

    /** Whether the contactors connect the bus and the current hardly changes within a step. */
    boolean isSettled() {
        return isHeld() && Math.abs(nowA - meanA) < 1;
    }

    boolean isFuseCold() {
        return fuse.isCold();
    }

    /** Resistance between the pack's source and the bus while the contactors connect them. */
    public double heldOhm(Pack pack) {
        return pack.seriesOhm + 2 * contactOhm;
    }

    /** The path that the contacts make. */
    Path pathThrough(Contactor negative, Contactor precharge, Contactor positive) {
        isRewired = false;
        if (fuse.isOpen()) {
            return Path.OPEN;
        }
        Path way = ways[position(negative.closed || onePole, precharge.closed, positive.closed)];
        return way == Path.THROUGH_RESISTOR && resistorOpen ? Path.OPEN : way;
    }

    /** The number of a position of the three contacts. */
    public static int position(boolean negative, boolean precharge, boolean positive) {
        return (negative ? NEGATIVE : 0) + (precharge ? PRECHARGE : 0) + (positive ? POSITIVE : 0);
    }

    /** How the bus hangs on the pack in each position when everything is wired as it should be. */
    public static Path[] soundWays() {
        Path[] sound = new Path[POSITIONS];
        for (int i = 0; i < POSITIONS; i++) {
            Path plus = (i & POSITIVE) != 0
                    ? Path.THROUGH_CONTACTOR
                    : (i & PRECHARGE) != 0 ? Path.THROUGH_RESISTOR : Path.OPEN;
            sound[i] = (i & NEGATIVE) != 0 ? plus : Path.OPEN;
        }
        return sound;
    }

    /** Takes over how the wires lead. */
    public void wire(Path[] leading) {
        isRewired |= !Arrays.equals(ways, leading);
        System.arraycopy(leading, 0, ways, 0, POSITIONS);
    }

    /** Whether the wiring has changed since the contacts were last looked at. */
    public boolean isRewired() {
        return isRewired;
    }

    /**
     * Takes a path. Closing onto a difference of voltage and opening under current wear the contacts. Where the resistor beside a contact
     * that opens carries on, no more voltage stands across its gap than between pack and bus: a bounce at the end of precharge is no
     * opening under load.
     */
    void connect(Path next, double acrossV, double packV, double capacitanceF) {
        if (next == path) {
            return;
        }
        boolean shorted = next == Path.THROUGH_RESISTOR && resistorOhm < soundResistorOhm;
        if (next == Path.THROUGH_CONTACTOR || shorted) {
            inrushJ += capacitanceF * acrossV * acrossV / 2;
        } else if (path == Path.THROUGH_CONTACTOR && Math.abs(nowA) > cautiousA) {
            double gapV = next == Path.THROUGH_RESISTOR ? Math.min(packV, Math.abs(acrossV)) : packV;
            arcJ += Math.abs(nowA) * gapV * arcTimeS / 2;
        }
        path = next;
        nowA = 0;
    }

    /** Brings the conductance up to date. */
    void prepare(double packOhm) {
        if (packOhm != solvedPackOhm || path != solvedPath || resistorOhm != solvedResistorOhm) {
            solvedPackOhm = packOhm;
            solvedPath = path;
            solvedResistorOhm = resistorOhm;
            double boxOhm = path == Path.THROUGH_CONTACTOR ? 2 * contactOhm : 2 * contactOhm + resistorOhm;
            siemens = path == Path.OPEN ? 0 : 1 / (packOhm + boxOhm);
        }
    }

    /** Books what flowed between pack and bus in a step, with i(t) = (source - V(t)) * conductance. */
    void book(double dtS, double sourceV, double endV, ExactStep bus) {
        chargeAs = 0;
        squareA2s = 0;
        if (path != Path.OPEN) {
            double lastingA = bus.lastingA(sourceV, siemens);
            double decayingA = bus.decayingA(siemens);
            chargeAs = bus.integral(lastingA, decayingA);
            squareA2s = bus.integralOfSquare(lastingA, decayingA);
            nowA = (sourceV - endV) * siemens;
            peak(lastingA + decayingA);
            peak(nowA);
            lossJ += 2 * contactOhm * squareA2s;
            if (path == Path.THROUGH_RESISTOR) {
                resistorJ += resistorOhm * squareA2s;
            }
            fuse.carry(squareA2s, dtS);
        }
        meanA = chargeAs * bus.perStep;
    }

    private void peak(double currentA) {
        if (currentA > peakA || -currentA > peakA) {
            peakA = Math.abs(currentA);
        }
    }
}
