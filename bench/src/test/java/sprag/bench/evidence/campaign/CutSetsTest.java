package sprag.bench.evidence.campaign;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.Sprag;
import sprag.bench.cli.ExitCode;
import sprag.bench.evidence.campaign.CutSets.CutSet;
import sprag.bench.evidence.campaign.harm.Harm;
import sprag.bench.evidence.campaign.play.FaultOutcome;
import sprag.bench.page.PageCheck;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.State;

/** Cut sets against published fault trees, and read off a campaign. */
class CutSetsTest {
    @TempDir
    Path folder;

    private static Set<Set<String>> sets(String text) {
        Set<Set<String>> all = new HashSet<>();
        for (String set : text.split(" ")) {
            all.add(new HashSet<>(Arrays.asList(set.split("\\+"))));
        }
        return all;
    }

    /** Each family holds the minimal sets among others that a tree gives when its gates are multiplied out. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            T K2 T+K2 S+S1 S+K1 S+R T+S S+S1+K1 K2+S+R | T K2 S+S1 S+K1 S+R | pressure tank, NUREG-0492 page VIII-13
            G+M G+R+M R+M                              | G+M R+M            | theatre, an example of a public fault tree tool
            a+b a+b a+b+c c                            | a+b c              | the same set twice
            a+b b+c a+c                                | a+b b+c a+c        | two of three: nothing goes
            """)
    void minimal_leavesWhatHoldsNoOther(String all, String minimal, String source) {
        assertEquals(sets(minimal), new HashSet<>(CutSets.minimal(sets(all))), source);
    }

    /** Published figures: NUREG-0492, and a tree of ten causes of a mooring's failure (Ocean Engineering 2011). */
    @ParameterizedTest(name = "{2}")
    @CsvSource(delimiter = '|', textBlock = """
            T=5e-6 K2=3e-5 S=1e-4 S1=3e-5 K1=3e-5 R=1e-4                                     | T K2 S+S1 S+K1 S+R  | 3.501584944e-5
            G=.02 M=.03 R=.05                                                                | G+M R+M             | 0.0020991
            a=1.73e-5 b=4.20e-3 c=9.31e-3 d=8.64e-3 e=8.95e-6 f=8.95e-6 g=9.93e-5 h=4.37e-5 i=5.46e-8 j=4.17e-3 | a b c d e f g h i j | 0.026246389824230341
            """)
    void bound_isThePublishedOne(String probabilities, String minimal, double published) {
        Map<String, Double> rates = new HashMap<>();
        for (String each : probabilities.split(" ")) {
            // the rate that gives this probability in one hour
            rates.put(each.split("=")[0], -Math.log1p(-Double.parseDouble(each.split("=")[1])));
        }
        FailureRates given = new FailureRates(rates, 1);
        List<Double> all = sets(minimal).stream().map(given::probability).toList();
        assertEquals(1, FailureRates.any(all) / published, 1e-7);
    }

    @Test
    void setWithAFaultOfUnknownRate_hasNoProbability() {
        FailureRates given = new FailureRates(Map.of("a", 1e-6), 1000);
        assertTrue(Double.isNaN(given.probability(Set.of("a", "b"))), "unknown is not zero");
        assertEquals(9.995e-4, given.probability(Set.of("a")), 1e-9);
        assertTrue(Double.isNaN(FailureRates.any(List.of())));
    }

    private static FaultOutcome outcome(String moment, String fault, Harm... harms) {
        List<Double> amounts = new ArrayList<>(Collections.nCopies(Harm.values().length, 0.0));
        for (Harm harm : harms) {
            amounts.set(harm.ordinal(), 1e6);
        }
        FaultOutcome.Verdict verdict = harms.length > 0 ? FaultOutcome.Verdict.HARM : FaultOutcome.Verdict.SAFE;
        return new FaultOutcome("van", moment, fault, verdict, "", -1, -1, -1, 0, 0, State.OFF, amounts);
    }

    private static Vehicle van() throws Exception {
        return VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
    }

    @Test
    void runs_withOneFaultOrTwo_giveTheMinimalSetsOfEachHazard_overAllMoments() throws Exception {
        CutSets sets = CutSets.of(
                van(),
                List.of(
                        outcome("cruising", "a", Harm.UNASKED_TORQUE),
                        outcome("charging", "a", Harm.UNASKED_MOTION),
                        outcome("cruising", "a+b", Harm.UNASKED_TORQUE, Harm.BUS_LEFT_LIVE),
                        outcome("cruising", "d+c", Harm.BUS_LEFT_LIVE),
                        outcome("cruising", "c"),
                        outcome("cruising", "e+f")));
        assertEquals(Set.of("H01", "H05"), sets.ofHazard().keySet());
        assertEquals(
                List.of(new CutSet(Set.of("a"), Set.of("charging", "cruising"))),
                sets.ofHazard().get("H01"),
                "the pair holds the single fault");
        assertEquals(
                List.of("a+b", "c+d"),
                sets.ofHazard().get("H05").stream().map(CutSet::name).toList(),
                "a alone does not leave the bus live");
        assertEquals(1, sets.count(1));
        assertEquals(2, sets.count(2));
    }

    private int campaign(StringWriter out, String... words) {
        List<String> all = new ArrayList<>(List.of("campaign", "parcel-van"));
        all.addAll(List.of(words));
        return Sprag.commandLineFor("campaign")
                .setOut(new PrintWriter(out, true))
                .setErr(new PrintWriter(out, true))
                .execute(all.toArray(String[]::new));
    }

    @Test
    void campaign_ofPairs_writesSetsWithTheProbabilityOfTheGivenRates() throws Exception {
        Path rates = Files.writeString(
                folder.resolve("rates.csv"),
                "fault,per_hour\ncharger_1.ignores_limit,1e-6\n\ncharger_enable.stuck_on,1e-6\n");
        Path to = folder.resolve("o");
        StringWriter out = new StringWriter();
        campaign(
                out,
                "--pairs",
                "--only",
                "charging charger_1.ignores_limit+charger_enable.stuck_on",
                "--rates",
                rates.toString(),
                "--hours",
                "100",
                "--out",
                to.toString());
        String csv = Files.readString(to.resolve("cutsets.csv"));
        assertTrue(
                csv.contains("H10,2,charger_1.ignores_limit+charger_enable.stuck_on,charging,1.00e-08\n"), csv + out);
        String page = Files.readString(to.resolve("cutsets.html"));
        assertTrue(page.contains("100 hours") && page.contains("IEC 61025"), page);
        PageCheck.standsAlone(page);
        assertTrue(Files.readString(to.resolve("campaign.html")).contains("cutsets.html"));
    }

    /** A bleed resistor that is open leaves the bus live whatever the pedal does. */
    @Test
    void chosenPair_ofWhichOneFaultIsEnough_isNoMinimalSet() throws Exception {
        Path to = folder.resolve("o");
        StringWriter out = new StringWriter();
        campaign(out, "--pairs", "--only", "cruising brake_pressed.open+bus.bleed_open", "--out", to.toString());
        String csv = Files.readString(to.resolve("cutsets.csv"));
        assertEquals(
                List.of("H05,1,bus.bleed_open,cruising,"), csv.lines().skip(1).toList(), out.toString());
        assertTrue(Files.readString(to.resolve("cutsets.html")).contains("and the faults of their pairs alone"));
    }

    @Test
    void pairs_leaveOutTwoFaultsOfOnePoint() throws Exception {
        Campaign all = new Campaign(van(), 1).withAllPairs();
        List<String> ids =
                all.runs().stream().map(run -> String.join("+", run.faults())).toList();
        assertTrue(ids.contains("pedal_a_v.open+pedal_b_v.open"));
        assertFalse(ids.stream().anyMatch(id -> id.startsWith("pedal_a_v.open+pedal_a_v.")), "one wire fails one way");
        assertEquals(ids.size() / 16, new HashSet<>(ids).size(), "each pair once a moment");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            fault,rate\\npedal_a_v.open,1e-7                        | :1: the first line must be fault,per_hour
            fault,per_hour\\npedal_a_v.opened,1e-7                  | :2: "pedal_a_v.opened" is no fault of this campaign
            fault,per_hour\\npedal_a_v.open,-1                      | :2: the rate of pedal_a_v.open is not a number from 0 to 1
            fault,per_hour\\npedal_a_v.open,nan                     | :2: the rate of pedal_a_v.open is not a number from 0 to 1
            fault,per_hour\\npedal_a_v.open                         | :2: the rate of pedal_a_v.open is not a number from 0 to 1
            fault,per_hour\\npedal_a_v.open,0\\npedal_a_v.open,0     | :3: pedal_a_v.open has a rate already
            """)
    void ratesThatAreNone_areRefused_withLineAndRemedy(String text, String told) throws Exception {
        Path file = Files.writeString(folder.resolve("r.csv"), text.replace("\\n", "\n"));
        IllegalArgumentException refused = assertThrows(
                IllegalArgumentException.class,
                () -> FailureRates.read(file, List.of("pedal_a_v.open", "pedal_b_v.open"), 1));
        assertTrue(refused.getMessage().contains(told), refused.getMessage());
    }

    @Test
    void hours_withoutRates_orOutOfRange_areWrongUsage() {
        StringWriter out = new StringWriter();
        assertEquals(ExitCode.USAGE, campaign(out, "--hours", "0", "--rates", "x"));
        assertEquals(
                ExitCode.USAGE,
                campaign(out, "--rates", folder.resolve("none.csv").toString()));
        assertFalse(out.toString().contains("xception"), out.toString());
    }
}
