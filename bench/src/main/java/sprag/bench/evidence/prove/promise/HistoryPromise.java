package sprag.bench.evidence.prove.promise;

import java.util.function.IntPredicate;
import java.util.function.Predicate;
import sprag.bench.evidence.prove.explore.Observer;
import sprag.bench.evidence.prove.explore.Within;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Permissions;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;

/**
 * What must be true over several ticks: what was seen must be remembered, and what has begun must end in time. One row each.
 *
 * <p>The hazard, the group that is explored together, the watcher, and what is wrong when it is broken.
 */
public enum HistoryPromise {
    // @formatter:off
    //                       hazard group
    KEY_OFF_FIRST           ("H15", 0, limits -> keyOffFirst(),             "a start although the key was never seen off since power came"),
    START_RELEASED_FIRST    ("H15", 0, limits -> startReleasedFirst(),      "a start although the start button was never seen released"),
    BRAKED_RELEASE_FIRST    ("H01", 0, limits -> brakedReleaseFirst(),      "torque before the pedal was seen released with the brake pressed"),
    RELEASE_AFTER_A_CAUSE   ("H01", 0, limits -> latch(t -> t.was(State.DRIVE_ENABLE), t -> t.seen(Causes.NEEDING_RELEASE), HistoryPromise::released, Tick::follows),
                                                                            "torque comes back under a pressed pedal"),
    RELEASE_AFTER_NEUTRAL   ("H03", 0, limits -> latch(t -> t.was(State.DRIVE_ENABLE), HistoryPromise::neutral, HistoryPromise::released, Tick::follows),
                                                                            "torque comes back out of neutral under a pressed pedal"),
    KEY_AFTER_A_FALSE_PEDAL ("H01", 0, limits -> latch(t -> t.was(State.DRIVE_ENABLE), t -> t.was(State.DRIVE_ENABLE) && t.seen(Causes.NEEDING_THE_KEY) && !t.keySeenOff(), Tick::keySeenOff, t -> t.follows() || t.starts()),
                                                                            "torque follows a pedal that could not be believed, or the car starts again, before the key was seen off"),
    NO_RAMP_AFTER_A_TRIP    ("H01", 1, limits -> latch(t -> t.wasWorking() && !t.entersFault(), t -> t.seen(Causes.NEEDING_SERVICE) || Causes.tripped(t), t -> !t.isNow(State.RUNDOWN) && !t.isNow(State.PRECHARGE), Tick::torque),
                                                                            "torque ramps out after a cause that ends it at once"),
    KEY_AFTER_A_TRIP        ("H15", 1, limits -> keyCycle(),                "contactors close or charge flows after a trip without the key turned on and off"),
    SERVICE_AFTER_A_CRASH   ("H05", 2, limits -> service(Fact.CRASH_SEEN),  "contactors close or charge flows after a crash without a service reset"),
    SERVICE_AFTER_A_WELD    ("H05", 3, limits -> service(Fact.NEGATIVE_WELDED), "contactors close or charge flows after a weld without a service reset"),
    SERVICE_AFTER_A_WELD_POS("H05", 4, limits -> service(Fact.POSITIVE_WELDED), "contactors close or charge flows after a weld without a service reset"),
    SERVICE_AFTER_A_STUCK   ("H08", 5, limits -> service(Fact.PRECHARGE_WELDED), "contactors close or charge flows after a stuck precharge relay without a service reset"),
    SERVICE_AFTER_A_VETO    ("H14", 6, limits -> service(Fact.GATE_VETOED), "contactors close or charge flows after a veto of the gate without a service reset"),
    SERVICE_AFTER_LEAKAGE   ("H06", 1, limits -> serviceWhere(t -> t.was(State.PRECHARGE) || t.was(State.CHARGE_LOCKOUT) || t.was(State.FAULT), t -> t.seen(Fact.ISOLATION_LOW)),
                                                                            "contactors close or charge flows after lost insulation at rest without a service reset"),
    SERVICE_AFTER_LIVE_BUS  ("H05", 1, limits -> serviceWhere(t -> !t.was(State.PRECHARGE) && !t.was(State.DRIVE_ENABLE), t -> t.is(Fact.BUS_STILL_LIVE)),
                                                                            "contactors close or charge flows after a bus stayed live without a service reset"),
    SERVICE_AFTER_WELD_TEST ("H05", 1, limits -> latch(Tick::failsWeldTest, Tick::failsWeldTest, HistoryPromise::serviced, HistoryPromise::wakes),
                                                                            "contactors close or charge flows after a failed weld test without a service reset"),
    A_STOP_CLOSES_NOTHING   ("H07", 0, limits -> stopClosesNothing(),       "a contactor closes after a stop before everything was open and a new start was asked for"),
    OPENS_IN_TIME           ("H05", 7, limits -> within(limits.opening(), t -> !t.was(State.RUNDOWN) && t.isNow(State.RUNDOWN), t -> !t.anyClosed()),
                                                                            "a stop does not end with open contactors in bounded time"),
    RISE_ENDS_IN_TIME       ("H08", 7, limits -> within(limits.raising(), t -> t.before().step() != Step.RAISE_BUS && t.after().step() == Step.RAISE_BUS, t -> !t.may().prechargeClosed),
                                                                            "current may flow through the precharge resistor for longer than its time limit"),
    CHARGE_ENDS_IN_TIME     ("H10", 8, limits -> within(limits.endingCharge(), t -> t.before().charge() != ChargePhase.ENDING && t.after().charge() == ChargePhase.ENDING, t -> !t.anyClosed() && !t.charges()),
                                                                            "an ended charge does not end with open contactors in bounded time"),
    START_ENDS_IN_TIME      ("H04", 8, limits -> within(limits.starting(), Tick::starts, t -> !t.isNow(State.PRECHARGE)),
                                                                            "a start neither succeeds nor fails in bounded time");
    // @formatter:on

    private static final int STOPPED = 8;

    /** The hazard it guards against, an id of {@code docs/hazards.md}. */
    public final String hazard;
    /** Those of one group are explored together. */
    public final int group;
    /** What is wrong when it is broken. */
    public final String explanation;

    private final Maker maker;

    /** Makes the watcher for a vehicle. */
    private interface Maker {
        Body make(PromiseLimits limits);
    }

    /** What a watcher does, without its name. */
    private record Body(int bits, Predicate<Tick> concerns, Applies applies, IntPredicate countsOn, Memory memory) {
        Body(int bits, Predicate<Tick> concerns, Applies applies, Memory memory) {
            this(bits, concerns, applies, remembered -> false, memory);
        }

        /** A watcher that applies whenever it remembers something. */
        Body(int bits, Predicate<Tick> concerns, Memory memory) {
            this(bits, concerns, (remembered, tick) -> remembered != 0, memory);
        }
    }

    /** Whether a tick is one in which the promise could be broken. */
    private interface Applies {
        boolean to(int memory, Tick tick);
    }

    /** What is remembered after a tick, given what was before. */
    private interface Memory {
        int next(int memory, Tick tick);
    }

    HistoryPromise(String hazard, int group, Maker maker, String explanation) {
        this.hazard = hazard;
        this.group = group;
        this.maker = maker;
        this.explanation = explanation;
    }

    /** The watcher for a vehicle. */
    public Observer<Tick> watcher(PromiseLimits limits) {
        Body body = maker.make(limits);
        return new Observer<>() {
            @Override
            public String name() {
                return HistoryPromise.this.name();
            }

            @Override
            public String explanation() {
                return explanation;
            }

            @Override
            public int bits() {
                return body.bits();
            }

            @Override
            public boolean concerns(Tick tick) {
                return body.concerns().test(tick);
            }

            @Override
            public boolean applies(int memory, Tick tick) {
                return body.applies().to(memory, tick);
            }

            @Override
            public boolean countsOn(int memory) {
                return body.countsOn().test(memory);
            }

            @Override
            public int next(int memory, Tick tick) {
                return body.memory().next(memory, tick);
            }
        };
    }

    /** Remembers one bit: what sets it, what clears it, and what must not happen while it is set. */
    private static Body latch(
            Predicate<Tick> concerns, Predicate<Tick> sets, Predicate<Tick> clears, Predicate<Tick> forbidden) {
        return new Body(1, concerns, (memory, tick) -> {
            boolean set = memory == 1 && !clears.test(tick);
            if (set && forbidden.test(tick)) {
                return Observer.BROKEN;
            }
            return set || sets.test(tick) ? 1 : 0;
        });
    }

    private static Body within(int ticks, Predicate<Tick> cause, Predicate<Tick> answer) {
        Within<Tick> within = new Within<>("", "", ticks, cause, answer);
        return new Body(within.bits(), cause, within::applies, within::countsOn, within::next);
    }

    /**
     * A fact after which only a service reset helps, even when it was true for one tick only and together with other
     * causes.
     */
    private static Body service(Fact fact) {
        return latch(
                tick -> true,
                tick -> tick.is(fact),
                tick -> tick.is(Fact.KEY_OFF) && !tick.is(Fact.KEY_ON) && tick.is(Fact.SERVICE_RESET) && !tick.is(fact),
                HistoryPromise::wakes);
    }

    /** A fact after which only a service reset helps, but in some states only. */
    private static Body serviceWhere(Predicate<Tick> where, Predicate<Tick> cause) {
        return latch(where, where.and(cause), HistoryPromise::serviced, HistoryPromise::wakes);
    }

    private static boolean serviced(Tick tick) {
        return tick.keySeenOff() && tick.seen(Fact.SERVICE_RESET);
    }

    /** Whether something is switched on that was off before. */
    private static boolean wakes(Tick tick) {
        return tick.closes() || tick.charges();
    }

    private static Body keyOffFirst() {
        return new Body(
                1,
                tick -> tick.was(State.OFF)
                        || tick.was(State.IGNITION)
                        || !tick.isNow(tick.before().state()),
                (memory, tick) -> tick.starts(),
                (memory, tick) -> {
                    if (memory == 0 && tick.starts()) {
                        return Observer.BROKEN;
                    }
                    return memory == 1 || tick.keySeenOff() ? 1 : 0;
                });
    }

    private static Body startReleasedFirst() {
        return new Body(1, tick -> tick.was(State.IGNITION), (memory, tick) -> tick.starts(), (memory, tick) -> {
            if (memory == 0 && tick.starts()) {
                return Observer.BROKEN;
            }
            return tick.isNow(State.IGNITION) && (memory == 1 || tick.seen(Fact.START_RELEASED)) ? 1 : 0;
        });
    }

    private static Body brakedReleaseFirst() {
        return new Body(1, tick -> tick.was(State.DRIVE_ENABLE), (memory, tick) -> tick.follows(), (memory, tick) -> {
            boolean seen = memory == 1 || tick.seen(Fact.PEDAL_RELEASED) && tick.seen(Fact.BRAKE_PRESSED);
            if (!seen && tick.follows()) {
                return Observer.BROKEN;
            }
            return seen && tick.isNow(State.DRIVE_ENABLE) ? 1 : 0;
        });
    }

    /**
     * Three bits hold which contactors were commanded closed in the tick before. The fourth is set when a stop was
     * asked for since the last start.
     */
    private static Body stopClosesNothing() {
        return new Body(4, tick -> true, (memory, tick) -> memory >= STOPPED, (memory, tick) -> {
            Permissions may = tick.may();
            int closed = (may.negativeClosed ? 1 : 0) | (may.prechargeClosed ? 2 : 0) | (may.positiveClosed ? 4 : 0);
            int open = ~memory & 7;
            boolean asked = open == 7 && (tick.starts() || tick.beginsCharge());
            boolean stopped = tick.wishesToStop() || memory >= STOPPED && !asked;
            return stopped && (closed & open) != 0 ? Observer.BROKEN : closed | (stopped ? STOPPED : 0);
        });
    }

    private static boolean released(Tick tick) {
        return tick.seen(Fact.PEDAL_RELEASED) || !tick.isNow(State.DRIVE_ENABLE);
    }

    private static boolean neutral(Tick tick) {
        return tick.facts().hasValue(Fact.DIRECTION) && tick.lever() == Direction.NEUTRAL;
    }

    /**
     * The memory is 1 after a trip, and 2 when the key has been on since then. The key off again ends it. So does a
     * service reset, which is stronger.
     */
    private static Body keyCycle() {
        return new Body(2, tick -> tick.wasWorking() || tick.entersFault(), (memory, tick) -> {
            if (memory != 0 && wakes(tick)) {
                return Observer.BROKEN;
            }
            if (tick.entersFault() || tick.wasWorking() && Causes.tripped(tick)) {
                return 1;
            }
            boolean off = tick.keySeenOff();
            if (memory == 0 || off && (memory == 2 || tick.seen(Fact.SERVICE_RESET))) {
                return 0;
            }
            return memory == 2 || tick.seen(Fact.KEY_ON) ? 2 : 1;
        });
    }
}
