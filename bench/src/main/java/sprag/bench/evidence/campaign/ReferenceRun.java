package sprag.bench.evidence.campaign;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import sprag.bench.bus.BusFile;
import sprag.bench.car.Quantity;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.State;

/** The run without a fault: what the driver did, what the supervisor read, and when each moment came. */
final class ReferenceRun {
    final DriverScript script = new DriverScript();
    final Readings[] readings = new Readings[DriverScript.TICKS];
    final double[] torqueNm = new double[DriverScript.TICKS];
    final Set<Interlock> acted = EnumSet.noneOf(Interlock.class);
    final Map<FaultMoment, Integer> moments = new EnumMap<>(FaultMoment.class);
    final HarmMeter harm;

    ReferenceRun(Vehicle vehicle, BusFile bus, long seed, boolean charging) {
        ClosedLoop loop = ClosedLoop.on(vehicle, bus, seed);
        harm = new HarmMeter(vehicle, loop.car());
        LogicState s = loop.supervisor().state();
        State last = null;
        int ticksInState = 0;
        int[] counted = new int[FaultMoment.values().length];
        for (int tick = 0; tick < DriverScript.TICKS; tick++) {
            ticksInState = s.state() == last ? ticksInState + 1 : 0;
            last = s.state();
            script.watch(tick, loop.car(), s, ticksInState, charging);
            for (FaultMoment moment : FaultMoment.values()) {
                int i = moment.ordinal();
                boolean due = moment.charging == charging && moment.isCounting(s);
                if (due && counted[i]++ == moment.ticks()) {
                    moments.putIfAbsent(moment, tick);
                }
            }
            loop.tick();
            readings[tick] = new Readings();
            readings[tick].copyFrom(loop.readings());
            torqueNm[tick] = loop.car().truth(Quantity.MOTOR_TORQUE_NM);
            harm.look(loop.commands(), torqueNm[tick]);
        }
        for (Interlock row : Interlock.values()) {
            if (loop.supervisor().diagnostics().timesActed(row) > 0) {
                acted.add(row);
            }
        }
    }
}
