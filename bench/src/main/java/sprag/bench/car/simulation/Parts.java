package sprag.bench.car.simulation;

import sprag.bench.car.Faults;
import sprag.bench.car.Lever;
import sprag.bench.car.Levers;
import sprag.bench.car.PartFault;
import sprag.bench.car.charge.Chargers;
import sprag.bench.car.charge.PlugLock;
import sprag.bench.car.charge.Station;
import sprag.bench.car.drive.Machine;
import sprag.bench.car.drive.Road;
import sprag.bench.car.electric.BatteryMonitor;
import sprag.bench.car.electric.Circuit;
import sprag.bench.car.electric.Contactor;
import sprag.bench.car.electric.LowSide;
import sprag.bench.car.electric.Pack;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;

/** All parts of one car, in the order in which they act on each other. */
final class Parts {
    final Vehicle vehicle;
    final Levers levers;
    final Faults faults = new Faults();
    final Drives drives = new Drives();
    final Wiring wiring = new Wiring();
    final Contactor negative;
    final Contactor precharge;
    final Contactor positive;
    final Pack pack;
    final Circuit circuit;
    final Machine machine;
    final Road road;
    final Chargers chargers;
    final Station station;
    final PlugLock plug;
    final LowSide lowSide;
    final BatteryMonitor monitor;
    final Heat heat;
    private final double soundIsolationKohm;

    /** Grows whenever a temperature may have changed, so that caches know. */
    int warmth;
    /** How long air has been moving past the heater. */
    int airMs;
    /** Greatest mains current at which the plug was pulled, and the way driven with the plug in. */
    double plugArcA;

    double plugMoveM;

    Parts(Vehicle vehicle) {
        soundIsolationKohm = vehicle.get(CarParameter.PARTS_ISOLATION_KOHM);
        this.vehicle = vehicle;
        levers = new Levers(vehicle.get(CarParameter.DAY_AMBIENT_C));
        negative = Contactor.negative(vehicle);
        precharge = Contactor.precharge(vehicle);
        positive = Contactor.positive(vehicle);
        double ambientC = levers.get(Lever.AMBIENT_C);
        pack = new Pack(vehicle, ambientC);
        circuit = new Circuit(vehicle, pack.ocvV);
        machine = new Machine(vehicle);
        road = new Road(vehicle);
        chargers = new Chargers(vehicle);
        station = new Station(vehicle);
        plug = new PlugLock(vehicle);
        lowSide = new LowSide(vehicle);
        monitor = new BatteryMonitor(vehicle);
        heat = new Heat(vehicle, ambientC);
        circuit.refresh(faults);
        chargers.refresh(faults);
    }

    /** Tells every part about the faults after a change. */
    void refresh() {
        negative.refresh(faults);
        precharge.refresh(faults);
        positive.refresh(faults);
        circuit.refresh(faults);
        machine.refresh(faults);
        chargers.refresh(faults);
    }

    /** The plug follows its lever, unless the lock holds it. */
    void movePlug() {
        if (plug.move(levers.isOn(Lever.PLUG))) {
            plugArcA = Math.max(plugArcA, chargers.acA);
        }
    }

    /** Whether any contact may still move by itself. */
    boolean contactsMove() {
        return negative.busy() || precharge.busy() || positive.busy() || circuit.box.isRewired();
    }

    /** From the traction side to the body. */
    double isolationKohm() {
        return faults.of(PartFault.ISOLATION_LOW, soundIsolationKohm);
    }
}
