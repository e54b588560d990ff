package sprag.bench.evidence.campaign;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.Golden;
import sprag.bench.cli.Version;
import sprag.bench.evidence.campaign.CutSets.CutSet;
import sprag.bench.evidence.campaign.harm.Harm;
import sprag.bench.evidence.campaign.play.FaultMoment;
import sprag.bench.evidence.campaign.play.FaultOutcome;
import sprag.bench.evidence.campaign.play.FaultOutcome.Verdict;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.bench.wired.WiredPlan;
import sprag.supervisor.vocabulary.State;

/** How outcomes are told: invented ones of every verdict, in every form that they are written in. */
class CampaignToldTest {
    private Vehicle van;

    @TempDir
    Path folder;

    @BeforeEach
    void read() throws Exception {
        van = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
    }

    private static FaultOutcome outcome(
            FaultMoment moment,
            String fault,
            Verdict verdict,
            String interlock,
            double exposedMs,
            Map<Harm, Double> harms) {
        List<Double> amounts = new ArrayList<>(Collections.nCopies(Harm.values().length, 0.0));
        harms.forEach((harm, amount) -> amounts.set(harm.ordinal(), amount));
        double budgetMs = interlock.isEmpty() ? 0 : 200;
        return new FaultOutcome(
                "parcel-van",
                moment.key(),
                fault,
                verdict,
                interlock,
                30,
                20,
                40,
                exposedMs,
                budgetMs,
                State.OFF,
                amounts);
    }

    private static List<FaultOutcome> outcomes() {
        Map<Harm, Double> hurts = Map.of(Harm.UNASKED_TORQUE, 123.4, Harm.PLUG_ARC, 12.345);
        Map<Harm, Double> little = Map.of(Harm.UNASKED_TORQUE, 1.234);
        List<FaultOutcome> all = new ArrayList<>();
        all.add(outcome(
                FaultMoment.CRUISING, "torque_request_nm.stuck_on", Verdict.HARM, "torque-unasked", 150, hurts));
        all.add(outcome(FaultMoment.READY, "torque_request_nm.stuck_on", Verdict.HARM, "", -1, hurts));
        all.add(outcome(
                FaultMoment.PULLING_AWAY, "torque_request_nm.stuck_on", Verdict.HARM, "torque-unasked", 150, hurts));
        all.add(outcome(FaultMoment.CRUISING, "key_on.open", Verdict.LATE, "key-off", 250, little));
        all.add(outcome(FaultMoment.REGENERATING, "key_on.open", Verdict.LATE, "key-off", 300, little));
        all.add(outcome(FaultMoment.AT_REST, "ready_lamp.dark", Verdict.UNDETECTED, "", 0, Map.of()));
        all.add(outcome(FaultMoment.AWAKE, "ready_lamp.dark", Verdict.UNDETECTED, "", 0, Map.of()));
        all.add(outcome(FaultMoment.CHARGING, "pilot.open", Verdict.SAFE, "pilot-invalid", 200, little));
        all.add(outcome(FaultMoment.CHARGING, "pilot.short", Verdict.DORMANT, "", -1, Map.of()));
        all.add(outcome(FaultMoment.CHARGING, "pilot.open+key_on.open", Verdict.HARM, "", 0, hurts));
        for (FaultMoment moment : FaultMoment.values()) {
            all.add(outcome(moment, "bus.shorted", Verdict.LATE, "precharge-stalled", 210 + moment.ordinal(), little));
        }
        return all;
    }

    private CampaignKey key(int runs, int part, int of, String only) throws Exception {
        String sum = CampaignKey.sum(CampaignKey.files(van.folder(), false, null));
        return new CampaignKey(Version.line(), "parcel-van", sum, 1, runs, part, of, only);
    }

    @Test
    void outcomesOfEveryVerdict_areToldAsTheyWereRead() throws Exception {
        List<String> lines = new ArrayList<>();
        Baseline baseline = Baseline.of(van, outcomes());
        lines.addAll(baseline.toString().lines().toList());
        lines.addAll(baseline.table().lines().toList());
        for (Verdict verdict : Verdict.values()) {
            lines.add(verdict + " " + baseline.count(verdict) + " " + CampaignPage.meaning(verdict));
        }
        for (FaultOutcome outcome : outcomes()) {
            lines.add(outcome.toCsv());
            lines.add(CampaignPage.amount(van, outcome) + "; harm: " + CampaignPage.harm(van, outcome));
        }
        lines.addAll(CampaignXml.of(van, outcomes()).lines().toList());
        CutSets sets = CutSets.of(van, outcomes());
        FailureRates rates = new FailureRates(Map.of("torque_request_nm.stuck_on", 1e-6, "pilot.open", 1e-4), 1000);
        lines.addAll(CutSetPage.csv(sets, rates).lines().toList());
        sets.ofHazard()
                .forEach((hazard, all) ->
                        lines.addAll(CutSetPage.tree(hazard, all).lines().toList()));
        Golden.assertSame("evidence/campaign/told.txt", lines);
        assertEquals(
                baseline.toString(),
                Baseline.parse(baseline.toString().lines().toList()).toString());
    }

    @Test
    void remedies_ofTheVansWires_areThoseThatWereRead() throws Exception {
        WiredPlan plan = WiredPlan.of(van);
        List<String> lines = plan.faults().stream()
                .map(fault -> fault.key() + ": " + WireRemedy.of(plan, fault.key()))
                .distinct()
                .toList();
        Golden.assertSame("evidence/campaign/remedies.txt", lines);
        assertFalse(WireRemedy.of(plan, "no_such_wire.broken").isEmpty());
    }

    @Test
    void baselines_compared_nameEachRowThatDiffers_andThoseThatAreGone() {
        Baseline then = Baseline.of(van, outcomes());
        List<FaultOutcome> changed = new ArrayList<>(outcomes());
        changed.set(5, outcome(FaultMoment.AT_REST, "ready_lamp.dark", Verdict.SAFE, "lamp-test", 10, Map.of()));
        changed.remove(8);
        changed.add(outcome(FaultMoment.CHARGING, "a.new_one", Verdict.DORMANT, "", -1, Map.of()));
        Baseline now = Baseline.of(van, changed);
        assertEquals(
                List.of(
                        "at_rest ready_lamp.dark: was undetected, is safe lamp-test 10ms",
                        "charging a.new_one: was not there, is dormant",
                        "charging pilot.short: was dormant, is not there"),
                now.differencesFrom(then, true));
        assertEquals(2, now.differencesFrom(then, false).size(), "a part of a campaign lacks rows");
        String told = assertThrows(
                        IllegalArgumentException.class, () -> Baseline.parse(List.of("# fine", "", "nonsense")))
                .getMessage();
        assertEquals("line 3 is no line of a baseline: nonsense", told);
    }

    private CampaignResult result(CampaignKey key, List<FaultOutcome> outcomes) throws Exception {
        Files.deleteIfExists(folder.resolve(ResultFile.NAME));
        try (ResultFile file = new ResultFile(folder.resolve(ResultFile.NAME), key)) {
            outcomes.forEach(file::add);
        }
        return CampaignResult.read(folder, van);
    }

    @Test
    void result_ofAWholeCampaign_hasCountsFindingsAndWhatNothingNoticed() throws Exception {
        CampaignResult result = result(key(outcomes().size(), 1, 1, ""), outcomes());
        assertEquals("", result.partly());
        assertEquals("", result.stale());
        assertFalse(result.wired());
        assertFalse(result.isGood(), "it has findings");
        assertEquals(
                List.of(List.of("harm", "4", "something happened that could hurt")),
                result.counts().subList(0, 1));
        assertEquals("late", result.counts().get(1).get(0));
        assertEquals("18", result.counts().get(1).get(1));
        assertEquals(21, result.findings().size(), "all that hurt or were late but the pair");
        assertEquals(
                List.of("key_on.open", "cruising", "key-off", "late: 250 ms, the budget is 200 ms"),
                result.findings().get(3));
        assertEquals("nothing", result.findings().get(1).get(2));
        assertTrue(result.findings().get(0).get(3).startsWith("harm: 123 Nm s torque beyond"), result.findings() + "");
        assertEquals("pulling away", result.findings().get(2).get(1));
        assertEquals(List.of(List.of("ready_lamp.dark", "2", Remedy.of("ready_lamp.dark"))), result.undetected());
        assertTrue(result(key(1, 1, 1, ""), outcomes().subList(7, 8)).isGood());
    }

    @Test
    void result_ofAPartOrOfAnotherCar_saysSo() throws Exception {
        List<FaultOutcome> some = outcomes().subList(7, 9);
        assertEquals("2 of 3 runs are played.", result(key(3, 1, 1, ""), some).partly());
        assertEquals(
                "This is share 2 of 2: 2 of its 2 runs are played; the whole campaign has 5.",
                result(key(5, 2, 2, ""), some).partly());
        assertEquals(
                "Only runs whose name holds \"pilot\" were played.",
                result(key(2, 1, 1, "pilot"), some).partly());
        CampaignKey good = key(2, 1, 1, "");
        CampaignKey other = new CampaignKey("another 1.0", "coupe", "abc", 1, 2, 1, 1, "");
        String stale = result(other, some).stale();
        assertTrue(stale.startsWith("it was played by another 1.0, this is "), stale);
        assertTrue(stale.contains("the check sum of the vehicle's files was abc; it is " + good.vehicleFile()), stale);
        assertTrue(stale.endsWith("; it is about coupe"), stale);
        String wired = CampaignKey.sum(CampaignKey.files(van.folder(), true, null));
        CampaignKey drawn = new CampaignKey(good.program(), "parcel-van", wired, 1, 2, 1, 1, "");
        assertTrue(result(drawn, some).wired());
        assertEquals("", result(drawn, some).stale());
        assertTrue(result(drawn, some).undetected().isEmpty());
    }

    @Test
    void result_thatIsNone_isRefusedWithItsFile() throws Exception {
        Path file = folder.resolve(ResultFile.NAME);
        assertTrue(refusal().contains(ResultFile.NAME));
        Files.writeString(file, "");
        assertTrue(refusal().contains("does not name a campaign"));
        Files.writeString(file, "# campaign; program=x\n");
        assertTrue(refusal().contains("does not name a campaign"));
        String row = outcomes().get(0).toCsv().replace(",HARM,", ",NONSENSE,");
        Files.writeString(file, key(1, 1, 1, "").heading() + "\n" + FaultOutcome.COLUMNS + "\n" + row + "\n");
        assertTrue(refusal().contains("holds a row that is none"), refusal());
    }

    private String refusal() {
        return assertThrows(BadInput.class, () -> CampaignResult.read(folder, van))
                .getMessage();
    }

    @Test
    void resultFile_isSortedTheWorstFirst_andRefusesAnotherCampaign() throws Exception {
        Path file = folder.resolve(ResultFile.NAME);
        CampaignKey key = key(9, 1, 1, "");
        try (ResultFile made = new ResultFile(file, key)) {
            outcomes().forEach(made::add);
            List<FaultOutcome> sorted = made.sorted();
            assertEquals(Verdict.HARM, sorted.get(0).verdict());
            assertEquals(Verdict.DORMANT, sorted.get(sorted.size() - 1).verdict());
            for (int i = 1; i < sorted.size(); i++) {
                FaultOutcome before = sorted.get(i - 1);
                boolean same = before.verdict() == sorted.get(i).verdict();
                assertTrue(before.verdict().compareTo(sorted.get(i).verdict()) <= 0);
                assertTrue(!same || before.marginMs() <= sorted.get(i).marginMs());
            }
        }
        Files.writeString(file, Files.readString(file) + "parcel-van,cruising,cut of");
        try (ResultFile again = new ResultFile(file, key)) {
            assertEquals(outcomes().size(), again.sorted().size(), "a line that was cut off does not count");
            again.add(outcomes().get(0));
        }
        assertEquals(
                outcomes().size() + 1,
                ResultFile.outcomes(Files.readAllLines(file)).size());
        CampaignKey other = key(10, 1, 1, "");
        String told = assertThrows(IllegalArgumentException.class, () -> new ResultFile(file, other))
                .getMessage();
        assertTrue(told.contains("holds another campaign") && told.contains("runs=9"), told);
    }

    @ParameterizedTest
    @CsvSource({"9, 1, 1, 9", "9, 1, 2, 5", "9, 2, 2, 4", "9, 3, 4, 2", "8, 4, 4, 2"})
    void share_hasItsRuns_andItsKeyIsReadBack(int runs, int part, int of, int mine) throws Exception {
        CampaignKey key = key(runs, part, of, "a; b=c");
        assertEquals(mine, key.runsOfShare());
        assertEquals(key, CampaignKey.parse(key.heading()).orElseThrow());
        assertEquals("", key.differenceFrom(key(runs, 1, of, "a; b=c")), "shares of one campaign");
        assertEquals("runs is \"" + runs + "\", not \"99\"", key.differenceFrom(key(99, part, of, "a; b=c")));
        assertTrue(CampaignKey.parse("# something else").isEmpty());
        assertTrue(CampaignKey.parse(key.heading().replace("seed=1", "seed=x")).isEmpty());
        assertTrue(CampaignKey.parse(key.heading().replace("/" + of, "")).isEmpty());
    }

    private static final Pattern BOX =
            Pattern.compile("<rect x=\"(\\d+)\" y=\"(\\d+)\" width=\"(\\d+)\" height=\"(\\d+)\"");
    private static final Pattern VIEW = Pattern.compile("viewBox=['\"]0 0 (\\d+) (\\d+)['\"]");

    private static int at(MatchResult match, int group) {
        return Integer.parseInt(match.group(group));
    }

    /** A pair stands in one row, each set in its own; what is not drawn is counted. */
    @ParameterizedTest
    @CsvSource({"1", "23", "24", "25", "40"})
    void tree_ofManySets_drawsTwentyFour_insideThePicture(int count) {
        List<CutSet> sets = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            sets.add(new CutSet(i % 2 == 0 ? Set.of("fault_" + i) : Set.of("one_" + i, "two_" + i), Set.of("ready")));
        }
        String svg = CutSetPage.tree("H01", sets);
        MatchResult view = VIEW.matcher(svg).results().findFirst().orElseThrow();
        List<MatchResult> boxes = BOX.matcher(svg).results().toList();
        int drawn = Math.min(count, 24);
        assertEquals(1 + drawn + drawn / 2, boxes.size());
        assertEquals(count > 24, svg.contains(">" + (count - 24) + " more<"));
        Set<String> places = new HashSet<>();
        for (MatchResult box : boxes) {
            assertTrue(at(box, 1) + at(box, 3) <= at(view, 1) && at(box, 2) + at(box, 4) < at(view, 2), box.group());
            assertTrue(places.add(box.group(1) + " " + box.group(2)), "two boxes at " + box.group());
        }
        assertEquals(drawn / 2, svg.split(">and<", -1).length - 1);
    }
}
