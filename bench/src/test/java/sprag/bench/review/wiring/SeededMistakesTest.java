package sprag.bench.review.wiring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.report.Checker;
import sprag.bench.review.wiring.circuit.RuleLimits;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** Mistakes planted by terminals in three shipped schedules and in two that the rules were not written for. */
class SeededMistakesTest {
    private static final Path SHIPPED = Path.of("..", "config", "vehicles");
    private static final Path INVENTED = Path.of("src", "test", "resources", "sprag", "bench", "review", "wiring");
    private static final int FEW_SEEDS = 2;
    private static final int MANY_SEEDS = 5;

    enum Subject {
        PARCEL_VAN,
        COUPE,
        YARD_CART,
        PICKUP,
        LAUNCH;

        Path folder() {
            boolean invented = this == PICKUP || this == LAUNCH;
            return (invented ? INVENTED : SHIPPED)
                    .resolve(name().toLowerCase(java.util.Locale.ROOT).replace('_', '-'));
        }

        RuleLimits limits() throws Exception {
            return switch (this) {
                case PICKUP ->
                    limits(
                            350,
                            true,
                            RuleLimits.InverterSupply.AFTER_PRECHARGE,
                            Signal.PEDAL_B_V,
                            Signal.PEDAL_SUPPLY_V,
                            Signal.COVER_LOOP_CLOSED,
                            Signal.NEGATIVE_AUX_CLOSED,
                            Signal.POSITIVE_AUX_CLOSED,
                            Signal.MOTOR_TEMP_V,
                            Signal.CELL_MAX_V,
                            Signal.CELL_MIN_V,
                            Signal.HEATER_REQUEST,
                            Signal.HEATER_AIRFLOW);
                case LAUNCH ->
                    limits(
                            58,
                            false,
                            RuleLimits.InverterSupply.ANY_TIME,
                            Signal.COVER_LOOP_CLOSED,
                            Signal.MOTOR_TEMP_V);
                default -> Checker.limits(VehicleReader.read(folder()));
            };
        }

        private static RuleLimits limits(
                double packMaxV, boolean chargerOnBus, RuleLimits.InverterSupply supply, Signal... optional) {
            Set<Signal> fitted = EnumSet.noneOf(Signal.class);
            for (Signal signal : Signal.values()) {
                if (!signal.optional) {
                    fitted.add(signal);
                }
            }
            fitted.addAll(List.of(optional));
            return new RuleLimits(
                    packMaxV,
                    50,
                    150,
                    105,
                    50,
                    2,
                    0.03,
                    fitted,
                    EnumSet.allOf(Output.class),
                    1,
                    chargerOnBus,
                    false,
                    supply,
                    12);
        }

        List<Finding> findings(Draft draft) throws Exception {
            return WiringCheck.findings(draft.schedule(), limits()).stream()
                    .filter(f -> f.weight() != Weight.NOTE)
                    .toList();
        }
    }

    @ParameterizedTest
    @EnumSource
    void soundSchedule_givesNoFinding(Subject subject) throws Exception {
        List<String> cried = subject.findings(Draft.of(subject.folder())).stream()
                .map(f -> f.id() + ": " + f.sentence())
                .toList();
        assertEquals(List.of(), cried);
    }

    @ParameterizedTest
    @EnumSource
    void everyMistake_isFoundByWhatItDoes(Subject subject) throws Exception {
        foundWith(subject, 0, FEW_SEEDS);
    }

    @Tag("long")
    @ParameterizedTest
    @EnumSource
    void everyMistake_plantedElsewhere_isFoundByWhatItDoes(Subject subject) throws Exception {
        foundWith(subject, FEW_SEEDS, MANY_SEEDS);
    }

    private static void foundWith(Subject subject, int from, int to) throws Exception {
        List<String> missed = new ArrayList<>();
        int planted = 0;
        for (WrongByTerminal mistake : WrongByTerminal.values()) {
            for (int seed = from; seed < to; seed++) {
                Draft draft = Draft.of(subject.folder());
                if (!mistake.plantIn(draft, new Random(seed))) {
                    continue;
                }
                planted++;
                // Names that agree with the mistake must not hide it.
                Draft judged = seed == 1 ? draft.consistent() : draft;
                Set<String> ids =
                        subject.findings(judged).stream().map(Finding::id).collect(Collectors.toSet());
                if (mistake.rules.stream().noneMatch(rule -> ids.contains(rule.id()))) {
                    missed.add(mistake + " seed " + seed + ": " + ids);
                }
            }
        }
        assertEquals(List.of(), missed, "of " + planted + " planted");
        assertTrue(planted > 20 * (to - from), planted + " planted");
    }

    /** One cause, one finding: a fuse that is far too large is not told once for each wire behind it. */
    @ParameterizedTest
    @EnumSource
    void oneFuseTooLarge_givesFewFindings(Subject subject) throws Exception {
        Draft draft = Draft.of(subject.folder());
        String fuse = switch (subject) {
            case PICKUP -> "fuse_pack";
            case LAUNCH -> "fuse_bank";
            default -> "fuse_main";
        };
        draft.part(fuse).put("rated_a", "5000");
        List<String> said = subject.findings(draft).stream()
                .map(f -> f.id() + " at " + f.where() + ": " + f.sentence())
                .toList();
        assertTrue(said.stream().anyMatch(s -> s.startsWith("fuse-above-conductor at " + fuse)), said::toString);
        assertTrue(said.size() <= 4, () -> said.size() + ": " + String.join("\n", said));
    }

    @Test
    void acceptanceOfAGroup_doesNotCoverAWireAddedLater() throws Exception {
        Draft draft = Draft.of(Subject.COUPE.folder());
        draft.part("fuse_main").put("rated_a", "5000");
        Set<String> before = places(draft);
        draft.add(draft.at("bar_plus.3").get(0), "bar_plus.77", "inverter.plus");
        assertTrue(before.stream().noneMatch(places(draft)::contains), before + " and " + places(draft));
    }

    private static Set<String> places(Draft draft) throws Exception {
        return Subject.COUPE.findings(draft).stream()
                .filter(f -> f.id().equals("fuse-above-conductor"))
                .map(Finding::where)
                .collect(Collectors.toSet());
    }
}
