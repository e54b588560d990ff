package sprag.bench.car;

import static sprag.bench.car.Quantity.*;

import java.util.function.DoubleSupplier;
import sprag.bench.config.CarParameter;
import sprag.bench.config.Vehicle;
import sprag.supervisor.Parameter;

/** Where each {@link Quantity} is found in the parts. */
final class Truths {
    private static final double KPH_PER_MPS = 3.6;

    private final DoubleSupplier[] of = new DoubleSupplier[Quantity.COUNT];

    Truths(Parts p) {
        voltages(p);
        currents(p);
        motion(p);
        warmth(p);
        lowAndInlet(p);
        energy(p);
        losses(p);
        for (Quantity quantity : Quantity.values()) {
            if (of[quantity.ordinal()] == null) {
                throw new IllegalStateException("nothing tells " + quantity.key());
            }
        }
    }

    double get(Quantity quantity) {
        return of[quantity.ordinal()].getAsDouble();
    }

    private void put(Quantity quantity, DoubleSupplier where) {
        of[quantity.ordinal()] = where;
    }

    private static double bit(boolean on) {
        return on ? 1 : 0;
    }

    private void voltages(Parts p) {
        put(PACK_VOLTAGE_V, () -> p.circuit.packV);
        put(PACK_OCV_V, () -> p.pack.ocvV);
        put(BUS_VOLTAGE_V, () -> p.circuit.busV);
        put(EMF_V, () -> p.machine.emfV(p.road.radps()));
        put(CELL_MAX_V, () -> p.pack.cellMaxV);
        put(CELL_MIN_V, () -> p.pack.cellMinV);
        put(SOC, () -> p.pack.soc);
        put(NEGATIVE_CLOSED, () -> bit(p.negative.closed));
        put(POSITIVE_CLOSED, () -> bit(p.positive.closed));
        put(PRECHARGE_CLOSED, () -> bit(p.precharge.closed));
        put(FUSE_BLOWN, () -> bit(p.circuit.fuseBlown));
        put(ISOLATION_KOHM, () -> isolationKohm(p));
    }

    static double isolationKohm(Parts p) {
        double soundKohm = p.vehicle.get(CarParameter.PARTS_ISOLATION_KOHM);
        return p.faults.of(PartFault.ISOLATION_LOW, soundKohm);
    }

    private void currents(Parts p) {
        Vehicle vehicle = p.vehicle;
        boolean coded = vehicle.is(Parameter.INLET_KIND, "type-2");
        put(PACK_CURRENT_A, () -> p.circuit.packA);
        put(CONTACTOR_CURRENT_A, () -> p.circuit.boxA);
        put(CONTACTOR_PEAK_A, () -> p.circuit.peakA);
        put(CHARGER_1_CURRENT_A, () -> p.chargers.currentA[0]);
        put(CHARGER_2_CURRENT_A, () -> p.chargers.currentA[1]);
        put(CHARGER_3_CURRENT_A, () -> p.chargers.currentA[2]);
        put(AC_CURRENT_A, () -> p.chargers.acA);
        put(CABLE_LIMIT_A, () -> coded ? Math.min(p.station.limitA, p.levers.get(Lever.CABLE_A)) : p.station.limitA);
        put(CONTACTOR_ARC_J, () -> p.circuit.arcJ);
        put(CONTACTOR_INRUSH_J, () -> p.circuit.inrushJ);
        put(PLUG_ARC_A, () -> p.plugArcA);
        put(LIVE_PLUG_MOVE_M, () -> p.plugMoveM);
    }

    private void motion(Parts p) {
        put(SPEED_KPH, () -> p.road.speedMps * KPH_PER_MPS);
        put(ACCELERATION_MPS2, () -> p.road.accelerationMps2);
        put(DISTANCE_M, () -> p.road.distanceM);
        put(ALTITUDE_M, () -> p.road.altitudeM);
        put(MOTOR_SPEED_RPM, () -> p.road.rpm());
        put(MOTOR_TORQUE_NM, () -> p.machine.torqueNm);
        put(MOTOR_POWER_W, () -> p.machine.torqueNm * p.road.radps());
        put(INVERTER_POWER_W, () -> p.circuit.inverterW);
        put(HEATER_POWER_W, () -> p.circuit.heaterW());
        put(DCDC_POWER_W, () -> p.lowSide.converterW);
    }

    private void warmth(Parts p) {
        put(PACK_TEMP_C, () -> p.pack.tempC);
        put(MOTOR_TEMP_C, () -> p.heat.motorC);
        put(INVERTER_TEMP_C, () -> p.heat.inverterC);
        put(COOLANT_TEMP_C, () -> p.heat.coolantC);
        put(CHARGER_TEMP_C, () -> p.heat.chargerC);
        put(HEATER_TEMP_C, () -> p.heat.warmerC);
        put(RESISTOR_TEMP_C, () -> p.heat.resistorC);
    }

    private void lowAndInlet(Parts p) {
        put(LV_VOLTAGE_V, () -> p.lowSide.supplyV);
        put(LV_CURRENT_A, () -> p.lowSide.loadA);
        put(DCDC_CURRENT_A, () -> p.lowSide.converterA);
        put(LV_SOC, () -> p.lowSide.soc);
        put(PILOT_STATE, () -> p.station.letter);
        put(PILOT_DUTY, () -> p.station.duty);
        put(STATION_CLOSED, () -> bit(p.station.closed));
    }

    private void energy(Parts p) {
        put(PACK_ENERGY_OUT_J, () -> p.pack.terminalOutJ);
        put(PACK_STORED_OUT_J, () -> p.pack.storedOutJ);
        put(BUS_LOAD_ENERGY_J, () -> p.circuit.loadJ);
        put(INVERTER_ENERGY_J, () -> p.circuit.inverterJ);
        put(MOTOR_WORK_J, () -> p.road.shaftJ);
        put(KINETIC_J, () -> p.road.kineticJ());
        put(POTENTIAL_J, () -> p.road.potentialJ());
        put(BUS_STORED_J, () -> p.circuit.storedJ());
        put(CHARGER_ENERGY_J, () -> p.chargers.givenJ);
        put(AC_ENERGY_J, () -> p.chargers.acJ);
    }

    private void losses(Parts p) {
        put(PACK_LOSS_J, () -> p.pack.lossJ);
        put(BOX_LOSS_J, () -> p.circuit.boxLossJ);
        put(RESISTOR_ENERGY_J, () -> p.circuit.resistorJ);
        put(BLEED_ENERGY_J, () -> p.circuit.bleedJ);
        put(INVERTER_LOSS_J, () -> p.machine.inverterLossJ);
        put(MOTOR_LOSS_J, () -> p.machine.motorLossJ);
        put(GEAR_LOSS_J, () -> p.road.gearLossJ);
        put(ROLLING_LOSS_J, () -> p.road.rollingJ);
        put(DRAG_LOSS_J, () -> p.road.dragJ);
        put(BRAKE_HEAT_J, () -> p.road.brakeJ);
        put(CHARGER_LOSS_J, () -> p.chargers.lossJ);
    }
}
