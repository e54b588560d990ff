package sprag.bench.car.drive;

import sprag.bench.car.Faults;
import sprag.bench.car.PartFault;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/**
 * Inverter and motor: torque follows the request with a lag, inside an envelope of torque and power.
 *
 * <p>The losses are the usual sum for a machine (Larminie and Lowry, Electric Vehicle Technology Explained): copper with the
 * torque squared, iron with the speed, windage with its cube, and a constant.
 */
public final class Machine {
    private static final double KRPM_PER_RADPS = 60 / (2 * Math.PI) / 1000;
    private static final double NOTHING_NM = 1e-3;
    /** So near its target, in shares of the greatest torque, the rest of the way may be taken in longer steps. */
    private static final double SETTLED_SHARE = 0.02;

    private final double maxNm;
    private final double maxW;
    private final double nominalV;
    private final double maxWPerVolt;
    private final double lagMs;
    private final double copperWPerNm2;
    private final double inverterShare;
    private final double ironWPerKrpm;
    private final double windageW;
    private final double idleW;
    private final double minV;
    private final double tripV;
    private final double emfVPerRadps;
    private final boolean magnets;
    private final int wakeMs;

    /** Torque at the shaft that the inverter makes. */
    public double torqueNm;
    /** Whether the inverter controls the motor at the moment. */
    public boolean switching;
    /** Whether it could. */
    public boolean ready;
    /** Whether it has stopped itself. */
    public boolean tripped;
    /** Heat so far. */
    public double inverterLossJ;

    public double motorLossJ;

    // inputs, set whenever they change
    public boolean enabled;
    public double requestNm;
    public boolean supplied = true;

    private boolean faultTripped;
    private boolean notReady;
    private boolean runsOn;
    private double flux = 1;
    private int awakeMs;
    private int followMs;
    private double follow;

    public Machine(Vehicle vehicle) {
        maxNm = vehicle.get(CarParameter.MACHINE_TORQUE_NM);
        maxW = vehicle.get(CarParameter.MACHINE_POWER_W);
        nominalV = vehicle.get(Parameter.PACK_NOMINAL_V);
        maxWPerVolt = maxW / nominalV;
        lagMs = vehicle.get(CarParameter.MACHINE_LAG_MS);
        copperWPerNm2 = vehicle.get(CarParameter.MACHINE_COPPER_W_PER_NM2);
        inverterShare = vehicle.get(CarParameter.MACHINE_INVERTER_SHARE);
        ironWPerKrpm = vehicle.get(CarParameter.MACHINE_IRON_W_PER_KRPM);
        windageW = vehicle.get(CarParameter.MACHINE_WINDAGE_W_PER_KRPM3);
        idleW = vehicle.get(CarParameter.MACHINE_IDLE_W);
        minV = vehicle.get(CarParameter.MACHINE_MIN_V);
        tripV = vehicle.get(CarParameter.MACHINE_TRIP_V);
        magnets = vehicle.is(Parameter.MOTOR_KIND, "permanent-magnet");
        emfVPerRadps = magnets ? vehicle.get(CarParameter.MACHINE_EMF_V_PER_KRPM) * KRPM_PER_RADPS : 0;
        wakeMs = (int) vehicle.get(CarParameter.MACHINE_WAKE_MS);
    }

    public void refresh(Faults faults) {
        faultTripped = faults.has(PartFault.INVERTER_TRIPPED);
        notReady = faults.has(PartFault.INVERTER_NOT_READY);
        runsOn = faults.has(PartFault.INVERTER_RUNS_ON);
        flux = faults.of(PartFault.MOTOR_DEMAGNETISED, 1);
    }

    /** Rectified voltage that the spinning motor makes by itself. */
    public double emfV(double radps) {
        return emfVPerRadps * flux * Math.abs(radps);
    }

    /** Watches the bus and decides whether it can switch; as often as the bus may have changed. */
    public void watch(double busV, int forMs) {
        if (busV > tripV) {
            tripped = true;
        } else if (!enabled) {
            tripped = false;
        }
        boolean alive = busV >= minV && supplied;
        if (!alive) {
            awakeMs = 0;
        } else if (awakeMs < wakeMs) {
            awakeMs += forMs;
        }
        boolean well = alive && awakeMs >= wakeMs && !tripped && !faultTripped && !notReady;
        ready = well;
        switching = well && enabled || runsOn && busV >= minV;
    }

    /** Whether torque is there or asked for. */
    public boolean isIdle() {
        return torqueNm == 0 && (requestNm == 0 || !switching) && !runsOn;
    }

    /** Whether it reports a fault. */
    public boolean reportsFault() {
        return tripped || faultTripped;
    }

    /** Whether the torque is as good as what is asked for. */
    public boolean hasSettled(double busV, double radps) {
        return switching && Math.abs(inside(requestNm, busV, radps) - torqueNm) <= SETTLED_SHARE * maxNm;
    }

    /** One step of torque. What is not switched makes none, at once: the windings lose their current within it. */
    public void follow(double busV, double radps, int forMs) {
        if (forMs != followMs) {
            followMs = forMs;
            follow = -StrictMath.expm1(-forMs / lagMs);
        }
        if (!switching) {
            torqueNm = 0;
        } else if (!runsOn) {
            double targetNm = inside(requestNm, busV, radps);
            torqueNm += (targetNm - torqueNm) * follow;
            if (targetNm == 0 && Math.abs(torqueNm) < NOTHING_NM) {
                torqueNm = 0;
            }
        }
    }

    /** A sagging bus lowers the power in proportion; a weakened magnet lowers the torque. */
    private double inside(double askedNm, double busV, double radps) {
        double limitNm = maxNm * flux;
        double powerW = busV < nominalV ? maxWPerVolt * busV : maxW;
        double speed = Math.abs(radps);
        if (limitNm * speed > powerW) {
            limitNm = powerW / speed;
        }
        if (askedNm > limitNm) {
            return limitNm;
        }
        return askedNm < -limitNm ? -limitNm : askedNm;
    }

    /**
     * Torque that turns against the shaft while the inverter makes none: windage, and iron where magnets turn. Without torque the
     * shaft gives that power and not the bus.
     */
    public double dragNm(double radps) {
        if (torqueNm != 0 || radps == 0) {
            return 0;
        }
        return -mechanicalW(Math.abs(radps) * KRPM_PER_RADPS) / radps;
    }

    private double mechanicalW(double krpm) {
        return (magnets ? ironWPerKrpm * krpm : 0) + windageW * krpm * krpm * krpm;
    }

    /** Books the losses of a step and says what the inverter takes from the bus. */
    public double powerW(double meanRadps, double dtS) {
        double krpm = Math.abs(meanRadps) * KRPM_PER_RADPS;
        if (torqueNm == 0) {
            double idleNowW = switching ? idleW : 0;
            motorLossJ += mechanicalW(krpm) * dtS;
            inverterLossJ += idleNowW * dtS;
            return idleNowW;
        }
        double copperW = copperWPerNm2 * torqueNm * torqueNm;
        double inverterW = inverterShare * copperW + idleW;
        double motorW = (1 - inverterShare) * copperW + ironWPerKrpm * krpm + windageW * krpm * krpm * krpm;
        inverterLossJ += inverterW * dtS;
        motorLossJ += motorW * dtS;
        return torqueNm * meanRadps + inverterW + motorW;
    }
}
