package sprag.bench.campaign;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import sprag.bench.car.Quantity;
import sprag.bench.config.Vehicle;
import sprag.supervisor.Commands;
import sprag.supervisor.Interlock;
import sprag.supervisor.LogicState;
import sprag.supervisor.Readings;
import sprag.supervisor.State;

/** The story without a fault: what the driver did, what the connector showed, and when each moment came. */
final class Story {
    final Script script = new Script();
    final Readings[] readings = new Readings[Script.TICKS];
    final Commands[] commands = new Commands[Script.TICKS];
    final double[] torqueNm = new double[Script.TICKS];
    final Set<Interlock> acted = EnumSet.noneOf(Interlock.class);
    final Map<Moment, Integer> moments = new EnumMap<>(Moment.class);
    final Harm harm;

    Story(Vehicle vehicle, long seed, boolean charging) {
        Stage stage = new Stage(vehicle, seed);
        harm = new Harm(vehicle, stage.car);
        LogicState s = stage.supervisor.state();
        State last = null;
        int ticksInState = 0;
        int[] counted = new int[Moment.values().length];
        for (int tick = 0; tick < Script.TICKS; tick++) {
            ticksInState = s.state() == last ? ticksInState + 1 : 0;
            last = s.state();
            script.watch(tick, stage.car, s, ticksInState, charging);
            for (Moment moment : Moment.values()) {
                int i = moment.ordinal();
                boolean due = moment.charging == charging && moment.isCounting(s);
                if (due && counted[i]++ == moment.ticks()) {
                    moments.putIfAbsent(moment, tick);
                }
            }
            stage.tick();
            readings[tick] = new Readings();
            readings[tick].copyFrom(stage.loop.readings());
            commands[tick] = new Commands();
            commands[tick].copyFrom(stage.loop.commands());
            torqueNm[tick] = stage.car.truth(Quantity.MOTOR_TORQUE_NM);
            harm.look(stage.loop.commands(), torqueNm[tick]);
        }
        for (Interlock row : Interlock.values()) {
            if (stage.supervisor.diagnostics().timesActed(row) > 0) {
                acted.add(row);
            }
        }
    }
}
