package sprag.bench.evidence.campaign.harm;

import sprag.bench.car.Lever;
import sprag.bench.car.Quantity;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;

/** What truly happens in one tick, judged by what the driver did, not by what any sensor says. */
final class InstantHarm {
    /** Two torques that differ by less than this share of the maximum count as the same. */
    private static final double TORQUE_SHARE = 0.05;
    /** A car stands below this speed. */
    private static final double STANDS_KPH = 0.1;
    /** Above this a car rolls so fast that torque of the other direction is no hill start. */
    private static final double ROLLS_KPH = 6;
    /** Above this a driver in traffic depends on the drive. */
    private static final double TRAFFIC_KPH = 10;

    private static final double KPH_PER_MPS = 3.6;
    private static final double STRONG_MPS2 = 1.3;
    /** A charge current below this counts as none. */
    private static final double FLOWS_A = 0.5;
    /** Ripple and tolerance may take the current so far above what cable and station allow. */
    private static final double CABLE_FACTOR = 1.1;
    /** For so long after the start button a bus that becomes live counts as asked for. */
    private static final double START_S = 12;

    private final SimulatedCar car;
    private final Vehicle vehicle;
    private final double[] truth = new double[Quantity.COUNT];
    private final double tickS;
    private final double slackNm;
    private final double mps2PerNm;
    private Commands asked;
    private double expectedNm;
    private double speedKph;
    private double torqueNm;
    private boolean driven;
    private double sinceStartS = START_S;
    private boolean wasLinked;
    private boolean linked;

    InstantHarm(Vehicle vehicle, SimulatedCar car) {
        this.vehicle = vehicle;
        this.car = car;
        tickS = vehicle.get(Parameter.LOOP_TICK_MS) / 1000;
        slackNm = vehicle.get(Parameter.DRIVE_TORQUE_NM) * TORQUE_SHARE;
        mps2PerNm = vehicle.get(Parameter.DRIVE_GEAR_RATIO)
                / vehicle.get(Parameter.DRIVE_WHEEL_RADIUS_M)
                / vehicle.get(Parameter.DRIVE_MASS_KG);
    }

    void look(Commands commands, double withoutFaultNm) {
        asked = commands;
        expectedNm = withoutFaultNm;
        double before = speedKph;
        car.truths(truth, 0);
        speedKph = truth(Quantity.SPEED_KPH);
        torqueNm = truth(Quantity.MOTOR_TORQUE_NM);
        boolean stands = Math.abs(speedKph) < STANDS_KPH || before * speedKph < 0;
        driven = lever(Lever.PEDAL) > 0 || driven && !stands;
        sinceStartS = isOn(Lever.START) ? 0 : sinceStartS + tickS;
        wasLinked = linked;
        linked = busIsLive()
                && isClosed(Quantity.NEGATIVE_CLOSED)
                && (isClosed(Quantity.POSITIVE_CLOSED) || isClosed(Quantity.PRECHARGE_CLOSED));
    }

    double truth(Quantity quantity) {
        return truth[quantity.ordinal()];
    }

    double value(Parameter parameter) {
        return vehicle.get(parameter);
    }

    private double lever(Lever lever) {
        return car.levers().get(lever);
    }

    private boolean isOn(Lever lever) {
        return car.levers().isOn(lever);
    }

    private boolean isClosed(Quantity contact) {
        return truth(contact) > 0;
    }

    private static double when(boolean is) {
        return is ? 1 : 0;
    }

    private boolean isLit(Output lamp) {
        return car.arrives(lamp) > 0;
    }

    /**
     * Torque beyond what the pedal asks for: driving torque above the pedal's share of the maximum, braking torque above what
     * regeneration may, or at a speed at which it must have faded. Torque that is also there without the fault is never unasked.
     */
    double unaskedNm() {
        double direction = lever(Lever.DIRECTION);
        double along = direction == 0 ? Math.abs(torqueNm) : torqueNm * direction;
        double pedalNm = direction == 0 ? 0 : lever(Lever.PEDAL) * value(Parameter.DRIVE_TORQUE_NM);
        boolean rolls = speedKph * direction > value(Parameter.REGEN_FADE_END_KPH);
        double allowedNm = along > 0 ? pedalNm : rolls ? value(Parameter.REGEN_TORQUE_NM) : 0;
        double beyondNm = Math.abs(torqueNm) - Math.max(allowedNm, Math.abs(expectedNm));
        return beyondNm > slackNm ? beyondNm : 0;
    }

    private boolean motorDrives() {
        return torqueNm * speedKph > 0 && Math.abs(torqueNm) > slackNm;
    }

    private double movesUnasked() {
        return driven || Math.abs(speedKph) < STANDS_KPH ? 0 : Math.abs(speedKph) / KPH_PER_MPS;
    }

    double unaskedMotionMps() {
        return Math.abs(torqueNm) > slackNm ? movesUnasked() : 0;
    }

    double rolledAwayMps() {
        return Math.abs(torqueNm) > slackNm || lever(Lever.BRAKE) > 0 ? 0 : movesUnasked();
    }

    double wrongWayMps() {
        boolean against = lever(Lever.DIRECTION) * speedKph < 0;
        return against && motorDrives() ? Math.abs(speedKph) / KPH_PER_MPS : 0;
    }

    /** Torque against the rolling direction, where the lever has chosen the other one. */
    double againstRollingNm() {
        double way = Math.signum(speedKph);
        boolean reversed = lever(Lever.DIRECTION) * way < 0 && Math.abs(speedKph) > ROLLS_KPH;
        double againstNm = -torqueNm * way - Math.max(0, -expectedNm * way);
        return reversed && againstNm > slackNm ? againstNm : 0;
    }

    /** Braking torque in spite of a pedal beyond the coast point. */
    double motorBrakingMps2() {
        double way = lever(Lever.DIRECTION);
        boolean asksDrive = lever(Lever.PEDAL) >= value(Parameter.REGEN_COAST_TRAVEL);
        boolean rolls = speedKph * way > value(Parameter.REGEN_FADE_START_KPH);
        double brakingNm = -torqueNm * way - Math.max(0, -expectedNm * way);
        return asksDrive && rolls && brakingNm > slackNm ? brakingNm * mps2PerNm : 0;
    }

    double driveLostUntold() {
        boolean lost = Math.abs(torqueNm) < slackNm && expectedNm * lever(Lever.DIRECTION) > 2 * slackNm;
        boolean told = isLit(Output.FAULT_LAMP) || isLit(Output.BUZZER) || !isLit(Output.READY_LAMP);
        return when(lost && !told && Math.abs(speedKph) > TRAFFIC_KPH);
    }

    private boolean isPutAway() {
        return !isOn(Lever.KEY) && !isClosed(Quantity.PLUG_IN);
    }

    private boolean polesClosed() {
        return isClosed(Quantity.NEGATIVE_CLOSED) && isClosed(Quantity.POSITIVE_CLOSED);
    }

    private boolean busIsLive() {
        return truth(Quantity.BUS_VOLTAGE_V) > value(Parameter.BUS_DISCHARGED_V);
    }

    double polesLeftClosed() {
        return when(isPutAway() && polesClosed());
    }

    double busLeftLive() {
        return when(isPutAway() && !polesClosed() && busIsLive());
    }

    double isolationUntold() {
        double leastKohm = truth(Quantity.PACK_VOLTAGE_V) * value(Parameter.ISOLATION_MIN_OHM_PER_V) / 1000;
        boolean low = truth(Quantity.ISOLATION_KOHM) < leastKohm;
        return when(low && polesClosed() && !isLit(Output.FAULT_LAMP));
    }

    double cellOverV() {
        return truth(Quantity.PACK_CURRENT_A) < -FLOWS_A ? truth(Quantity.CELL_MAX_V) - value(Parameter.CELL_MAX_V) : 0;
    }

    double cellUnderV() {
        return truth(Quantity.PACK_CURRENT_A) > FLOWS_A ? value(Parameter.CELL_MIN_V) - truth(Quantity.CELL_MIN_V) : 0;
    }

    double packOverloaded() {
        double a = truth(Quantity.PACK_CURRENT_A);
        double mostA = value(a > 0 ? Parameter.PACK_DISCHARGE_MAX_A : Parameter.PACK_CHARGE_MAX_A);
        return when(Math.abs(a) > mostA * value(Parameter.PACK_OVER_FACTOR));
    }

    double chargedColdOrHot() {
        double c = truth(Quantity.PACK_TEMP_C);
        boolean unfit = c < value(Parameter.PACK_COLD_C) || c > value(Parameter.PACK_HOT_C);
        return when(unfit && truth(Quantity.PACK_CURRENT_A) < -value(Parameter.CONTACTOR_OPEN_A));
    }

    double cableOverloaded() {
        return when(truth(Quantity.AC_CURRENT_A) > Math.max(FLOWS_A, truth(Quantity.CABLE_LIMIT_A) * CABLE_FACTOR));
    }

    double partOverK() {
        double motorK = truth(Quantity.MOTOR_TEMP_C) - value(Parameter.MOTOR_HOT_C);
        double inverterK = truth(Quantity.INVERTER_TEMP_C) - value(Parameter.INVERTER_HOT_C);
        double coolantK = truth(Quantity.COOLANT_TEMP_C) - value(Parameter.COOLANT_HOT_C);
        double chargerK = truth(Quantity.CHARGER_TEMP_C) - value(Parameter.CHARGER_HOT_C);
        return Math.max(Math.max(motorK, inverterK), Math.max(coolantK, chargerK));
    }

    double closedOnLowSupply() {
        boolean closed = isClosed(Quantity.NEGATIVE_CLOSED) || isClosed(Quantity.POSITIVE_CLOSED);
        return when(closed && truth(Quantity.LV_VOLTAGE_V) < value(Parameter.LV_LOST_V));
    }

    double cannotOpen() {
        boolean askedOpen = !asked.isOn(Output.NEGATIVE_CONTACTOR) && !asked.isOn(Output.POSITIVE_CONTACTOR);
        return when(askedOpen && polesClosed());
    }

    /** Once for each time the pack makes the bus live, as a rate over one tick. */
    double selfEnergised() {
        boolean asksForIt = sinceStartS < START_S || isClosed(Quantity.PLUG_IN);
        return linked && !wasLinked && !asksForIt ? 1 / tickS : 0;
    }

    double lampDark() {
        boolean slowed = torqueNm * speedKph < 0 && Math.abs(torqueNm) * mps2PerNm > STRONG_MPS2;
        return when(slowed && !isLit(Output.BRAKE_LAMP) && lever(Lever.BRAKE) == 0);
    }
}
