package sprag.bench.car.simulation;

import java.util.Arrays;
import java.util.function.DoublePredicate;
import sprag.bench.car.Fitted;
import sprag.bench.car.Lever;
import sprag.bench.car.Levers;
import sprag.bench.car.Noise;
import sprag.bench.car.PartFault;
import sprag.bench.car.SignalTrouble;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.Samples;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.Unit;

/** What the connector shows: the truth, a little noise, whatever is wrong with a wire, and the steps of a converter. */
public final class Sensors {
    private static final double PROXIMITY_SUPPLY_V = 5;
    private static final double PROXIMITY_UP_OHM = 330;
    private static final double PROXIMITY_DOWN_OHM = 2700;
    private static final double LATCHED_OHM = 150;
    private static final double PRESSED_OHM = 480;
    private static final double BRAKE_SWITCH_TRAVEL = 0.02;
    private static final double LOGIC_V = 5;
    private static final double KPH_PER_MPS = 3.6;
    private static final int WHEEL = Signal.WHEEL_SPEED_KPH.ordinal();

    private final Parts p;
    private final Noise noise;
    private final Divider thermistor;
    private final Divider motor;
    private final boolean typeOne;
    private final double unevenK;
    private final int airflowMs;
    private final double[] pedal;
    private final double[] value = new double[Signal.COUNT];
    private final double[] gain = new double[Signal.COUNT];
    private final double[] offset = new double[Signal.COUNT];
    private final double[] noiseSize = new double[Signal.COUNT];
    private final double[] perUnit = new double[Signal.COUNT];
    private final double[] stepSize = new double[Signal.COUNT];
    private final SignalTrouble.Wire[] wires = new SignalTrouble.Wire[Signal.COUNT];
    private final Signal[] fitted;
    /** The fitted ones without noise, which have no steps either. */
    private final Signal[] ideal;
    /** The fitted ones with noise and steps. */
    private final Signal[] real;

    private final boolean plain;
    private final boolean byBrake;
    private final double demandRestV;
    private final double demandSpanV;

    private double motorK;
    private double inverterK;
    private double chargerK;
    private double packK;

    private int seenLevers = -1;
    private int seenWarmth = -1;

    Sensors(Parts parts, long seed) {
        p = parts;
        Vehicle vehicle = parts.vehicle;
        noise = new Noise(seed);
        thermistor = Divider.thermistor(vehicle);
        motor = Divider.motor(vehicle);
        typeOne = vehicle.is(Parameter.INLET_KIND, "type-1");
        byBrake = vehicle.is(Parameter.REGEN_BY, "brake-pressure");
        demandRestV = vehicle.get(Parameter.REGEN_DEMAND_REST_V);
        demandSpanV = vehicle.get(Parameter.REGEN_DEMAND_FULL_V) - demandRestV;
        plain = vehicle.is(Parameter.INLET_KIND, "plain");
        unevenK = vehicle.get(CarParameter.CELLS_UNEVEN_K) / 2;
        airflowMs = (int) vehicle.get(CarParameter.WARMER_AIRFLOW_MS);
        double aV = vehicle.get(Parameter.PEDAL_A_RELEASED_V);
        double bV = vehicle.get(Parameter.PEDAL_B_RELEASED_V);
        pedal = new double[] {
            aV, vehicle.get(Parameter.PEDAL_A_FULL_V) - aV, bV, vehicle.get(Parameter.PEDAL_B_FULL_V) - bV
        };
        fitted = Arrays.stream(Signal.values())
                .filter(s -> Fitted.samples(vehicle, s))
                .toArray(Signal[]::new);
        for (Signal signal : fitted) {
            noiseSize[signal.ordinal()] = noiseOf(vehicle, signal) * vehicle.get(CarParameter.SENSORS_NOISE);
            perUnit[signal.ordinal()] = stepsPerUnit(signal);
            stepSize[signal.ordinal()] = noiseSize[signal.ordinal()] == 0 ? 0 : 1 / stepsPerUnit(signal);
            wires[signal.ordinal()] = new SignalTrouble.Wire(open(signal), low(signal), high(signal));
        }
        lean(vehicle);
        ideal = fittedWhere(size -> size == 0);
        real = fittedWhere(size -> size != 0);
    }

    private Signal[] fittedWhere(DoublePredicate noiseIs) {
        return Arrays.stream(fitted)
                .filter(s -> noiseIs.test(noiseSize[s.ordinal()]))
                .toArray(Signal[]::new);
    }

    /** The usual noise of a signal, plus or minus. */
    private static double noiseOf(Vehicle vehicle, Signal signal) {
        switch (signal) {
            case PACK_VOLTAGE_V:
            case BUS_VOLTAGE_V:
                return 0.0005 * vehicle.get(Parameter.PACK_MAX_V);
            case PACK_CURRENT_A:
            case PACK_CURRENT_2_A:
                return 0.0005 * vehicle.get(Parameter.PACK_DISCHARGE_MAX_A);
            case LV_SUPPLY_V:
            case PILOT_PEAK_V:
                return 0.03;
            case CELL_MAX_V:
            case CELL_MIN_V:
            case PILOT_DUTY:
            case MOTOR_SPEED_RPM:
                return 0.001;
            case ISOLATION_KOHM:
            case REGEN_LEVEL:
            case CHARGER_1_CURRENT_A:
            case CHARGER_2_CURRENT_A:
            case CHARGER_3_CURRENT_A:
            case CHARGER_1_VOLTAGE_V:
            case CHARGER_2_VOLTAGE_V:
            case CHARGER_3_VOLTAGE_V:
                return 0; // numbers that a part tells
            default:
                return signal.isSwitch() ? 0 : 0.003;
        }
    }

    /**
     * How finely a converter tells a signal: steps for each of its units, a power of two so that every reading is exact.
     *
     * <p>5 V in 5120 steps are a little better than twelve bits; 1000 V in 64000 are sixteen. A sensor without noise is ideal and has
     * no steps either.
     */
    private static double stepsPerUnit(Signal signal) {
        switch (signal) {
            case PACK_VOLTAGE_V:
            case BUS_VOLTAGE_V:
                return 64;
            case PACK_CURRENT_A:
            case PACK_CURRENT_2_A:
                return 32;
            case LV_SUPPLY_V:
            case PILOT_PEAK_V:
                return 256;
            case MOTOR_SPEED_RPM:
                return 8;
            default:
                return 1024;
        }
    }

    /** Inputs in volts are pulled up on the board, so a broken pedal or thermistor wire shows the supply. */
    private static double open(Signal signal) {
        switch (signal) {
            case PACK_VOLTAGE_V:
            case BUS_VOLTAGE_V:
            case LV_SUPPLY_V:
            case PEDAL_SUPPLY_V:
            case CELL_MAX_V:
            case CELL_MIN_V:
            case PILOT_PEAK_V:
            case CHARGER_1_VOLTAGE_V:
            case CHARGER_2_VOLTAGE_V:
            case CHARGER_3_VOLTAGE_V:
                return 0;
            case PACK_CURRENT_A:
            case PACK_CURRENT_2_A:
                return signal.min;
            case ISOLATION_KOHM:
                return signal.max;
            default:
                return signal.unit == Unit.VOLT ? LOGIC_V : 0;
        }
    }

    private static double low(Signal signal) {
        return signal.unit == Unit.VOLT ? 0 : signal.min;
    }

    private static double high(Signal signal) {
        return signal.max;
    }

    /** Puts a sample of everything that can be sampled. */
    public void sample(Samples into, long nowNs, long nowMs) {
        if (seenLevers != p.levers.changes()) {
            seenLevers = p.levers.changes();
            p.movePlug();
            driver();
        }
        if (seenWarmth != p.warmth) {
            seenWarmth = p.warmth;
            temperatures();
        }
        box();
        pack();
        inlet();
        if (p.faults.isEmpty()) {
            show(into, nowNs);
        } else {
            distort(into, nowNs, nowMs);
        }
    }

    double ideal(Signal signal) {
        return value[signal.ordinal()];
    }

    SignalTrouble.Wire wire(Signal signal) {
        return wires[signal.ordinal()];
    }

    /** Every wire sound. */
    private void show(Samples into, long nowNs) {
        for (Signal signal : ideal) {
            into.put(signal, value[signal.ordinal()], nowNs);
        }
        for (Signal signal : real) {
            into.put(signal, stepped(signal.ordinal(), noisy(signal.ordinal())), nowNs);
        }
    }

    private double noisy(int i) {
        if (noiseSize[i] == 0) {
            return value[i];
        }
        double shown = value[i] + noiseSize[i] * noise.next();
        // Counted pulses have no sign: at standstill noise cannot bring them below nothing.
        return i == WHEEL ? Math.max(0, shown) : shown;
    }

    /** What a converter makes of a value. */
    private double stepped(int i, double shown) {
        return stepSize[i] == 0 ? shown : Math.rint(shown * perUnit[i]) * stepSize[i];
    }

    private void distort(Samples into, long nowNs, long nowMs) {
        boolean silent = p.faults.has(PartFault.MONITOR_SILENT);
        for (Signal signal : fitted) {
            int i = signal.ordinal();
            double shows = noisy(i);
            SignalTrouble trouble = p.faults.trouble(signal);
            if (trouble != null) {
                shows = trouble.distort(shows, wires[i], nowMs, noise);
            }
            shows = stepped(i, shows);
            boolean gone = silent && (signal == Signal.CELL_MAX_V || signal == Signal.CELL_MIN_V);
            if (shows == shows && !gone) {
                into.put(signal, shows, nowNs);
            }
        }
    }

    private void put(Signal signal, double truth) {
        int i = signal.ordinal();
        value[i] = truth * gain[i] + offset[i];
    }

    /** What this car's sensors make of the truth although nothing is broken. */
    private void lean(Vehicle vehicle) {
        Arrays.fill(gain, 1);
        gain[Signal.PACK_VOLTAGE_V.ordinal()] += vehicle.get(CarParameter.SENSORS_PACK_SHARE);
        gain[Signal.BUS_VOLTAGE_V.ordinal()] += vehicle.get(CarParameter.SENSORS_BUS_SHARE);
        gain[Signal.PACK_CURRENT_A.ordinal()] += vehicle.get(CarParameter.SENSORS_CURRENT_SHARE);
        gain[Signal.PEDAL_SUPPLY_V.ordinal()] += vehicle.get(CarParameter.SENSORS_SUPPLY_SHARE);
        gain[Signal.LV_SUPPLY_V.ordinal()] += vehicle.get(CarParameter.SENSORS_LV_SHARE);
        gain[Signal.PILOT_PEAK_V.ordinal()] += vehicle.get(CarParameter.SENSORS_PILOT_SHARE);
        offset[Signal.PACK_CURRENT_A.ordinal()] = vehicle.get(CarParameter.SENSORS_CURRENT_A);
        offset[Signal.CELL_MAX_V.ordinal()] = vehicle.get(CarParameter.SENSORS_CELL_V);
        offset[Signal.CELL_MIN_V.ordinal()] = vehicle.get(CarParameter.SENSORS_CELL_V);
        offset[Signal.PEDAL_A_V.ordinal()] = vehicle.get(CarParameter.SENSORS_PEDAL_A_V);
        offset[Signal.PEDAL_B_V.ordinal()] = vehicle.get(CarParameter.SENSORS_PEDAL_B_V);
        motorK = vehicle.get(CarParameter.SENSORS_MOTOR_K);
        inverterK = vehicle.get(CarParameter.SENSORS_INVERTER_K);
        chargerK = vehicle.get(CarParameter.SENSORS_CHARGER_K);
        packK = vehicle.get(CarParameter.SENSORS_PACK_K);
    }

    private void put(Signal signal, boolean on) {
        value[signal.ordinal()] = on ? 1 : 0;
    }

    private void driver() {
        Levers levers = p.levers;
        double travel = levers.get(Lever.PEDAL);
        put(Signal.KEY_ON, levers.isOn(Lever.KEY));
        put(Signal.START_REQUEST, levers.isOn(Lever.START));
        put(Signal.FORWARD_SWITCH, levers.get(Lever.DIRECTION) > 0.5);
        put(Signal.REVERSE_SWITCH, levers.get(Lever.DIRECTION) < -0.5);
        put(Signal.BRAKE_PRESSED, levers.get(Lever.BRAKE) >= BRAKE_SWITCH_TRAVEL);
        put(Signal.PEDAL_A_V, pedal[0] + pedal[1] * travel);
        put(Signal.PEDAL_B_V, pedal[2] + pedal[3] * travel);
        put(Signal.PEDAL_SUPPLY_V, LOGIC_V);
        put(Signal.REGEN_LEVEL, Math.rint(levers.get(Lever.REGEN_LEVEL)));
        put(Signal.REGEN_DEMAND_V, demandRestV + demandSpanV * levers.get(byBrake ? Lever.BRAKE : Lever.REGEN_DEMAND));
        put(Signal.SERVICE_RESET, levers.isOn(Lever.SERVICE_RESET));
        put(Signal.HEATER_REQUEST, levers.isOn(Lever.HEATER));
        put(Signal.CUT_LOOP_CLOSED, levers.isOn(Lever.CUT_LOOP));
        put(Signal.COVER_LOOP_CLOSED, levers.isOn(Lever.COVER_LOOP));
        put(Signal.CRASH_LOOP_CLOSED, levers.isOn(Lever.CRASH_LOOP));
    }

    /** What the thermistors show changes each 100 ms only. */
    private void temperatures() {
        put(Signal.MOTOR_TEMP_V, motor.volts(p.heat.motorC + motorK));
        put(Signal.INVERTER_TEMP_V, thermistor.volts(p.heat.inverterC + inverterK));
        put(Signal.COOLANT_TEMP_V, thermistor.volts(p.heat.coolantC + inverterK));
        put(Signal.CHARGER_TEMP_V, thermistor.volts(p.heat.chargerC + chargerK));
        put(Signal.HEATER_TEMP_V, thermistor.volts(p.heat.warmerC));
        put(Signal.PACK_HOT_V, thermistor.volts(p.pack.tempC + unevenK + packK));
        put(Signal.PACK_COLD_V, thermistor.volts(p.pack.tempC - unevenK + packK));
    }

    private void box() {
        put(Signal.NEGATIVE_AUX_CLOSED, p.negative.closed);
        put(Signal.POSITIVE_AUX_CLOSED, p.positive.closed);
        put(Signal.PRECHARGE_AUX_CLOSED, p.precharge.closed);
        put(Signal.INVERTER_READY, p.machine.ready);
        put(Signal.INVERTER_FAULT, p.machine.reportsFault());
        speeds();
        put(Signal.HEATER_AIRFLOW, p.airMs > airflowMs);
        put(Signal.LV_SUPPLY_V, p.lowSide.supplyV);
    }

    /** On ice the driven wheels turn faster than the road, or slower down to locked. The second speed is an undriven wheel's. */
    private void speeds() {
        double roadKph = p.road.speedMps * KPH_PER_MPS;
        double slipKph = p.levers.get(Lever.WHEEL_SLIP_KPH);
        double rpm = p.road.rpm();
        if (slipKph != 0 && roadKph != 0) {
            rpm *= Math.max(0, Math.abs(roadKph) + slipKph) / Math.abs(roadKph);
        }
        put(Signal.MOTOR_SPEED_RPM, rpm);
        put(Signal.WHEEL_SPEED_KPH, Math.abs(roadKph));
    }

    private void pack() {
        put(Signal.DISCHARGE_PERMIT, p.monitor.dischargePermit && p.levers.isOn(Lever.DISCHARGE_PERMIT));
        put(Signal.CHARGE_PERMIT, p.monitor.chargePermit && p.levers.isOn(Lever.CHARGE_PERMIT));
        put(Signal.PACK_VOLTAGE_V, p.circuit.packV);
        put(Signal.BUS_VOLTAGE_V, p.circuit.busV);
        put(Signal.PACK_CURRENT_A, p.circuit.packA);
        put(Signal.PACK_CURRENT_2_A, p.circuit.packA);
        put(Signal.CELL_MAX_V, p.pack.cellMaxV);
        put(Signal.CELL_MIN_V, p.pack.cellMinV);
        put(Signal.ISOLATION_KOHM, p.isolationKohm());
    }

    private void inlet() {
        put(Signal.PLUG_PRESENT, p.plug.plugIn);
        put(Signal.PROXIMITY_V, proximityV());
        put(Signal.PLUG_LOCKED, p.plug.locked);
        put(Signal.PILOT_PEAK_V, p.station.peakV);
        put(Signal.PILOT_DUTY, p.station.duty);
        boolean powered = !plain || p.station.closed;
        put(Signal.CHARGER_1_OK, powered && p.chargers.isWell(0));
        put(Signal.CHARGER_2_OK, powered && p.chargers.isWell(1));
        put(Signal.CHARGER_3_OK, powered && p.chargers.isWell(2));
        put(Signal.CHARGER_1_CURRENT_A, p.chargers.currentA[0]);
        put(Signal.CHARGER_2_CURRENT_A, p.chargers.currentA[1]);
        put(Signal.CHARGER_3_CURRENT_A, p.chargers.currentA[2]);
        double outputV = p.chargers.onBus() ? p.circuit.busV : p.circuit.packV;
        put(Signal.CHARGER_1_VOLTAGE_V, outputV);
        put(Signal.CHARGER_2_VOLTAGE_V, outputV);
        put(Signal.CHARGER_3_VOLTAGE_V, outputV);
    }

    private double proximityV() {
        if (!p.plug.plugIn) {
            return proximityV(PROXIMITY_DOWN_OHM);
        }
        double ohm = typeOne
                ? p.levers.isOn(Lever.LATCH) ? PRESSED_OHM : LATCHED_OHM
                : cableOhm(p.levers.get(Lever.CABLE_A));
        return proximityV(PROXIMITY_DOWN_OHM * ohm / (PROXIMITY_DOWN_OHM + ohm));
    }

    /** 5 V through 330 Ohm (the network of SAE J1772, from memory). Unplugged 4.455 V, latched 1.505 V. */
    static double proximityV(double downOhm) {
        return PROXIMITY_SUPPLY_V * downOhm / (PROXIMITY_UP_OHM + downOhm);
    }

    /** The coding of a type-2 cable: 13 A 1500 Ohm, 20 A 680 Ohm, 32 A 220 Ohm, 63 A 100 Ohm. */
    public static double cableOhm(double ratingA) {
        if (ratingA < 20) {
            return 1500;
        }
        return ratingA < 32 ? 680 : ratingA < 63 ? 220 : 100;
    }
}
