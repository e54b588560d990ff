package sprag.bench.review.wiring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.wiring.circuit.RuleLimits;

/** Plants one mistake at a time in a good schedule and counts what is found, what is missed, and what is cried for nothing. */
class PlantedMistakesTest {
    private static final Path VAN = Path.of("..", "config", "vehicles", "parcel-van");

    private static final RuleLimits LIMITS = TestLimits.van();

    @Test
    void unspoiltSchedule_givesNothing() {
        assertEquals(List.of(), WiringCheck.findings(Draft.of(VAN).schedule(), LIMITS));
    }

    @Test
    void everyMistake_isFound_andNothingElseIsCried() {
        List<String> missed = new ArrayList<>();
        List<String> falseAlarms = new ArrayList<>();
        List<String> allowances = new ArrayList<>();
        int found = 0;
        for (Mistake mistake : Mistake.values()) {
            Draft draft = Draft.of(VAN);
            mistake.plant.accept(draft);
            List<Finding> findings = WiringCheck.findings(draft.schedule(), LIMITS);
            Set<String> ids = findings.stream().map(Finding::id).collect(Collectors.toCollection(TreeSet::new));
            if (ids.contains(mistake.rule.id())) {
                found++;
            } else {
                missed.add(mistake + ": " + ids);
            }
            Set<String> expected = mistake.alsoBreaks.stream().map(Rule::id).collect(Collectors.toSet());
            expected.stream().filter(id -> !ids.contains(id)).forEach(id -> allowances.add(mistake + ": " + id));
            findings.stream()
                    .filter(f -> f.weight() != Weight.NOTE)
                    .filter(f -> !f.id().equals(mistake.rule.id()) && !expected.contains(f.id()))
                    .forEach(f -> falseAlarms.add(mistake + ": " + f.id() + " " + f.sentence()));
        }
        assertEquals(
                "found " + Mistake.values().length + ", missed [], false alarms []",
                "found " + found + ", missed " + missed + ", false alarms " + falseAlarms);
        assertEquals(List.of(), allowances, "consequences that were allowed for but do not come");
    }

    @Test
    void twoThinCablesSideBySide_areRefusedWithTheReason() {
        Draft draft = Draft.of(VAN);
        draft.set("contactor_positive.out", "inverter.plus", "size_mm2", "50");
        draft.add(draft.at("inverter.plus").get(0), "contactor_positive.out", "inverter.plus");
        List<String> sentences = WiringCheck.findings(draft.schedule(), LIMITS).stream()
                .filter(f -> f.id().equals(Rule.FUSE_ABOVE_CONDUCTOR.id()))
                .map(Finding::sentence)
                .toList();
        assertTrue(sentences.stream().anyMatch(s -> s.contains("beside it does not help")), sentences.toString());
    }

    @Test
    void everyRule_isBrokenBySomeMistake() {
        EnumSet<Rule> unbroken = EnumSet.allOf(Rule.class);
        for (Mistake mistake : Mistake.values()) {
            unbroken.remove(mistake.rule);
        }
        for (WrongByTerminal mistake : WrongByTerminal.values()) {
            unbroken.removeAll(mistake.rules);
        }
        assertEquals(EnumSet.noneOf(Rule.class), unbroken, "a rule that nothing breaks is not known to work");
    }
}
