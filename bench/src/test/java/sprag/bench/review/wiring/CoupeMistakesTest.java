package sprag.bench.review.wiring;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.bench.review.finding.Finding;

/** Mistakes at parts that the van has not, planted in the coupe's schedule. */
class CoupeMistakesTest {
    private static final Path COUPE = Path.of("..", "config", "vehicles", "coupe");

    private enum Mistake {
        // @formatter:off
        ISOLATION_MONITOR_WITHOUT_BODY (Rule.GROUND_MISSING,  d -> d.remove("isolation_monitor.chassis", "chassis.isolation")),
        PUMP_AND_FAN_EXCHANGED         (Rule.SIGNALS_SWAPPED, d -> d.set("supervisor.coolant_pump", "coolant_pump.switch", "to", "radiator_fan.x")
                .set("supervisor.radiator_fan_duty", "radiator_fan.duty", "to", "coolant_pump.switch").set("supervisor.coolant_pump", "radiator_fan.x", "to", "radiator_fan.duty"));
        // @formatter:on

        private final Rule rule;
        private final Consumer<Draft> plant;

        Mistake(Rule rule, Consumer<Draft> plant) {
            this.rule = rule;
            this.plant = plant;
        }
    }

    private static Set<String> ids(Draft draft) {
        return WiringCheck.findings(draft.schedule(), TestLimits.van()).stream()
                .map(Finding::id)
                .collect(Collectors.toSet());
    }

    @Test
    void sensorGroundOnTheChassis_isOneMistake_andNotOneOfEachLoad() {
        Draft draft = Draft.of(COUPE);
        draft.addLike("isolation_monitor.chassis", "chassis.isolation", "pedal.ground", "chassis.pedal", "ground");
        assertEquals(
                true,
                ids(draft).contains(Rule.SENSOR_GROUND_ON_CHASSIS.id()),
                () -> ids(draft).toString());
        assertEquals(
                false,
                ids(draft).contains(Rule.GROUND_SHARED.id()),
                () -> ids(draft).toString());
    }

    @Test
    void isolationMonitor_acrossTheContactors_isFound_andNotWithoutIt() {
        Draft draft = Draft.of(COUPE);
        assertEquals(0, ofMonitor(draft));
        draft.set("isolation_monitor.minus", "contactor_negative.in", "to", "contactor_negative.out");
        assertEquals(1, ofMonitor(draft));
    }

    private static long ofMonitor(Draft draft) {
        return WiringCheck.findings(draft.schedule(), TestLimits.van()).stream()
                .filter(finding -> finding.id().equals(Rule.SIDE_DIFFERS.id()))
                .filter(finding -> finding.toString().contains("isolation_monitor"))
                .count();
    }

    @ParameterizedTest
    @EnumSource(Mistake.class)
    void mistake_isFound_andNotWithoutIt(Mistake mistake) {
        Draft draft = Draft.of(COUPE);
        String id = mistake.rule.id();
        assertEquals(false, ids(draft).contains(id));
        mistake.plant.accept(draft);
        assertEquals(true, ids(draft).contains(id), () -> ids(draft).toString());
    }
}
