package sprag.bench.evidence.prove.promise;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import sprag.supervisor.vocabulary.Step;

/**
 * Which contactor step may follow which, and what is closed in each. This is stated a second time here, without looking
 * at the step's own row, so that a wrong row is found. In every step everything may open at once.
 */
public final class StepOrder {
    private static final int NONE = 0;
    private static final int NEGATIVE = 1;
    private static final int RELAY = 2;
    private static final int POSITIVE = 4;
    private static final Map<Step, Set<Step>> NEXT = new EnumMap<>(Step.class);

    static {
        NEXT.put(Step.IDLE, EnumSet.of(Step.TEST_NEGATIVE));
        NEXT.put(Step.TEST_NEGATIVE, EnumSet.of(Step.TEST_PAUSE, Step.OPEN_NEGATIVE, Step.IDLE));
        NEXT.put(Step.TEST_PAUSE, EnumSet.of(Step.TEST_POSITIVE, Step.OPEN_NEGATIVE, Step.IDLE));
        NEXT.put(Step.TEST_POSITIVE, EnumSet.of(Step.RAISE_BUS, Step.OPEN_NEGATIVE, Step.IDLE));
        NEXT.put(Step.RAISE_BUS, EnumSet.of(Step.OVERLAP, Step.OPEN_POSITIVE, Step.IDLE));
        NEXT.put(Step.OVERLAP, EnumSet.of(Step.HOLD, Step.RAMP_DOWN, Step.IDLE));
        NEXT.put(Step.HOLD, EnumSet.of(Step.RAMP_DOWN, Step.IDLE));
        NEXT.put(Step.RAMP_DOWN, EnumSet.of(Step.OPEN_POSITIVE, Step.IDLE));
        NEXT.put(Step.OPEN_POSITIVE, EnumSet.of(Step.OPEN_NEGATIVE, Step.IDLE));
        NEXT.put(Step.OPEN_NEGATIVE, EnumSet.of(Step.BLEED, Step.IDLE));
        NEXT.put(Step.BLEED, EnumSet.of(Step.IDLE));
    }

    private StepOrder() {}

    /** What is closed in a step: a bit for the negative contactor, the precharge relay and the positive contactor. */
    private static int closed(Step step) {
        return switch (step) {
            case IDLE, TEST_PAUSE, OPEN_NEGATIVE, BLEED -> NONE;
            case TEST_NEGATIVE -> RELAY;
            case TEST_POSITIVE, OPEN_POSITIVE -> NEGATIVE;
            case RAISE_BUS -> NEGATIVE | RELAY;
            case OVERLAP -> NEGATIVE | RELAY | POSITIVE;
            case HOLD, RAMP_DOWN -> NEGATIVE | POSITIVE;
        };
    }

    /** Whether exactly these are closed in a step. */
    public static boolean closes(Step step, boolean negative, boolean relay, boolean positive) {
        return closed(step) == ((negative ? NEGATIVE : NONE) | (relay ? RELAY : NONE) | (positive ? POSITIVE : NONE));
    }

    /**
     * Whether one step may follow another; a step that stays is no change and is not asked for.
     *
     * @param testsNegative whether the weld test begins at the negative contactor, or there is none that could be tested
     */
    static boolean allows(Step from, Step to, boolean testsNegative) {
        boolean begins = from == Step.IDLE && to != Step.IDLE;
        return begins && !testsNegative
                ? to == Step.TEST_POSITIVE
                : NEXT.get(from).contains(to);
    }
}
