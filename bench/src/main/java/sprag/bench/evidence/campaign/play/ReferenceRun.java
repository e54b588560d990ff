package sprag.bench.evidence.campaign.play;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import sprag.bench.car.Quantity;
import sprag.bench.evidence.campaign.harm.HarmMeter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.State;

/** The run without a fault: what the driver did, what the supervisor read, and when each moment came. */
public final class ReferenceRun {
    final DriverScript script = new DriverScript();
    final Readings[] readings;
    final double[] torqueNm;
    final double[] mainsA;
    final Set<Interlock> acted = EnumSet.noneOf(Interlock.class);
    public final Map<FaultMoment, Integer> moments = new EnumMap<>(FaultMoment.class);
    public final HarmMeter harm;

    /** Plays it.
     *
     * @param rig a car at rest
     */
    public ReferenceRun(Vehicle vehicle, FaultRig rig, boolean charging) {
        int ticks = DriverScript.ticks(vehicle);
        readings = new Readings[ticks];
        torqueNm = new double[ticks];
        mainsA = new double[ticks];
        harm = new HarmMeter(vehicle, rig.car());
        State last = null;
        int ticksInState = 0;
        int[] counted = new int[FaultMoment.values().length];
        for (int tick = 0; tick < ticks; tick++) {
            ticksInState = rig.state() == last ? ticksInState + 1 : 0;
            last = rig.state();
            script.watch(tick, rig.car(), rig, ticksInState, charging);
            for (FaultMoment moment : FaultMoment.values()) {
                int i = moment.ordinal();
                boolean due = moment.charging == charging && moment.isCounting(rig);
                if (due && counted[i]++ == moment.ticks()) {
                    moments.putIfAbsent(moment, tick);
                }
            }
            rig.decide();
            acted.addAll(rig.acting());
            rig.live();
            readings[tick] = new Readings();
            readings[tick].copyFrom(rig.readings());
            torqueNm[tick] = rig.car().truth(Quantity.MOTOR_TORQUE_NM);
            mainsA[tick] = rig.car().truth(Quantity.AC_CURRENT_A);
            harm.look(rig.asked(), torqueNm[tick]);
        }
    }
}
