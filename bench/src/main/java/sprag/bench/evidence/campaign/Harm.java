package sprag.bench.evidence.campaign;

import sprag.bench.car.Lever;
import sprag.bench.car.Quantity;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;

/** What a run does that could hurt: torque nobody asked for, arcs, volts above limits, a live bus, a hot resistor. */
final class Harm {
    /** Torque within this share of the maximum of that without a fault is the same torque. */
    private static final double TORQUE_SHARE = 0.05;

    /** Bus capacitors stand a short surge of a tenth above their rating; half of that is granted here. Common practice. */
    private static final double BUS_SURGE = 1.05;

    private final SimulatedCar car;
    private final double packMaxV;
    private final double busMaxV;
    private final double cellMaxV;
    private final double dischargedV;
    private final double driveNm;
    private final double regenNm;
    private final double fadeEndKph;
    private final double torqueSlackNm;
    private final double tickS;
    private double openS;

    /** Torque beyond what the pedal asks for, integrated (Nm s). */
    double unaskedNms;
    /** How far the pack was above its limit (V), 0 for never. */
    double overPackV;
    /** How far the bus was above its limit and a short surge (V), 0 for never. */
    double overBusV;
    /** How far a cell was above its limit (V), 0 for never. */
    double overCellV;
    /** The longest time that the bus was live with everything commanded open (s). */
    double liveS;
    /** The greatest energy burnt in an arc while charge or drive was not cut on purpose (J). */
    double arcJ;

    Harm(Vehicle vehicle, SimulatedCar car) {
        this.car = car;
        packMaxV = vehicle.get(Parameter.PACK_MAX_V);
        busMaxV = vehicle.get(Parameter.BUS_MAX_V) * BUS_SURGE;
        cellMaxV = vehicle.get(Parameter.CELL_MAX_V);
        dischargedV = vehicle.get(Parameter.BUS_DISCHARGED_V);
        driveNm = vehicle.get(Parameter.DRIVE_TORQUE_NM);
        regenNm = vehicle.get(Parameter.REGEN_TORQUE_NM);
        fadeEndKph = vehicle.get(Parameter.REGEN_FADE_END_KPH);
        torqueSlackNm = vehicle.get(Parameter.DRIVE_TORQUE_NM) * TORQUE_SHARE;
        tickS = vehicle.get(Parameter.LOOP_TICK_MS) / 1000;
    }

    /** Looks at one tick.
     *
     * @param asked what was commanded
     * @param expectedNm the torque without a fault in the same tick
     */
    void look(Commands asked, double expectedNm) {
        double unaskedNm = unaskedNm(car.truth(Quantity.MOTOR_TORQUE_NM), Math.abs(expectedNm));
        unaskedNms += unaskedNm > torqueSlackNm ? unaskedNm * tickS : 0;
        overPackV = Math.max(overPackV, car.truth(Quantity.PACK_VOLTAGE_V) - packMaxV);
        overBusV = Math.max(overBusV, car.truth(Quantity.BUS_VOLTAGE_V) - busMaxV);
        overCellV = Math.max(overCellV, car.truth(Quantity.CELL_MAX_V) - cellMaxV);
        boolean open = !asked.isOn(Output.NEGATIVE_CONTACTOR)
                && !asked.isOn(Output.PRECHARGE_RELAY)
                && !asked.isOn(Output.POSITIVE_CONTACTOR);
        openS = open && car.truth(Quantity.BUS_VOLTAGE_V) > dischargedV ? openS + tickS : 0;
        liveS = Math.max(liveS, openS);
        arcJ = car.truth(Quantity.CONTACTOR_ARC_J);
    }

    /**
     * Torque beyond what the pedal asks for: driving torque above the pedal's share of the maximum, braking torque above what
     * regeneration may, or at a speed at which it must have faded. Torque that is also there without the fault is never unasked.
     */
    private double unaskedNm(double torqueNm, double expectedNm) {
        double direction = car.levers().get(Lever.DIRECTION);
        double along = direction == 0 ? Math.abs(torqueNm) : torqueNm * direction;
        double pedalNm = car.levers().get(Lever.PEDAL) * driveNm;
        boolean rolls = car.truth(Quantity.SPEED_KPH) * direction > fadeEndKph;
        double allowedNm = along > 0 ? pedalNm : rolls ? regenNm : 0;
        return Math.abs(torqueNm) - Math.max(allowedNm, expectedNm);
    }

    /** Energy dissipated by closing onto a difference of voltage (J). */
    double inrushJ() {
        return car.truth(Quantity.CONTACTOR_INRUSH_J);
    }

    /** The way driven with the plug in the inlet (m). */
    double tetheredM() {
        return car.truth(Quantity.LIVE_PLUG_MOVE_M);
    }

    /** The greatest current at which the plug was pulled (A). */
    double plugArcA() {
        return car.truth(Quantity.PLUG_ARC_A);
    }
}
