package sprag.bench.car.charge;

import sprag.bench.car.Faults;
import sprag.bench.car.Lever;
import sprag.bench.car.Levers;
import sprag.bench.car.PartFault;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/**
 * The charging station at the other end of the cable, a machine of its own, and the pilot between it and the car. At the other end of
 * a plain lead is a socket: mains are there as soon as the plug is in, and its breaker trips like the station.
 *
 * <pre>
 *  station                       car
 *   +12/-12 V --- 1 kohm ---+--- diode ---+---- 2.74 kohm ---+
 *                           |             +- / - 1.3 kohm ---+--- earth
 *                         pilot               (charger enable)
 * </pre>
 *
 * <p>Levels and resistances as published for the control pilot of IEC 61851-1 and SAE J1772; the times are parameters, their
 * limits from memory.
 */
public final class Station {
    private static final int STEP_MS = 10;
    private static final double HIGH_V = 12;
    private static final double SOURCE_OHM = 1000;
    private static final double DIODE_V = 0.7;
    private static final double PRESENT_OHM = 2740;
    private static final double READY_OHM = 1300;
    private static final double VENTILATION_OHM = 270;
    // what each of the car's resistances pulls the positive half to
    private static final double PRESENT_V = levelV(carOhm(false, false));
    private static final double READY_V = levelV(carOhm(true, false));
    private static final double ASKS_VENTILATION_V = levelV(carOhm(true, true));
    private static final double LEAST_A = 6;
    /** The most that the flat part offers; what lies just above cannot be said and is offered as this. */
    private static final double KNEE_A = 51;

    private static final double STEADY = 1;
    private static final double TOLERANCE = 1.1;
    private static final int THROTTLE_MS = 10_000;
    /** How long a car has to end its current when the offer ends (from memory of IEC 61851-1). */
    private static final int GRACE_MS = 3000;

    private final double maxA;
    private final int startMs;
    private final int closeMs;
    private final int openMs;
    private final double tripMs;
    private final boolean ventilated;
    private final boolean socket;

    /** What the car's inlet sees. */
    public double peakV;

    public double duty;
    /** Whether mains are on the inlet. */
    public boolean closed;
    /** The letter of the pilot as the station sees it, A is 0. */
    public int letter;
    /** What it can truly supply. */
    public double limitA;

    private int pluggedMs;
    private int letterMs;
    private int unwantedMs;
    private double overMs;
    private boolean hasTripped;
    private int throttleMs;
    private double throttle = 1;

    public Station(Vehicle vehicle) {
        maxA = vehicle.get(CarParameter.STATION_MAX_A);
        startMs = (int) vehicle.get(CarParameter.STATION_START_MS);
        closeMs = (int) vehicle.get(CarParameter.STATION_CLOSE_MS);
        openMs = (int) vehicle.get(CarParameter.STATION_OPEN_MS);
        tripMs = vehicle.get(CarParameter.STATION_TRIP_S) * 1000;
        ventilated = vehicle.get(CarParameter.STATION_VENTILATED) != 0;
        socket = vehicle.is(Parameter.INLET_KIND, "plain");
    }

    /** The duty that offers a current: 0.6 A a percent up to 85 %, then 2.5 A a percent above 64 % (IEC 61851-1). */
    static double dutyFor(double currentA) {
        if (currentA < LEAST_A) {
            return STEADY;
        }
        return currentA <= KNEE_A ? currentA / 60 : Math.max(KNEE_A / 60, currentA / 250 + 0.64);
    }

    /** The level that a car's resistance pulls the positive half to. */
    static double levelV(double carOhm) {
        return DIODE_V + (HIGH_V - DIODE_V) * carOhm / (carOhm + SOURCE_OHM);
    }

    /** The resistance the car shows: present, ready, or asking for ventilation. */
    static double carOhm(boolean ready, boolean asksVentilation) {
        if (!ready) {
            return PRESENT_OHM;
        }
        double second = asksVentilation ? VENTILATION_OHM : READY_OHM;
        return PRESENT_OHM * second / (PRESENT_OHM + second);
    }

    /** Whether nothing is in the inlet. */
    public boolean isIdle() {
        return pluggedMs == 0 && !closed;
    }

    /** Ten milliseconds. */
    public void step(boolean plugged, Levers levers, Faults faults, boolean carReady, double drawnA) {
        if (!plugged && isIdle() && letter == 0 && faults.isEmpty()) {
            return;
        }
        boolean alive = levers.isOn(Lever.STATION_ON) && !faults.has(PartFault.STATION_SILENT);
        if (!plugged) {
            hasTripped = false;
            overMs = 0;
        }
        pluggedMs = plugged && alive ? Math.min(pluggedMs + STEP_MS, 1_000_000) : 0;
        double readyV = faults.has(PartFault.PILOT_ASKS_VENTILATION) ? ASKS_VENTILATION_V : READY_V;
        double pulledV = carReady ? readyV : PRESENT_V;
        boolean refuses = faults.has(PartFault.STATION_REFUSES) || hasTripped;
        boolean broken = faults.has(PartFault.PILOT_BROKEN);
        boolean shorted = faults.has(PartFault.PILOT_SHORTED);
        int seen = letter(plugged && !broken, pulledV, shorted, refuses);
        letterMs = seen == letter ? Math.min(letterMs + STEP_MS, 1_000_000) : 0;
        letter = seen;
        limit(levers, faults, plugged);
        if (socket) {
            closed = plugged && alive && !hasTripped;
            trip(drawnA);
            return;
        }
        offer(faults, refuses, alive && plugged);
        boolean dark = !plugged || !alive || broken;
        peakV = dark || shorted ? 0 : refuses ? -HIGH_V : pulledV;
        duty = dark || shorted || refuses ? 0 : duty;
        mains(faults, alive && plugged, drawnA);
    }

    private static int letter(boolean reached, double volts, boolean shorted, boolean refuses) {
        if (refuses) {
            return 5;
        }
        if (shorted) {
            return 4;
        }
        if (!reached) {
            return 0;
        }
        return volts > 7.5 ? 1 : volts > 4.5 ? 2 : 3;
    }

    private void limit(Levers levers, Faults faults, boolean plugged) {
        double share = faults.of(PartFault.STATION_THROTTLES, 1);
        throttleMs = share < 1 ? throttleMs + STEP_MS : 0;
        if (throttleMs == 0) {
            throttle = 1;
        } else if (throttleMs % THROTTLE_MS == STEP_MS) {
            throttle *= share;
        }
        limitA = plugged ? Math.min(levers.get(Lever.STATION_LIMIT_A), maxA) * throttle : 0;
    }

    /** A diode that is shorted loads the negative half too; the station takes that for no car and offers nothing. */
    private void offer(Faults faults, boolean refuses, boolean reached) {
        boolean sound = reached && !refuses && !faults.has(PartFault.PILOT_DIODE_SHORTED);
        boolean car = letter == 1 || letter == 2 || letter == 3;
        double toldA = Math.min(80, limitA * faults.of(PartFault.STATION_DUTY_LIES, 1));
        duty = sound && car && pluggedMs > startMs ? dutyFor(toldA) : reached ? STEADY : 0;
    }

    private void trip(double drawnA) {
        overMs = closed && drawnA > limitA * TOLERANCE + 0.5 ? overMs + STEP_MS : 0;
        if (overMs > tripMs) {
            hasTripped = true;
        }
    }

    private void mains(Faults faults, boolean reached, double drawnA) {
        boolean offers = duty > 0 && duty < STEADY;
        boolean asked = letter == 2 || letter == 3 && ventilated;
        boolean wanted = reached && offers && asked;
        unwantedMs = wanted ? 0 : Math.min(unwantedMs + STEP_MS, 1_000_000);
        if (wanted && letterMs >= closeMs) {
            closed = true;
        } else if (!reached || unwantedMs >= (asked ? GRACE_MS : openMs)) {
            closed = false;
        }
        trip(drawnA);
        closed |= faults.has(PartFault.STATION_STUCK_CLOSED) && reached;
    }
}
