package sprag.bench.car.simulation;

import sprag.bench.car.Faults;
import sprag.bench.car.Fitted;
import sprag.bench.car.Lever;
import sprag.bench.car.Levers;
import sprag.bench.car.PartFault;
import sprag.bench.car.Quantity;
import sprag.bench.car.SignalTrouble;
import sprag.bench.car.charge.ChargerOrders;
import sprag.bench.car.charge.Chargers;
import sprag.bench.car.drive.Machine;
import sprag.bench.car.drive.Road;
import sprag.bench.car.electric.Circuit;
import sprag.bench.car.electric.LowSide;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.CommandKeeper;
import sprag.hal.Health;
import sprag.hal.Samples;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/**
 * A car with a connector: what the supervisor samples and drives, levers for a person, faults, and the truth behind it all.
 *
 * <p>One thread owns it. Time passes only in {@link #advance}; nothing is allocated there, in {@link #sample} or in
 * {@link #command}.
 */
public final class SimulatedCar extends CommandKeeper {
    private static final int GRID_MS = 10;
    private static final int HEAT_MS = 100;
    /** The step while a settled torque drives: a whole part of the grid. */
    private static final int STEADY_MS = 5;
    /** Below this it may stop within a step. */
    private static final double CREEP_MPS = 0.5;

    private static final double MS = 0.001;
    private static final double GRID_S = GRID_MS * MS;
    private static final double KPH_PER_MPS = 3.6;
    /** Below this the inverter's own electronics are off. */
    private static final double LEAST_SUPPLY_V = 8;

    private final Vehicle vehicle;
    private final Parts parts;
    private final Truths truths;
    private final Sensors sensors;
    private ChargerOrders byMessage;
    private final Heat.Flow flow = new Heat.Flow();
    private final int watchdogMs;
    private final double unevenK;
    private final boolean hasNegative;
    private final boolean hasClutch;
    private long nowMs;
    private int seenFaults;
    private double emfNm;

    /**
     * A car at rest: key off, plug out, everything released, state of charge as the vehicle's file says.
     *
     * @param seed where its noise starts; the same seed gives the same run, bit for bit
     */
    public SimulatedCar(Vehicle vehicle, long seed) {
        super("simulated " + vehicle.name(), Fitted.sampled(vehicle), Fitted.driven(vehicle));
        this.vehicle = vehicle;
        parts = new Parts(vehicle);
        sensors = new Sensors(parts, seed);
        watchdogMs = (int) vehicle.get(CarParameter.BOX_WATCHDOG_MS);
        hasClutch = vehicle.is(Parameter.DRIVE_GEARBOX, "clutch");
        hasNegative = Fitted.drives(vehicle, Output.NEGATIVE_CONTACTOR);
        unevenK = vehicle.get(CarParameter.CELLS_UNEVEN_K) / 2;
        moveLevers();
        truths = new Truths(parts);
    }

    /** The vehicle it is built from. */
    public Vehicle vehicle() {
        return vehicle;
    }

    /**
     * Lets time pass under the commands in force.
     *
     * @param seconds how long; rounded to whole milliseconds
     */
    public void advance(double seconds) {
        Parts p = parts;
        if (p.faults.changes() != seenFaults) {
            seenFaults = p.faults.changes();
            p.refresh();
        }
        if (p.levers.anyMoved()) {
            moveLevers();
        }
        p.drives.take(commands, p.faults, nowMs);
        if (nowMs % GRID_MS != 0) {
            driveParts();
        }
        long endMs = nowMs + Math.round(seconds / MS);
        while (nowMs < endMs) {
            boolean onGrid = nowMs % GRID_MS == 0;
            if (onGrid) {
                grid();
            }
            if (onGrid && endMs - nowMs >= GRID_MS) {
                tenMilliseconds();
                nowMs += GRID_MS;
            } else {
                move(1);
                nowMs++;
            }
        }
    }

    /** As many steps as there is something fast to follow. */
    private void tenMilliseconds() {
        if (isAtRest()) {
            rest();
            return;
        }
        int stepMs = isSteady() ? STEADY_MS : 1;
        for (int passedMs = 0; passedMs < GRID_MS; passedMs += stepMs) {
            move(stepMs);
        }
    }

    /** Nothing moves, turns, switches or settles: ten milliseconds are one exact step. */
    private boolean isAtRest() {
        Parts p = parts;
        return p.road.isHeld() && p.machine.isIdle() && !p.contactsMove() && p.circuit.isSmooth();
    }

    /** It rolls with a torque that has settled, on a bus that is held, with nothing broken: what still changes is slow. */
    private boolean isSteady() {
        Parts p = parts;
        Road road = p.road;
        boolean rolls = Math.abs(road.speedMps) > CREEP_MPS;
        return rolls
                && p.machine.hasSettled(p.circuit.busV, road.radps())
                && p.circuit.isSteady()
                && !p.contactsMove()
                && p.faults.isEmpty();
    }

    private void rest() {
        Parts p = parts;
        p.machine.watch(p.circuit.busV, GRID_MS);
        p.road.stand();
        p.circuit.loads.inverterW = p.machine.powerW(0, GRID_S);
        p.circuit.emfV = 0;
        emfNm = 0;
        p.circuit.busChargeA = p.chargers.ontoBusA(p.circuit, GRID_S);
        p.circuit.step(GRID_S, p.pack);
        book(GRID_S);
    }

    /** One step of what is fast. */
    private void move(int stepMs) {
        Parts p = parts;
        double dtS = stepMs * MS;
        Circuit circuit = p.circuit;
        Machine machine = p.machine;
        Road road = p.road;
        if (p.contactsMove() || circuit.box.fuseBlown()) {
            moveContacts();
        }
        machine.watch(circuit.busV, stepMs);
        double radps = road.radps();
        machine.follow(circuit.busV, radps, stepMs);
        road.step(machine.torqueNm + machine.dragNm(radps) + emfNm, dtS);
        circuit.loads.inverterW = machine.powerW(road.meanRadps(), dtS);
        circuit.emfV = machine.switching ? 0 : machine.emfV(radps);
        circuit.busChargeA = p.chargers.ontoBusA(circuit, dtS);
        circuit.step(dtS, p.pack);
        emfNm = 0;
        if (circuit.emfWorkJ > 0) {
            emfNm = -circuit.emfWorkJ / dtS / radps;
            machine.motorLossJ += circuit.emfLossJ;
        }
        if (p.plug.plugIn) {
            p.plugMoveM += Math.abs(road.meanMps) * dtS;
        }
        book(dtS);
    }

    private void moveContacts() {
        Parts p = parts;
        p.negative.tick();
        p.precharge.tick();
        p.positive.tick();
        p.circuit.connect(p.negative, p.precharge, p.positive, p.pack);
    }

    private void book(double dtS) {
        Parts p = parts;
        if (p.chargers.totalA != 0 || p.chargers.acA != 0) {
            p.chargers.book(p.chargers.onBus() ? p.circuit.busVoltSeconds() : p.circuit.packVoltSeconds, dtS);
        }
    }

    /** What is slower than the torque and the bus: each 10 ms, and the temperatures each 100 ms. */
    private void grid() {
        Parts p = parts;
        Drives drives = p.drives;
        Faults faults = p.faults;
        LowSide low = p.lowSide;
        low.coilsA = p.negative.coilA(GRID_MS) + p.precharge.coilA(GRID_MS) + p.positive.coilA(GRID_MS);
        low.awake = p.levers.isOn(Lever.KEY) || p.plug.plugIn || low.coilsA > 0;
        low.step(low.onPackSide() ? p.circuit.packV : p.circuit.busV, faults, GRID_S);
        boolean carReady = drives.isOn(Output.CHARGER_ENABLE);
        p.plug.driven = drives.isOn(Output.PLUG_LOCK);
        p.plug.step(faults);
        p.movePlug();
        p.station.step(p.plug.plugIn, p.levers, faults, carReady, p.chargers.acA);
        p.chargers.step(p.station.closed, p.circuit, p.pack);
        p.circuit.packLoadA = low.onPackSide() ? low.converterW / Math.max(1, p.circuit.packV) : 0;
        p.circuit.packChargeA = p.chargers.onBus() ? 0 : p.chargers.totalA;
        p.circuit.loads.otherW = low.onPackSide() ? 0 : low.converterW;
        p.pack.settle(p.circuit.packA, faults.of(PartFault.CELL_HIGH, 0), faults.of(PartFault.CELL_LOW, 0));
        boolean silent = faults.has(PartFault.MONITOR_SILENT);
        p.monitor.step(p.pack, p.pack.tempC + unevenK, p.pack.tempC - unevenK, silent);
        p.airMs = flow.blower ? Math.min(p.airMs + GRID_MS, 1_000_000) : 0;
        driveParts();
        if (nowMs % HEAT_MS == 0) {
            flow.speedMps = p.road.speedMps;
            p.heat.drive(p.machine, flow, HEAT_MS * MS);
            p.heat.rest(p.pack, p.chargers, p.circuit, flow, HEAT_MS * MS);
            p.pack.heat();
            p.warmth++;
        }
    }

    /** Lets every part have what its wire carries. */
    private void driveParts() {
        Parts p = parts;
        Drives drives = p.drives;
        Faults faults = p.faults;
        boolean beats = watchdogMs == 0 || drives.beatAgeMs(nowMs) <= watchdogMs;
        p.wiring.apply(p);
        double coilV = beats && !faults.has(PartFault.COIL_SUPPLY_LOST) ? p.lowSide.supplyV : 0;
        p.negative.drive(hasNegative && drives.isOn(Output.NEGATIVE_CONTACTOR), coilV);
        p.precharge.drive(drives.isOn(Output.PRECHARGE_RELAY), coilV);
        p.positive.drive(drives.isOn(Output.POSITIVE_CONTACTOR), coilV);
        p.machine.enabled = drives.isOn(Output.INVERTER_ENABLE);
        p.machine.requestNm = drives.get(Output.TORQUE_REQUEST_NM);
        p.machine.supplied = p.wiring.inverterSupply && p.lowSide.supplyV >= LEAST_SUPPLY_V;
        ChargerOrders orders = p.chargers.orders;
        orders.limitA[0] = drives.get(Output.CHARGER_1_LIMIT_A);
        orders.limitA[1] = drives.get(Output.CHARGER_2_LIMIT_A);
        orders.limitA[2] = drives.get(Output.CHARGER_3_LIMIT_A);
        for (int i = 0; i < Chargers.MOST; i++) {
            orders.enabled[i] = byMessage == null ? drives.isOn(Output.CHARGER_ENABLE) : byMessage.enabled[i];
            orders.limitV[i] = byMessage == null ? drives.get(Output.CHARGE_VOLTAGE_LIMIT_V) : byMessage.limitV[i];
        }
        p.circuit.loads.heaterOn = drives.isOn(Output.HEATER_ELEMENT);
        flow.pump = drives.isOn(Output.COOLANT_PUMP) && !faults.has(PartFault.PUMP_STOPPED);
        flow.fan = faults.has(PartFault.FAN_STOPPED) ? 0 : Math.min(1, drives.get(Output.RADIATOR_FAN_DUTY));
        flow.blower = drives.isOn(Output.HEATER_BLOWER) && !faults.has(PartFault.BLOWER_DEAD);
        p.lowSide.converterOn = drives.isOn(Output.DCDC_ENABLE);
        p.lowSide.pump = flow.pump;
        p.lowSide.fan = flow.fan;
        p.lowSide.blower = flow.blower;
    }

    /** Levers set before time begins are how the car stands: what wakes up in it must not see another one first. */
    private void stand() {
        Parts p = parts;
        moveLevers();
        p.pack.settle(0, p.faults.of(PartFault.CELL_HIGH, 0), p.faults.of(PartFault.CELL_LOW, 0));
        p.circuit.stand(p.pack);
        p.lowSide.stand();
    }

    private void moveLevers() {
        Parts p = parts;
        Levers levers = p.levers;
        p.road.set(levers.get(Lever.GRADE_PERCENT), levers.get(Lever.BRAKE));
        p.road.shift(hasClutch ? levers.get(Lever.GEAR) : 1);
        p.road.windMps = levers.get(Lever.HEADWIND_KPH) / KPH_PER_MPS;
        flow.ambientC = levers.get(Lever.AMBIENT_C);
        p.movePlug();
        p.pack.soc = once(Lever.SOC, p.pack.soc);
        p.lowSide.soc = once(Lever.LV_SOC, p.lowSide.soc);
        p.pack.tempC = once(Lever.PACK_TEMP_C, p.pack.tempC);
        p.heat.motorC = once(Lever.MOTOR_TEMP_C, p.heat.motorC);
        p.heat.inverterC = once(Lever.INVERTER_TEMP_C, p.heat.inverterC);
        p.heat.coolantC = once(Lever.COOLANT_TEMP_C, p.heat.coolantC);
        p.heat.chargerC = once(Lever.CHARGER_TEMP_C, p.heat.chargerC);
        p.heat.warmerC = once(Lever.HEATER_TEMP_C, p.heat.warmerC);
        if (levers.moved(Lever.SPEED_KPH)) {
            p.road.speedMps = levers.get(Lever.SPEED_KPH) / KPH_PER_MPS;
        }
        if (warmthMoved(levers)) {
            p.pack.heat();
            p.warmth++;
        }
        levers.settled();
    }

    /** Pedals move all the time; what follows a temperature need not be worked out again for them. */
    private static boolean warmthMoved(Levers levers) {
        return levers.moved(Lever.PACK_TEMP_C)
                || levers.moved(Lever.MOTOR_TEMP_C)
                || levers.moved(Lever.INVERTER_TEMP_C)
                || levers.moved(Lever.COOLANT_TEMP_C)
                || levers.moved(Lever.CHARGER_TEMP_C)
                || levers.moved(Lever.HEATER_TEMP_C);
    }

    private double once(Lever lever, double otherwise) {
        return parts.levers.moved(lever) ? parts.levers.get(lever) : otherwise;
    }

    /** From now on each charger is enabled, and given its voltage, by a message of its own. The wire still asks the station.
     *
     * @param orders live; its currents are not used
     */
    public void tellChargers(ChargerOrders orders) {
        byMessage = orders;
    }

    /** What a person can do to it. */
    public Levers levers() {
        return parts.levers;
    }

    /** What is broken. */
    public Faults faults() {
        return parts.faults;
    }

    /** Where its wires lead; changes count from the next command on. */
    public Wiring wiring() {
        return parts.wiring;
    }

    /** What a sound wire would show without noise, as of the last {@link #sample}. */
    public double shows(Signal signal) {
        return sensors.ideal(signal);
    }

    /** What a signal reads when its wire is broken, or shorted to ground or to its supply. */
    public SignalTrouble.Wire wire(Signal signal) {
        return sensors.wire(signal);
    }

    /** What arrives at a relay, a lamp or a controller: the command through the faults of its wire. */
    public double arrives(Output output) {
        return parts.drives.get(output);
    }

    /** What is true, whatever the sensors say. */
    public double truth(Quantity quantity) {
        return truths.get(quantity);
    }

    /**
     * All that is true, whatever the sensors say.
     *
     * @param into where to write, in the order of the quantities
     * @param from the place of the first
     */
    public void truths(double[] into, int from) {
        truths.copyTo(into, from);
    }

    /** How much time has passed since the start. */
    public double nowS() {
        return nowMs * MS;
    }

    @Override
    public void sample(Samples into, long nowNs) {
        if (nowMs == 0 && parts.levers.anyMoved()) {
            stand();
        }
        if (!parts.faults.has(PartFault.LINK_LOST)) {
            sensors.sample(into, nowNs, nowMs);
        }
    }

    @Override
    public Health health() {
        return parts.faults.has(PartFault.LINK_LOST) ? Health.lost("the link to the simulated car is cut") : Health.OK;
    }
}
