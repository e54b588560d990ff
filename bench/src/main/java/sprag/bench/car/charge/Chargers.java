package sprag.bench.car.charge;

import sprag.bench.car.Faults;
import sprag.bench.car.PartFault;
import sprag.bench.car.electric.Circuit;
import sprag.bench.car.electric.Pack;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/**
 * Up to three chargers on one inlet: each ramps to its limit, inside its power, and holds the voltage limit.
 *
 * <p>They work in steps of 10 ms. Together they give the current that brings the node to its voltage. Each takes a share that
 * is proportional to what it could give. It takes more when the others leave more. So they do not work against each other, and no
 * charger has to do all the work.
 */
public final class Chargers {
    /** How many there can be. */
    public static final int MOST = 3;

    private static final double STEP_S = 0.01;
    private static final int REMEMBERED = 1024;
    private static final int STEP_MS = 10;
    private static final double LEAST_V = 10;

    /**
     * Above this share of the pack's greatest voltage a charger cuts itself off within microseconds, faster than any step here. Common
     * practice, some percent above the greatest output.
     */
    private static final double CUT_OFF_SHARE = 1.1;

    private static final PartFault[] DEAD = {
        PartFault.CHARGER_1_DEAD, PartFault.CHARGER_2_DEAD, PartFault.CHARGER_3_DEAD
    };
    private static final PartFault[] OVERSHOOT = {
        PartFault.CHARGER_1_OVERSHOOT, PartFault.CHARGER_2_OVERSHOOT, PartFault.CHARGER_3_OVERSHOOT
    };
    private static final PartFault[] LAG = {PartFault.CHARGER_1_LAG, PartFault.CHARGER_2_LAG, PartFault.CHARGER_3_LAG};
    private static final PartFault[] IGNORES = {
        PartFault.CHARGER_1_IGNORES_LIMIT, PartFault.CHARGER_2_IGNORES_LIMIT, PartFault.CHARGER_3_IGNORES_LIMIT
    };
    private static final PartFault[] KEEPS = {
        PartFault.CHARGER_1_KEEPS_LIMIT, PartFault.CHARGER_2_KEEPS_LIMIT, PartFault.CHARGER_3_KEEPS_LIMIT
    };
    private static final PartFault[] STAYS = {
        PartFault.CHARGER_1_STAYS_ENABLED, PartFault.CHARGER_2_STAYS_ENABLED, PartFault.CHARGER_3_STAYS_ENABLED
    };
    private static final PartFault[] DERATED = {
        PartFault.CHARGER_1_DERATED, PartFault.CHARGER_2_DERATED, PartFault.CHARGER_3_DERATED
    };

    private final int count;
    private final double[] maxW = new double[MOST];
    private final double riseA;
    private final double fallA;
    private final double startMs;
    private final double perEfficiency;
    private final double perAcVolt;
    private final boolean busSide;
    private final boolean takesLimit;
    private final boolean alone;
    private final double ownV;
    private final double cutOffV;

    /** Direct current of each, of all, and the current they take from the station, a phase. */
    public final double[] currentA = new double[MOST];

    public double totalA;
    public double acA;
    /** Energy so far. */
    public double givenJ;

    public double lossJ;
    public double acJ;

    /** What they have been told. */
    public final ChargerOrders orders = new ChargerOrders();
    /** Whether wires lead from each to the pack or the bus, and mains to it. */
    public final boolean[] wired = {true, true, true};

    private final boolean[] dead = new boolean[MOST];
    private final double[] overshootV = new double[MOST];
    private final int[] lagSteps = new int[MOST];
    private final boolean[] ignores = new boolean[MOST];
    private final boolean[] keeps = new boolean[MOST];
    private final boolean[] stays = new boolean[MOST];
    private final double[] keptA = new double[MOST];
    private final double[] keptV = new double[MOST];
    private final double[] share = new double[MOST];
    private final double[] wantedA = new double[MOST];
    private final double[][] remembered = new double[MOST][REMEMBERED];
    private int at;
    private double poweredMs;

    public Chargers(Vehicle vehicle) {
        count = (int) vehicle.get(Parameter.CHARGER_COUNT);
        maxW[0] = vehicle.get(Parameter.CHARGER_1_MAX_W);
        maxW[1] = vehicle.get(Parameter.CHARGER_2_MAX_W);
        maxW[2] = vehicle.get(Parameter.CHARGER_3_MAX_W);
        riseA = vehicle.get(CarParameter.CHARGERS_RISE_A_PER_S) * STEP_S;
        fallA = vehicle.get(CarParameter.CHARGERS_FALL_A_PER_S) * STEP_S;
        startMs = vehicle.get(CarParameter.CHARGERS_START_MS);
        perEfficiency = 1 / vehicle.get(Parameter.CHARGER_EFFICIENCY);
        perAcVolt = 1
                / (vehicle.get(Parameter.CHARGER_POWER_FACTOR)
                        * vehicle.get(CarParameter.STATION_SUPPLY_V)
                        * vehicle.get(Parameter.INLET_PHASES));
        busSide = vehicle.is(Parameter.CHARGER_SIDE, "bus-side");
        takesLimit = vehicle.is(Parameter.CHARGER_CONTROL, "limited");
        alone = vehicle.is(Parameter.CHARGER_CONTROL, "alone");
        ownV = vehicle.get(Parameter.CHARGE_VOLTAGE_V);
        cutOffV = vehicle.get(Parameter.PACK_MAX_V) * CUT_OFF_SHARE;
    }

    public void refresh(Faults faults) {
        for (int i = 0; i < MOST; i++) {
            dead[i] = faults.has(DEAD[i]);
            overshootV[i] = faults.of(OVERSHOOT[i], 0);
            lagSteps[i] = Math.min(REMEMBERED - 1, (int) faults.of(LAG[i], 0) / STEP_MS);
            ignores[i] = faults.has(IGNORES[i]);
            keeps[i] = faults.has(KEEPS[i]);
            stays[i] = faults.has(STAYS[i]);
            share[i] = faults.of(DERATED[i], 1);
        }
    }

    /** Whether a charger says that it is ready and without fault. */
    public boolean isWell(int charger) {
        return charger < count && !dead[charger];
    }

    public boolean onBus() {
        return busSide;
    }

    /** Whether nothing flows and nothing can begin within the next step. */
    public boolean isIdle() {
        return totalA == 0 && poweredMs == 0;
    }

    /** Ten milliseconds: what each gives from now on. */
    public void step(boolean mains, Circuit circuit, Pack pack) {
        at = (at + 1) % REMEMBERED;
        if (!mains && isIdle()) {
            for (int i = 0; i < count; i++) {
                remembered[i][at] = askedA(i);
            }
            return;
        }
        poweredMs = mains ? poweredMs + STEP_MS : 0;
        double nodeV = busSide ? circuit.busV : circuit.packV;
        boolean steered = !busSide || circuit.box.isHeld();
        double nodeOhm = busSide ? circuit.box.heldOhm(pack) : pack.seriesOhm;
        double flowsA = busSide ? circuit.box.meanA : circuit.packA;
        double withoutV = pack.sourceV() - nodeOhm * (flowsA + totalA);
        double allWantedA = want(nodeV);
        for (int i = 0; i < count; i++) {
            boolean runs = mains && !dead[i] && wired[i] && poweredMs > startMs;
            double toV = (takesLimit ? keptV[i] : ownV) + overshootV[i];
            double roomA = steered ? (toV - withoutV) / nodeOhm : circuit.currentToReach(toV, STEP_S);
            double fairA = allWantedA > 0 ? roomA * wantedA[i] / allWantedA : 0;
            double leftA = Math.max(fairA, roomA - (totalA - currentA[i]));
            double nextA = runs ? Math.max(0, Math.min(wantedA[i], leftA)) : 0;
            nextA = runs ? Math.max(currentA[i] - fallA, Math.min(currentA[i] + riseA, nextA)) : nextA;
            totalA += nextA - currentA[i];
            currentA[i] = nextA;
        }
        totalA = currentA[0] + currentA[1] + currentA[2];
    }

    /**
     * The current onto the bus in the next step. On a bus that nothing else holds, as behind an open fuse, the chargers cut off before
     * its voltage passes their own greatest. A charger that regulates too high by a fault cuts off that much higher.
     */
    public double ontoBusA(Circuit circuit, double dtS) {
        if (!busSide || totalA == 0 || circuit.box.isHeld()) {
            return busSide ? totalA : 0;
        }
        double aboveV = Math.max(overshootV[0], Math.max(overshootV[1], overshootV[2]));
        double part = Math.max(0, circuit.currentToReach(cutOffV + aboveV, dtS)) / totalA;
        if (part < 1) {
            for (int i = 0; i < count; i++) {
                currentA[i] *= part;
            }
            totalA *= part;
        }
        return totalA;
    }

    /** What a charger takes its orders for. One that takes no limit gives all it has while it is switched on, or always. */
    private double askedA(int charger) {
        if (!keeps[charger]) {
            keptA[charger] = orders.limitA[charger];
        }
        if (!keeps[charger] && !(ignores[charger] && orders.limitV[charger] == 0)) {
            keptV[charger] = orders.limitV[charger];
        }
        boolean on = orders.enabled[charger] || stays[charger];
        if (!takesLimit) {
            return on || alone ? Double.MAX_VALUE : 0;
        }
        return on ? keptA[charger] : 0;
    }

    /** What each would give if the voltage did not hold it back; the sum of all that live. */
    private double want(double nodeV) {
        double allA = 0;
        for (int i = 0; i < count; i++) {
            remembered[i][at] = askedA(i);
            double thenA = remembered[i][(at - lagSteps[i] + REMEMBERED) % REMEMBERED];
            double mostA = maxW[i] * share[i] / Math.max(LEAST_V, nodeV);
            wantedA[i] = ignores[i] ? mostA : Math.min(thenA, mostA);
            allA += dead[i] || !wired[i] ? 0 : wantedA[i];
        }
        return allA;
    }

    /** Books a step at the voltage that was there. */
    public void book(double voltSeconds, double dtS) {
        double outJ = totalA * voltSeconds;
        double inJ = outJ * perEfficiency;
        givenJ += outJ;
        acJ += inJ;
        lossJ += inJ - outJ;
        acA = inJ / dtS * perAcVolt;
    }
}
