package sprag.bench.hand.commission;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.Writer;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.hand.commission.pins.Loom;
import sprag.bench.hand.commission.pins.PinDriver;
import sprag.bench.hand.commission.steps.BringUpStep;
import sprag.bench.hand.commission.steps.Console;
import sprag.bench.hand.commission.steps.Plan;
import sprag.bench.hand.commission.steps.StepContext;
import sprag.bench.loop.record.Recordings;
import sprag.bench.review.pins.Drawing;
import sprag.bench.review.pins.Wired;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** Which step needs which safety steps, written down a second time and from the hazard, for every step of every shipped plan. */
class SafetyGateTest {
    private static final List<String> SAFETY =
            List.of("safety.cautions", "safety.isolated", "safety.absence", "safety.insulation", "safety.bonding");
    /** Until here a voltage may be there. */
    private static final List<String> NO_VOLTAGE = SAFETY.subList(0, 3);
    /** The driver's place and the 12 V side: no traction part is touched, so insulation and bonding may still be open. */
    private static final Set<String> LOW_SIDE = Set.of(
            "input.key_on",
            "input.start_request",
            "input.forward_switch",
            "input.reverse_switch",
            "input.brake_pressed",
            "input.pedal_a_v",
            "input.pedal_b_v",
            "input.pedal_supply_v",
            "input.regen_level",
            "input.service_reset",
            "input.heater_request",
            "input.lv_supply_v");

    private static Plan plan(String vehicleName) throws Exception {
        Path home = Catalogue.installed().vehicle(vehicleName);
        Vehicle vehicle = VehicleReader.read(home);
        Drawing drawing = Drawing.read(home);
        Wired wired = Wired.of(vehicle, drawing, null);
        Loom loom = new Loom(vehicle, wired, null, List.of());
        PinDriver driver = new PinDriver(vehicle, loom, Recordings.none(), () -> false);
        Console console = new Console(new PrintWriter(Writer.nullWriter()), null, driver);
        return Plan.of(new StepContext(vehicle, drawing, wired, loom, loom, driver, console, false));
    }

    private static List<String> needs(String id) {
        if (SAFETY.contains(id)) {
            return SAFETY.subList(0, SAFETY.indexOf(id));
        }
        if (id.equals("link.fresh")) {
            return List.of();
        }
        return id.startsWith("supply.") || LOW_SIDE.contains(id) ? NO_VOLTAGE : SAFETY;
    }

    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void everyStep_everySetOfSafetyStepsThatHasNotPassed_isRefusedExactlyWhenOneIsNeeded(String vehicle)
            throws Exception {
        Plan plan = plan(vehicle);
        SafetyGate gate = new SafetyGate(plan.steps());
        for (BringUpStep step : plan.steps()) {
            assertEquals(
                    needs(step.id()),
                    gate.neededFor(step).stream().map(BringUpStep::id).toList(),
                    step.id());
            for (int open = 0; open < 1 << SAFETY.size(); open++) {
                int bits = open;
                String why = gate.refusal(step, other -> (bits >> SAFETY.indexOf(other.id()) & 1) == 0);
                String first = needs(step.id()).stream()
                        .filter(id -> (bits >> SAFETY.indexOf(id) & 1) != 0)
                        .findFirst()
                        .orElse("");
                assertEquals(first.isEmpty(), why.isEmpty(), step.id() + " with open " + bits);
                assertTrue(why.startsWith(first), why);
                assertTrue(why.isEmpty() || why.contains("--resume"), why);
            }
        }
    }

    @Test
    void insulationTester_isNeverAskedForBeforeTheAbsenceOfVoltage() throws Exception {
        Plan plan = plan("parcel-van");
        SafetyGate gate = new SafetyGate(plan.steps());
        for (BringUpStep step : plan.steps()) {
            boolean tester = step.text().todo().stream().anyMatch(todo -> todo.contains("insulation tester"));
            if (tester) {
                assertFalse(
                        gate.refusal(step, other -> !other.id().equals("safety.absence"))
                                .isEmpty(),
                        step.id());
            }
        }
    }
}
