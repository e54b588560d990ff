package sprag.bench.evidence.prove;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import sprag.bench.Golden;
import sprag.bench.evidence.prove.explore.Exploration;
import sprag.bench.page.PageCheck;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;
import sprag.supervisor.vocabulary.TorquePermission;
import sprag.supervisor.vocabulary.Transition;

/** How a proof is told, to people and to programs: invented ones, good and bad in every way that the code knows. */
class ProofToldTest {
    private static Counterexample.Tock tock(
            Map<Fact, Integer> facts, State before, State state, Step step, Transition via, TorquePermission torque) {
        Direction engaged = torque == TorquePermission.FOLLOW_PEDAL ? Direction.FORWARD : Direction.NEUTRAL;
        boolean charging = state == State.CHARGE_LOCKOUT && step == Step.HOLD;
        return new Counterexample.Tock(new TreeMap<>(facts), before, state, step, via, torque, engaged, charging);
    }

    /** The key is turned, the bus rises for three ticks, and torque follows the pedal while a plug is seen. */
    private static Counterexample story() {
        Transition wake = Arrays.stream(Transition.values())
                .filter(t -> t.to == State.IGNITION)
                .findFirst()
                .orElseThrow();
        Transition drive = Arrays.stream(Transition.values())
                .filter(t -> t.to == State.DRIVE_ENABLE)
                .findFirst()
                .orElseThrow();
        List<Counterexample.Tock> ticks = new ArrayList<>();
        ticks.add(tock(Map.of(Fact.KEY_ON, 1), State.OFF, State.IGNITION, Step.IDLE, wake, TorquePermission.NONE));
        Map<Fact, Integer> waits = Map.of(Fact.KEY_ON, 1, Fact.BUS_LEVEL, 0, Fact.PLUG_SEEN, 0);
        for (int i = 0; i < 3; i++) {
            ticks.add(tock(waits, State.IGNITION, State.PRECHARGE, Step.RAISE_BUS, null, TorquePermission.NONE));
        }
        Map<Fact, Integer> charged = Map.of(Fact.KEY_ON, 1, Fact.BUS_LEVEL, 1, Fact.PLUG_SEEN, 1);
        ticks.add(tock(charged, State.PRECHARGE, State.DRIVE_ENABLE, Step.HOLD, drive, TorquePermission.FOLLOW_PEDAL));
        ticks.add(tock(
                Map.of(Fact.KEY_ON, 0),
                State.DRIVE_ENABLE,
                State.DRIVE_ENABLE,
                Step.HOLD,
                null,
                TorquePermission.RAMP_TO_ZERO));
        return new Counterexample(ticks);
    }

    private static Counterexample charge() {
        return new Counterexample(List.of(tock(
                Map.of(Fact.PLUG_SEEN, 1),
                State.CHARGE_LOCKOUT,
                State.CHARGE_LOCKOUT,
                Step.HOLD,
                null,
                TorquePermission.NONE)));
    }

    private static Proof.Verdict verdict(
            String id, Counterexample story, Counterexample witness, int applied, String idle) {
        return new Proof.Verdict(
                id,
                "H02",
                "torque is asked for with a plug in the inlet",
                Optional.ofNullable(story),
                Optional.ofNullable(witness),
                applied,
                idle);
    }

    private static final Proof.Verdict HOLDS = verdict("HOLDS", null, charge(), 1, "");
    private static final Proof.Verdict BROKEN = verdict("BROKEN", story(), null, 6, "");
    private static final Proof.Verdict BROKEN_AT_ONCE = verdict("BROKEN_AT_ONCE", charge(), null, 1, "");
    private static final Proof.Verdict VACUOUS = verdict("VACUOUS", null, null, 0, "");
    private static final Proof.Verdict IDLE = verdict("IDLE", null, null, 0, "the car has no such part");

    private static Proof proof(String stoppedBy, List<Proof.Unreached> dead, Proof.Verdict... verdicts) {
        Exploration.Size size = new Exploration.Size(1234, 56789, 42, 98765, 2_500_000_000L);
        Exploration.Size watched = new Exploration.Size(2345, 67890, 43, 98766, 500_000_000L);
        return new Proof(
                Set.of(Interlock.PLUG_PRESENT),
                List.of(verdicts),
                dead,
                List.of(
                        new Proof.Pass("every promise", size, true, ""),
                        new Proof.Pass("a history", watched, stoppedBy.isEmpty(), stoppedBy)));
    }

    private static final Proof GOOD = proof("", List.of(), HOLDS, IDLE);
    private static final Proof BAD = proof(
            "the limit of 2,345 states was reached",
            List.of(new Proof.Unreached("state", "NOWHERE")),
            HOLDS,
            BROKEN,
            BROKEN_AT_ONCE,
            VACUOUS,
            IDLE);

    private static Necessity.Row row(String of, String change, Proof.Verdict broken, Proof.Verdict gated, String note) {
        return new Necessity.Row(
                of,
                change,
                change.isEmpty() ? "H02" : "",
                Optional.ofNullable(broken),
                Optional.ofNullable(gated),
                !note.startsWith("not known"),
                note);
    }

    private static final Necessity NEEDED = new Necessity(List.of(
            row("plug-present", "", BROKEN, null, ""),
            row("cut-loop", "", BROKEN, BROKEN_AT_ONCE, ""),
            row("lv-low", "", null, null, "only warns; Logic decides nothing by it"),
            row("a-wait", "one tick longer", BROKEN_AT_ONCE, BROKEN_AT_ONCE, "")));
    private static final Necessity FINDINGS = new Necessity(List.of(
            row("redundant", "", null, null, ""),
            row("redundant-too", "", null, null, ""),
            row("left", "", null, null, "not known: interrupted")));

    private static List<String> text(Proof proof, boolean gated, Necessity necessity) {
        StringWriter out = new StringWriter();
        ProofText text = new ProofText(new PrintWriter(out, true));
        text.proof("a-car", proof, gated, 3.25);
        text.necessity(necessity, 4.75);
        return out.toString().lines().toList();
    }

    @Test
    void proofs_goodAndBad_areToldAsTheyWereRead() throws Exception {
        List<String> lines = new ArrayList<>();
        for (Proof proof : List.of(GOOD, BAD, proof("", List.of(), HOLDS), proof("stopped", List.of(), VACUOUS))) {
            boolean first = proof == GOOD;
            Necessity necessity = first ? NEEDED : FINDINGS;
            lines.add("# text");
            List<String> text = text(proof, first, first ? NEEDED : proof == BAD ? FINDINGS : new Necessity(List.of()));
            assertEquals(
                    List.of(), text.stream().filter(line -> line.length() > 80).toList(), "wider than 80 columns");
            lines.addAll(text);
            lines.add("# json");
            lines.addAll(ProofJson.of("a-car", proof, first, necessity).lines().toList());
            lines.add("# xml");
            lines.addAll(ProofXml.of("a-car", proof, necessity, 3.25).lines().toList());
        }
        Golden.assertSame("evidence/prove/told.txt", lines);
    }

    @Test
    void page_tellsEveryPromiseItsVerdictAndTheShortestWay() throws Exception {
        String page = ProofPage.of("a-car", BAD, true, FINDINGS);
        PageCheck.standsAlone(page);
        for (String told : List.of(
                "Proof: a-car without plug-present",
                "Logic with the Gate in place",
                "2 promises are broken",
                "1,234 reachable states",
                "124,679 transitions",
                "the limit of 2,345 states was reached",
                "VACUOUS has had nothing to say so far",
                "nothing to say here: the car has no such part",
                "nothing: a finding",
                "not known: interrupted",
                "NOWHERE",
                "6 ticks",
                "ticks 2 to 4",
                "torque follows the pedal forward",
                "chargers may deliver")) {
            assertTrue(page.contains(told), "lacks: " + told);
        }
        assertTrue(page.contains(">2,345<") && page.contains(">67,890<") && page.contains(">43<"), "the explorations");
        String good = ProofPage.of("a-car", GOOD, false, null);
        assertTrue(good.contains("Every promise holds") && good.contains("Logic alone, without the Gate"));
        assertFalse(good.contains("is broken"));
        String idle = ProofPage.of("a-car", proof("", List.of(), VACUOUS), false, NEEDED);
        assertTrue(idle.contains("No promise is broken, but the proof is not in order"));
        assertTrue(idle.contains("VACUOUS proves nothing: no tick that it speaks of can happen"));
        assertTrue(idle.contains("only warns; Logic decides nothing by it"));
    }

    private static final Pattern BOX = Pattern.compile(
            "<rect[^>]*?x='?\"?(\\d+)'?\"? y='?\"?(\\d+)'?\"? width='?\"?(\\d+)'?\"? height='?\"?(\\d+)");
    private static final Pattern VIEW = Pattern.compile("viewBox=['\"]0 0 (\\d+) (\\d+)['\"]");

    private static int at(MatchResult match, int group) {
        return Integer.parseInt(match.group(group));
    }

    @Test
    void lanes_haveAColumnForEachChapter_andALaneForEachFact_insideThePicture() {
        Counterexample story = story();
        String svg = new CounterexampleLanes(story).svg();
        assertEquals(4, story.chapters().size(), "three ticks in which nothing changes are one chapter");
        assertEquals(Set.of(Fact.KEY_ON, Fact.BUS_LEVEL, Fact.PLUG_SEEN), story.facts());
        MatchResult view = VIEW.matcher(svg).results().findFirst().orElseThrow(() -> new AssertionError(svg));
        assertEquals(210 + 4 * 120, at(view, 1));
        List<MatchResult> boxes = BOX.matcher(svg).results().toList();
        assertTrue(boxes.size() > 8, svg);
        for (MatchResult box : boxes) {
            assertTrue(
                    at(box, 1) >= 210 && at(box, 1) + at(box, 3) <= at(view, 1), "beside the columns: " + box.group());
            assertEquals(0, (at(box, 1) - 210) % 120, "between columns: " + box.group());
            assertTrue(at(box, 2) > 18 && at(box, 2) + at(box, 4) < at(view, 2), "beside the lanes: " + box.group());
            for (MatchResult other : boxes) {
                boolean apart = at(box, 1) != at(other, 1) || Math.abs(at(box, 2) - at(other, 2)) >= at(box, 4);
                assertTrue(box == other || apart, box.group() + " over " + other.group());
            }
        }
        for (String lane : List.of(
                "state",
                "negative contactor",
                "precharge relay",
                "positive contactor",
                "torque",
                "charge",
                "KEY_ON",
                "PLUG_SEEN",
                "BUS_LEVEL")) {
            assertTrue(svg.contains(">" + lane + "<"), lane);
        }
        assertEquals(List.of(330, 450, 570), bars(boxes, 1), "negative contactor");
        assertEquals(List.of(330), bars(boxes, 2), "precharge relay");
        assertEquals(List.of(450, 570), bars(boxes, 3), "positive contactor");
        assertEquals(List.of(450, 570), bars(boxes, 4), "torque");
        assertEquals(List.of(), bars(boxes, 5), "charge");
        assertTrue(svg.contains(">drive enable<") && svg.contains(">tick 1<") && svg.contains(">ticks 2 to 4<"), svg);
    }

    /** Where the bars of a lane begin; the lanes are 22 px high and begin at 20 px. */
    private static List<Integer> bars(List<MatchResult> boxes, int lane) {
        return boxes.stream()
                .filter(box -> (at(box, 2) - 20) / 22 == lane)
                .map(box -> at(box, 1))
                .toList();
    }

    @Test
    void rowsOfAWait_oneWayNeeded_otherWayIsNoFinding() {
        Necessity.Row shorter = row("a-wait", "one tick shorter", BROKEN, BROKEN, "");
        Necessity.Row longer = row("a-wait", "one tick longer", null, null, "");
        Necessity.Row unknown = row("a-wait", "two ticks longer", null, null, "not known: interrupted");
        Necessity.Row alone = row("another", "one tick longer", null, null, "");
        Necessity all = new Necessity(Necessity.together(List.of(shorter, longer, unknown, alone)));
        assertEquals(List.of(unknown, alone), all.findings());
        assertEquals("only the other way matters", all.rows().get(1).nothing());
        assertEquals("a-wait one tick longer", all.rows().get(1).what());
        assertEquals("nothing: a finding", alone.nothing());
    }

    @Test
    void progress_tellsABrokenPromiseOnce_andNobodyWhoDoesNotListen() {
        StringWriter out = new StringWriter();
        ProofProgress progress = new ProofProgress(new PrintWriter(out), false);
        progress.broken("A_PROMISE", 1);
        progress.broken("A_PROMISE", 5);
        progress.broken("ANOTHER", 5);
        progress.after("a history", 3, 1000);
        progress.wipe();
        assertEquals(
                List.of(
                        "A_PROMISE is broken in 1 tick; the rest is explored",
                        "ANOTHER is broken in 5 ticks; the rest is explored"),
                out.toString().lines().toList());
        ProofProgress.SILENT.broken("A_PROMISE", 1);
        StringWriter terminal = new StringWriter();
        ProofProgress shown = new ProofProgress(new PrintWriter(terminal), true);
        shown.broken("A_PROMISE", 2);
        assertTrue(terminal.toString().startsWith("\r" + " ".repeat(78) + "\rA_PROMISE is broken in 2 ticks"));
    }
}
