package sprag.bench.evidence.prove;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import sprag.supervisor.vocabulary.Step;

/**
 * Which contactor step may follow which, and what is closed in each: stated here a second time, without looking at the step's
 * own row, so that a wrong row is found. From anywhere everything may open at once.
 */
final class StepOrder {
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

    /** What is closed in a step, by its letters: {@code n} negative contactor, {@code r} precharge relay, {@code p} positive contactor. */
    private static String closed(Step step) {
        return switch (step) {
            case IDLE, TEST_PAUSE, OPEN_NEGATIVE, BLEED -> "";
            case TEST_NEGATIVE -> "r";
            case TEST_POSITIVE, OPEN_POSITIVE -> "n";
            case RAISE_BUS -> "nr";
            case OVERLAP -> "nrp";
            case HOLD, RAMP_DOWN -> "np";
        };
    }

    private StepOrder() {}

    /** Whether exactly these are closed in a step. */
    static boolean closes(Step step, boolean negative, boolean relay, boolean positive) {
        return closed(step).equals((negative ? "n" : "") + (relay ? "r" : "") + (positive ? "p" : ""));
    }

    /** Whether the change of step in a tick is one of those. */
    static boolean allows(Tick tick) {
        return NEXT.get(tick.before().step()).contains(tick.after().step());
    }
}
