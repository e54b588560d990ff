package sprag.supervisor;

import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;

/** From cause to safe state within the budget, for the default values: one tick to be sampled, the detection time, the reaction. */
class BudgetTest {
    private final Settings settings = TestVehicle.full();

    @ParameterizedTest(name = "{0}")
    @EnumSource(Interlock.class)
    void detectionAndReaction_areWithinTheBudget(Interlock row) {
        double tickMs = settings.get(Parameter.LOOP_TICK_MS);
        Parameter detection = row.cause.detection();
        double detectionMs = detection == null ? 0 : settings.ticks(detection) * tickMs;
        double totalMs = tickMs + detectionMs + reactionMs(row);
        double budgetMs = settings.get(row.budget);
        assertTrue(
                totalMs <= budgetMs,
                () -> "%s takes %.0f ms, %s is %.0f ms".formatted(row.id(), totalMs, row.budget.key(), budgetMs));
    }

    /**
     * Contactors that open at low current wait for it, at most {@code rundown.wait_ms}. Where the hazard is torque, the
     * reaction is its end: the request is zero and the inverter disabled in the tick of detection.
     */
    private double reactionMs(Interlock row) {
        double releaseMs = settings.get(Parameter.CONTACTOR_RELEASE_MS);
        boolean torque = row.budget == Parameter.BUDGET_TORQUE_MS;
        return switch (row.response) {
            case OPEN_NOW -> releaseMs;
            case STOP_THEN_OPEN -> torque ? 0 : settings.get(Parameter.RUNDOWN_WAIT_MS) + releaseMs;
            case BLOCK_CHARGE -> settings.get(Parameter.CHARGE_STOP_MS);
            default -> 0;
        };
    }
}
