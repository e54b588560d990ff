package sprag.bench.evidence.campaign.play;

import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;
import sprag.bench.car.Quantity;
import sprag.bench.evidence.campaign.harm.HarmMeter;
import sprag.bench.evidence.campaign.play.FaultOutcome.Verdict;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Response;

/** One run with a fault, compared with the same run without. */
public final class FaultRun {
    /** Torque below this share of the maximum is none. */
    private static final double NO_TORQUE_SHARE = 0.02;
    /** A fault that has shown nothing for so many ticks counts as hidden again: times then count from when it shows next. */
    private static final int HIDDEN_TICKS = 50;

    private static final int FELT_TICKS = 50;

    /** Stands for an interlock where the supervisor has lost its supply, and with it every output. */
    private static final String SUPERVISOR_OFF = "supervisor-off";

    private final Vehicle vehicle;
    private final ReferenceRun reference;
    private final FaultRig rig;
    private final HarmMeter harm;
    private final double tickMs;
    private final double noTorqueNm;
    private final DifferenceThresholds thresholds;
    private final int[] exposedTicks = new int[Demand.values().length];
    private int shownTick = -1;
    private int differedTick = -1;
    private boolean everShown;
    private int detectedTick = -1;
    private int safeTick = -1;
    private Interlock detector;
    private boolean wentOut;
    private int feltTicks;
    private int longestFelt;

    public FaultRun(Vehicle vehicle, ReferenceRun reference, FaultRig rig) {
        this.vehicle = vehicle;
        this.reference = reference;
        this.rig = rig;
        harm = new HarmMeter(vehicle, rig.car());
        tickMs = vehicle.get(Parameter.LOOP_TICK_MS);
        noTorqueNm = vehicle.get(Parameter.DRIVE_TORQUE_NM) * NO_TORQUE_SHARE;
        thresholds = new DifferenceThresholds(vehicle);
    }

    /** Plays it.
     *
     * @param moment when the faults come
     * @param watcher shown the rig after each decision, e.g. to write a trace
     */
    public FaultOutcome play(FaultMoment moment, List<String> faults, Consumer<FaultRig> watcher) {
        int from = reference.moments.get(moment);
        DriverScript script = reference.script.again();
        for (int tick = 0; tick < reference.readings.length; tick++) {
            script.follow(tick, rig.car());
            if (tick == from) {
                faults.forEach(rig::inject);
            }
            rig.decide();
            watcher.accept(rig);
            rig.live();
            harm.look(rig.asked(), reference.torqueNm[tick]);
            feel(tick);
            if (tick >= from) {
                compare(tick);
            }
        }
        String names = String.join(FaultOutcome.PAIR, faults);
        return outcome(moment, names, from);
    }

    /** Whether the driver must have noticed: for half a second the car pulled, braked or charged differently than without the fault. */
    public boolean isFelt() {
        return longestFelt > FELT_TICKS;
    }

    private void feel(int tick) {
        double byNm = harm.truth(Quantity.MOTOR_TORQUE_NM) - reference.torqueNm[tick];
        double byA = harm.truth(Quantity.AC_CURRENT_A) - reference.mainsA[tick];
        feltTicks = Math.abs(byNm) > noTorqueNm || Math.abs(byA) > 1 ? feltTicks + 1 : 0;
        longestFelt = Math.max(longestFelt, feltTicks);
    }

    private void compare(int tick) {
        boolean known = shownTick >= 0 && detectedTick >= 0; // then nothing is told of what differs later
        if (!known && thresholds.differs(rig.readings(), reference.readings[tick])) {
            shownTick = shownTick < 0 ? tick : shownTick;
            differedTick = tick;
        } else if (detectedTick < 0 && tick - differedTick > HIDDEN_TICKS) {
            shownTick = -1;
            Arrays.fill(exposedTicks, 0);
        }
        everShown |= shownTick >= 0;
        if (detectedTick < 0) {
            detect(tick);
        }
        if (safeTick < 0 && (shownTick >= 0 || detectedTick >= 0)) {
            for (Demand demand : Demand.values()) {
                exposedTicks[demand.ordinal()] += isMet(demand) ? 0 : 1;
            }
        }
        if (detectedTick >= 0 && safeTick < 0 && isMet(Demand.of(detector))) {
            safeTick = tick;
        }
    }

    /** Looks for the first interlock that did not act without the fault. One that only blocks a start has found no fault. */
    private void detect(int tick) {
        if (!rig.isAwake()) {
            // What the loss of 12 V asks for is what a supervisor without supply does: everything off.
            wentOut = true;
            detector = Interlock.LV_LOST;
            detectedTick = tick;
            return;
        }
        for (Interlock row : rig.acting()) {
            if (row.response != Response.BLOCK_START && !reference.acted.contains(row)) {
                detector = row;
                detectedTick = tick;
                return;
            }
        }
    }

    /** What must be so for an interlock to have done its work. */
    private enum Demand {
        ALL_OPEN,
        NO_TORQUE,
        NO_CHARGE,
        NOTICED,
        NOTHING;

        /** A stop against unasked torque has done its work when the torque is gone; opening may take longer. */
        static Demand of(Interlock row) {
            return switch (row.response) {
                case OPEN_NOW, STOP_THEN_OPEN -> row.budget == Parameter.BUDGET_TORQUE_MS ? NO_TORQUE : ALL_OPEN;
                case ZERO_TORQUE -> NO_TORQUE;
                case BLOCK_CHARGE -> NO_CHARGE;
                case LIMIT -> NOTICED;
                case BLOCK_START, WARN -> NOTHING;
            };
        }
    }

    private boolean isMet(Demand demand) {
        Commands asked = rig.asked();
        boolean open = !asked.isOn(Output.NEGATIVE_CONTACTOR)
                && !asked.isOn(Output.POSITIVE_CONTACTOR)
                && !asked.isOn(Output.PRECHARGE_RELAY);
        boolean still = Math.abs(harm.truth(Quantity.MOTOR_TORQUE_NM)) <= noTorqueNm;
        boolean idle = !asked.isOn(Output.CHARGER_ENABLE);
        return switch (demand) {
            case ALL_OPEN -> open && still && idle;
            case NO_TORQUE -> still;
            case NO_CHARGE -> idle;
            case NOTICED -> detectedTick >= 0 || still && idle;
            case NOTHING -> true;
        };
    }

    private FaultOutcome outcome(FaultMoment moment, String faults, int from) {
        double shownMs = shownTick < 0 ? (everShown ? 0 : -1) : (shownTick - from) * tickMs;
        int since = shownTick < 0 ? from : Math.min(shownTick, detectedTick < 0 ? shownTick : detectedTick);
        double detectMs = detectedTick < 0 ? -1 : (detectedTick - since) * tickMs;
        double reactMs = safeTick < 0 ? -1 : (safeTick - detectedTick) * tickMs;
        double untilSafeMs =
                detector == null ? 0 : exposedTicks[Demand.of(detector).ordinal()] * tickMs;
        // Until its supply is gone nobody is exposed to a supervisor that is off.
        double exposedMs = wentOut ? Math.max(0, reactMs) : untilSafeMs;
        double budgetMs = detector == null ? 0 : vehicle.get(detector.budget);
        FaultOutcome plain = new FaultOutcome(
                vehicle.name(),
                moment.key(),
                faults,
                Verdict.SAFE,
                detector == null ? "" : wentOut ? SUPERVISOR_OFF : detector.id(),
                shownMs,
                detectMs,
                reactMs,
                exposedMs,
                budgetMs,
                rig.state(),
                harm.beyond(reference.harm));
        return plain.judged(vehicle, detector != null && detector.response == Response.WARN);
    }
}
