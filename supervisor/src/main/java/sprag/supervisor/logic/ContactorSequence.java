package sprag.supervisor.logic;

import java.util.EnumSet;
import java.util.Set;
import sprag.supervisor.vocabulary.BusLevel;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Facts;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Step;

/**
 * The order in which contactors close and open, for driving and for charging alike.
 *
 * <pre>
 *                weld test         precharge                          opening
 *            |------------------|------------|                    |------------|
 *  precharge  ____                ____________ __
 *  negative            ________________________________________________
 *  positive                                  ___________________
 *  bus                                   ___--------------------``--..__ bleeds
 *             TEST_    TEST_     RAISE_BUS   OVERLAP HOLD  RAMP_  OPEN_  BLEED
 *             NEGATIVE POSITIVE                            DOWN   ...
 * </pre>
 */
final class ContactorSequence {
    private final int weldTestTicks;
    private final int closeTicks;
    private final int releaseTicks;
    private final int overlapTicks;
    private final int fastTicks;
    private final int minTicks;
    private final int timeoutTicks;
    private final int waitTicks;
    private final int spinTicks;
    private final Step firstTest;
    private final int[] longestTicks = new int[Step.COUNT];
    private final Set<Interlock> without;

    ContactorSequence(Settings settings, Set<Interlock> without) {
        boolean relayAlone =
                settings.is(Parameter.CONTACTOR_POLES, "both") && settings.is(Parameter.PRECHARGE_BY, "relay");
        firstTest = relayAlone ? Step.TEST_NEGATIVE : Step.TEST_POSITIVE;
        weldTestTicks = settings.ticks(Parameter.CONTACTOR_WELD_TEST_MS);
        closeTicks = settings.ticks(Parameter.CONTACTOR_CLOSE_MS);
        releaseTicks = settings.ticks(Parameter.CONTACTOR_RELEASE_MS);
        overlapTicks = Math.max(closeTicks, settings.ticks(Parameter.CONTACTOR_OVERLAP_MS));
        fastTicks = settings.ticks(Parameter.PRECHARGE_FAST_MS);
        minTicks = settings.ticks(Parameter.PRECHARGE_MIN_MS);
        timeoutTicks = settings.ticks(Parameter.PRECHARGE_TIMEOUT_MS);
        waitTicks = settings.ticks(Parameter.RUNDOWN_WAIT_MS);
        spinTicks = Math.max(waitTicks, settings.ticks(Parameter.RUNDOWN_SPIN_MS));
        for (Step step : Step.values()) {
            longestTicks[step.ordinal()] = longest(step);
        }
        this.without = without.isEmpty() ? EnumSet.noneOf(Interlock.class) : EnumSet.copyOf(without);
    }

    /** How far a step's ticks are worth counting: nothing is compared with a longer time, so the count stops there.
     *
     * @param step which one
     * @return ticks
     */
    int longestTicks(Step step) {
        return longestTicks[step.ordinal()];
    }

    private int longest(Step step) {
        return switch (step) {
            case TEST_NEGATIVE, TEST_POSITIVE -> Math.max(weldTestTicks, closeTicks);
            case TEST_PAUSE, OPEN_POSITIVE, OPEN_NEGATIVE -> releaseTicks;
            case RAISE_BUS -> timeoutTicks;
            case OVERLAP -> overlapTicks;
            case RAMP_DOWN -> spinTicks;
            case IDLE -> waitTicks;
            case HOLD, BLEED -> 0;
        };
    }

    /** Begins the way up. The negative contactor cannot be tested where there is none, or where the precharge needs it closed.
     *
     * @param s the state; its step is entered
     */
    void begin(LogicState s) {
        s.enter(firstTest);
    }

    /** Goes one tick towards {@link Step#HOLD}.
     *
     * @param s the state; its step is advanced
     * @param f the facts of this tick
     * @return the interlock that the sequence tripped over, null while all is well
     */
    Interlock raise(LogicState s, Facts f) {
        return switch (s.step) {
            case TEST_NEGATIVE -> test(s, f, Interlock.NEGATIVE_WELD_FOUND, weldTestTicks, Step.TEST_PAUSE);
            case TEST_PAUSE -> test(s, f, Interlock.POSITIVE_WELD_FOUND, releaseTicks, Step.TEST_POSITIVE);
            case TEST_POSITIVE -> testPositive(s, f);
            case RAISE_BUS -> raiseBus(s, f);
            case OVERLAP -> overlap(s, f);
            case IDLE, HOLD, RAMP_DOWN, OPEN_POSITIVE, OPEN_NEGATIVE, BLEED -> null;
        };
    }

    /** The bus must stay discharged; when it has for long enough, the next step begins. */
    private Interlock test(LogicState s, Facts f, Interlock failure, int ticks, Step next) {
        if (f.busLevel() != BusLevel.DISCHARGED && acts(failure)) {
            return failure;
        }
        if (s.stepTicks >= ticks) {
            s.enter(next);
        }
        return null;
    }

    private Interlock testPositive(LogicState s, Facts f) {
        Interlock failure =
                test(s, f, Interlock.POSITIVE_WELD_FOUND, Math.max(weldTestTicks, closeTicks), Step.RAISE_BUS);
        if (failure == null && s.step == Step.RAISE_BUS && !f.is(Fact.NEGATIVE_CONFIRMED)) {
            return tripped(Interlock.CONTACTOR_NOT_CLOSED);
        }
        return failure;
    }

    private Interlock raiseBus(LogicState s, Facts f) {
        if (f.is(Fact.BUS_REVERSED) && acts(Interlock.PRECHARGE_REVERSED)) {
            return Interlock.PRECHARGE_REVERSED;
        }
        if (f.is(Fact.RESISTOR_OVERLOADED) && acts(Interlock.RESISTOR_OVERLOADED)) {
            return Interlock.RESISTOR_OVERLOADED;
        }
        if (f.busLevel() == BusLevel.CHARGED) {
            if (s.stepTicks < fastTicks && acts(Interlock.PRECHARGE_FAST)) {
                return Interlock.PRECHARGE_FAST;
            }
            if (s.stepTicks >= minTicks && f.is(Fact.BUS_FLAT)) {
                s.enter(Step.OVERLAP);
                return null;
            }
        } else if (f.is(Fact.BUS_STALLED) && acts(Interlock.PRECHARGE_STALLED)) {
            return Interlock.PRECHARGE_STALLED;
        }
        return s.stepTicks >= timeoutTicks ? tripped(Interlock.PRECHARGE_SLOW) : null;
    }

    private Interlock overlap(LogicState s, Facts f) {
        if (s.stepTicks < overlapTicks) {
            return null;
        }
        if (!f.is(Fact.POSITIVE_CONFIRMED) && acts(Interlock.CONTACTOR_NOT_CLOSED)) {
            return Interlock.CONTACTOR_NOT_CLOSED;
        }
        s.enter(Step.HOLD);
        return null;
    }

    private boolean acts(Interlock row) {
        return !without.contains(row);
    }

    private Interlock tripped(Interlock row) {
        return acts(row) ? row : null;
    }

    /** Begins the way down from wherever the sequence is. Nothing closes that is open: a weld test of which all or all but one
     * are open goes where all are open, because a contactor that closed now could meet a welded one and connect the pack.
     *
     * @param s the state
     */
    void beginLowering(LogicState s) {
        Step next = switch (s.step) {
            case OVERLAP, HOLD -> Step.RAMP_DOWN;
            case RAISE_BUS -> Step.OPEN_POSITIVE;
            case TEST_NEGATIVE, TEST_PAUSE, TEST_POSITIVE -> Step.OPEN_NEGATIVE;
            case IDLE, RAMP_DOWN, OPEN_POSITIVE, OPEN_NEGATIVE, BLEED -> s.step;
        };
        enter(s, next);
    }

    /** Goes one tick towards {@link Step#IDLE}. Every wait on the way there is bounded, except for the bleed-down.
     *
     * @param s the state; its step is advanced
     * @param f the facts of this tick
     */
    void lower(LogicState s, Facts f) {
        Step next = switch (s.step) {
            case RAMP_DOWN -> mayOpen(s, f) ? Step.OPEN_POSITIVE : s.step;
            case OPEN_POSITIVE -> s.stepTicks >= releaseTicks ? Step.OPEN_NEGATIVE : s.step;
            case OPEN_NEGATIVE -> s.stepTicks >= releaseTicks ? Step.BLEED : s.step;
            case BLEED -> f.busLevel() == BusLevel.DISCHARGED ? Step.IDLE : s.step;
            case IDLE, TEST_NEGATIVE, TEST_PAUSE, TEST_POSITIVE, RAISE_BUS, OVERLAP, HOLD -> s.step;
        };
        enter(s, next);
    }

    /** A spinning permanent-magnet motor needs the pack as its anchor for longer than a current needs to fall. */
    private boolean mayOpen(LogicState s, Facts f) {
        if (s.stepTicks >= spinTicks) {
            return true;
        }
        if (f.is(Fact.BACK_EMF_HIGH)) {
            return false;
        }
        return s.stepTicks >= waitTicks || f.is(Fact.CURRENT_LOW);
    }

    private static void enter(LogicState s, Step next) {
        if (next != s.step) {
            s.enter(next);
        }
    }
}
