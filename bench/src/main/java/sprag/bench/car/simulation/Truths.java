package sprag.bench.car.simulation;

import java.util.Arrays;
import sprag.bench.car.Lever;
import sprag.bench.car.Quantity;
import sprag.supervisor.vocabulary.Parameter;

/** Where each {@link Quantity} is found in the parts. They are looked up a handful at a time: a call for each costs far more. */
final class Truths {
    private static final double KPH_PER_MPS = 3.6;
    private static final int LOOKS = 7;

    private final Parts p;
    private final boolean coded;
    private final double[] value = new double[Quantity.COUNT];
    private final int[] lookOf = new int[Quantity.COUNT];

    Truths(Parts parts) {
        p = parts;
        coded = parts.vehicle.is(Parameter.INLET_KIND, "type-2");
        Arrays.fill(lookOf, -1);
        for (int look = 0; look < LOOKS; look++) {
            Arrays.fill(value, Double.NaN);
            look(look);
            for (int i = 0; i < value.length; i++) {
                lookOf[i] = Double.isNaN(value[i]) ? lookOf[i] : look;
            }
        }
        for (Quantity quantity : Quantity.values()) {
            if (lookOf[quantity.ordinal()] < 0) {
                throw new IllegalStateException("nothing tells " + quantity.key());
            }
        }
    }

    double get(Quantity quantity) {
        int i = quantity.ordinal();
        look(lookOf[i]);
        return value[i];
    }

    /** Writes all of them into an array, in the order of the quantities. */
    void copyTo(double[] into, int from) {
        for (int look = 0; look < LOOKS; look++) {
            look(look);
        }
        System.arraycopy(value, 0, into, from, value.length);
    }

    private void look(int look) {
        switch (look) {
            case 0 -> voltages();
            case 1 -> currents();
            case 2 -> motion();
            case 3 -> warmth();
            case 4 -> lowAndInlet();
            case 5 -> energy();
            case 6 -> losses();
            default -> throw new IllegalArgumentException("there is no look " + look);
        }
    }

    private void put(Quantity quantity, double truth) {
        value[quantity.ordinal()] = truth;
    }

    private static double bit(boolean on) {
        return on ? 1 : 0;
    }

    private void voltages() {
        put(Quantity.PACK_VOLTAGE_V, p.circuit.packV);
        put(Quantity.PACK_OCV_V, p.pack.ocvV);
        put(Quantity.BUS_VOLTAGE_V, p.circuit.busV);
        put(Quantity.EMF_V, p.machine.emfV(p.road.radps()));
        put(Quantity.CELL_MAX_V, p.pack.cellMaxV);
        put(Quantity.CELL_MIN_V, p.pack.cellMinV);
        put(Quantity.SOC, p.pack.soc);
        put(Quantity.NEGATIVE_CLOSED, bit(p.negative.closed));
        put(Quantity.POSITIVE_CLOSED, bit(p.positive.closed));
        put(Quantity.PRECHARGE_CLOSED, bit(p.precharge.closed));
        put(Quantity.FUSE_BLOWN, bit(p.circuit.box.fuseBlown()));
        put(Quantity.ISOLATION_KOHM, p.isolationKohm());
    }

    private void currents() {
        put(Quantity.PACK_CURRENT_A, p.circuit.packA);
        put(Quantity.CONTACTOR_CURRENT_A, p.circuit.box.meanA);
        put(Quantity.CONTACTOR_PEAK_A, p.circuit.box.peakA);
        put(Quantity.CHARGER_1_CURRENT_A, p.chargers.currentA[0]);
        put(Quantity.CHARGER_2_CURRENT_A, p.chargers.currentA[1]);
        put(Quantity.CHARGER_3_CURRENT_A, p.chargers.currentA[2]);
        put(Quantity.AC_CURRENT_A, p.chargers.acA);
        put(Quantity.CABLE_LIMIT_A, coded ? Math.min(p.station.limitA, p.levers.get(Lever.CABLE_A)) : p.station.limitA);
        put(Quantity.CONTACTOR_ARC_J, p.circuit.box.arcJ);
        put(Quantity.CONTACTOR_INRUSH_J, p.circuit.box.inrushJ);
        put(Quantity.PLUG_ARC_A, p.plugArcA);
        put(Quantity.LIVE_PLUG_MOVE_M, p.plugMoveM);
    }

    private void motion() {
        put(Quantity.SPEED_KPH, p.road.speedMps * KPH_PER_MPS);
        put(Quantity.ACCELERATION_MPS2, p.road.accelerationMps2());
        put(Quantity.DISTANCE_M, p.road.distanceM);
        put(Quantity.ALTITUDE_M, p.road.altitudeM);
        put(Quantity.MOTOR_SPEED_RPM, p.road.rpm());
        put(Quantity.MOTOR_TORQUE_NM, p.machine.torqueNm);
        put(Quantity.MOTOR_POWER_W, p.machine.torqueNm * p.road.radps());
        put(Quantity.INVERTER_POWER_W, p.circuit.loads.inverterW);
        put(Quantity.HEATER_POWER_W, p.circuit.heaterW());
        put(Quantity.DCDC_POWER_W, p.lowSide.converterW);
    }

    private void warmth() {
        put(Quantity.PACK_TEMP_C, p.pack.tempC);
        put(Quantity.MOTOR_TEMP_C, p.heat.motorC);
        put(Quantity.INVERTER_TEMP_C, p.heat.inverterC);
        put(Quantity.COOLANT_TEMP_C, p.heat.coolantC);
        put(Quantity.CHARGER_TEMP_C, p.heat.chargerC);
        put(Quantity.HEATER_TEMP_C, p.heat.warmerC);
        put(Quantity.RESISTOR_TEMP_C, p.heat.resistorC);
    }

    private void lowAndInlet() {
        put(Quantity.LV_VOLTAGE_V, p.lowSide.supplyV);
        put(Quantity.LV_CURRENT_A, p.lowSide.loadA);
        put(Quantity.DCDC_CURRENT_A, p.lowSide.converterA);
        put(Quantity.LV_SOC, p.lowSide.soc);
        put(Quantity.PILOT_STATE, p.station.letter);
        put(Quantity.PILOT_DUTY, p.station.duty);
        put(Quantity.PLUG_IN, bit(p.plug.plugIn));
        put(Quantity.PLUG_LOCKED, bit(p.plug.locked));
        put(Quantity.STATION_CLOSED, bit(p.station.closed));
    }

    private void energy() {
        put(Quantity.PACK_ENERGY_OUT_J, p.pack.terminalOutJ);
        put(Quantity.PACK_STORED_OUT_J, p.pack.storedOutJ);
        put(Quantity.BUS_LOAD_ENERGY_J, p.circuit.loads.loadJ);
        put(Quantity.HEATER_ENERGY_J, p.circuit.loads.heaterJ);
        put(Quantity.INVERTER_ENERGY_J, p.circuit.loads.inverterJ);
        put(Quantity.MOTOR_WORK_J, p.road.shaftJ);
        put(Quantity.KINETIC_J, p.road.kineticJ());
        put(Quantity.POTENTIAL_J, p.road.potentialJ());
        put(Quantity.BUS_STORED_J, p.circuit.storedJ());
        put(Quantity.CHARGER_ENERGY_J, p.chargers.givenJ);
        put(Quantity.AC_ENERGY_J, p.chargers.acJ);
    }

    private void losses() {
        put(Quantity.PACK_LOSS_J, p.pack.lossJ);
        put(Quantity.PACK_SLOW_J, p.pack.polarStoredJ);
        put(Quantity.BOX_LOSS_J, p.circuit.box.lossJ);
        put(Quantity.RESISTOR_ENERGY_J, p.circuit.box.resistorJ);
        put(Quantity.BLEED_ENERGY_J, p.circuit.bleedJ);
        put(Quantity.INVERTER_LOSS_J, p.machine.inverterLossJ);
        put(Quantity.MOTOR_LOSS_J, p.machine.motorLossJ);
        put(Quantity.GEAR_LOSS_J, p.road.gearLossJ);
        put(Quantity.ROLLING_LOSS_J, p.road.rollingJ);
        put(Quantity.DRAG_LOSS_J, p.road.dragJ);
        put(Quantity.BRAKE_HEAT_J, p.road.brakeJ);
        put(Quantity.CHARGER_LOSS_J, p.chargers.lossJ);
    }
}
