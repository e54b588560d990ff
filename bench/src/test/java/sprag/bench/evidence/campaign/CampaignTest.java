package sprag.bench.evidence.campaign;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;
import sprag.bench.Sprag;
import sprag.bench.bus.BusReader;
import sprag.bench.car.FaultSpec;
import sprag.bench.cli.ExitCode;
import sprag.bench.evidence.campaign.Campaign.Run;
import sprag.bench.evidence.campaign.harm.Harm;
import sprag.bench.evidence.campaign.play.DriverScript;
import sprag.bench.evidence.campaign.play.FaultMoment;
import sprag.bench.evidence.campaign.play.FaultOutcome;
import sprag.bench.evidence.campaign.play.FaultOutcome.Verdict;
import sprag.bench.loop.bus.BusFaults;
import sprag.bench.page.PageCheck;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Parameter;

/** Faults in a run: noticed by the right interlock, in time, the same each time; shards, resumption, files. */
class CampaignTest {
    private static Vehicle van;
    private static Campaign campaign;

    @TempDir
    Path folder;

    @BeforeAll
    static void referenceRuns() throws Exception {
        van = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
        campaign = new Campaign(van, 1);
    }

    private static FaultOutcome play(FaultMoment moment, String... faults) {
        return campaign.play(new Run(moment, List.of(faults)), loop -> {});
    }

    @ParameterizedTest(name = "{0}")
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void runWithoutAFault_reachesEveryMoment(String vehicle) throws Exception {
        Campaign of = new Campaign(VehicleReader.read(Catalogue.installed().vehicle(vehicle)), 1);
        assertEquals(List.of(), of.missing());
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            MOMENT             | FAULT                        | NOTICED_BY         | VERDICT    | BECAUSE
            PULLING_AWAY       | pedal_a_v.open               | pedal-out-of-range | SAFE       | a broken wire is no pedal position
            CRUISING           | plug_present.short_high      | plug-present       | SAFE       | any sign of a plug is a plug
            CRUISING           | bus_voltage_v.stale          | readings-lost      | SAFE       | no decision on an old voltage
            BUS_RISING         | precharge_resistor.open      | precharge-stalled  | SAFE       | the bus stays where it is
            AWAKE              | precharge_resistor.shorted   | precharge-fast     | SAFE       | sooner than any resistor allows
            PULLING_AWAY       | positive_contactor.welded    | positive-welded    | SAFE       | told at the first opening
            CHARGING           | pack_voltage_v.stale         | readings-lost      | SAFE       | no charge on an unknown voltage
            AT_REST            | regen_level.short_low        |                    | UNDETECTED | a wrong level is felt and harms nobody
            """)
    void fault_inARun_isNoticedAsItShould(
            FaultMoment moment, String fault, String noticedBy, Verdict verdict, String because) {
        FaultOutcome outcome = play(moment, fault);
        assertEquals(noticedBy == null ? "" : noticedBy, outcome.interlock(), because);
        assertEquals(verdict, outcome.verdict(), because + ": " + outcome.toCsv());
    }

    /** The pack counts as cool on the day of the campaign, so a limit acts already when the thermistor is lost. */
    @Test
    void thermistorLost_whileThePackIsCool_isNoticedAllTheSame() {
        Campaign cool = new Campaign(van.with(Parameter.PACK_COOL_C, 28), 1);
        FaultOutcome outcome = cool.play(new Run(FaultMoment.CRUISING, List.of("pack_hot_v.open")), loop -> {});
        assertEquals("pack-sensor-lost", outcome.interlock());
        assertEquals(Verdict.SAFE, outcome.verdict(), outcome.toCsv());
    }

    @Test
    void anyRun_playedTwice_comesOutTheSame() {
        Run run = new Run(FaultMoment.REGENERATING, List.of("motor_speed_rpm.noise"));
        assertEquals(
                campaign.play(run, s -> {}).toCsv(), campaign.play(run, s -> {}).toCsv());
    }

    @Test
    void outcome_writtenAndReadBack_isTheSame() {
        FaultOutcome outcome = play(FaultMoment.CRUISING, "pedal_b_v.short_low");
        assertEquals(outcome.toCsv(), FaultOutcome.fromCsv(outcome.toCsv()).toCsv());
        assertThrows(IllegalArgumentException.class, () -> FaultOutcome.fromCsv("a,b,c"));
    }

    @Test
    void everyPair_isShownButNotJudged() {
        FaultOutcome pair = play(FaultMoment.PULLING_AWAY, "negative_contactor.welded", "positive_contactor.welded");
        assertFalse(pair.isFinding());
        assertTrue(pair.fault().contains("+"));
    }

    @Test
    void shards_together_areEverythingOnce() {
        List<Run> all = campaign.runs();
        Set<String> seen = new HashSet<>();
        int count = 0;
        for (int part = 1; part <= 7; part++) {
            List<Run> share = campaign.share(all, part, 7, Set.of());
            count += share.size();
            share.forEach(run -> seen.add(run.id(van)));
        }
        assertEquals(all.size(), count);
        assertEquals(all.size(), seen.size());
        String first = all.get(0).id(van);
        assertEquals(all.size() - 1, campaign.share(all, 1, 1, Set.of(first)).size());
    }

    @Test
    void everyFault_ofEveryVehicle_hasARemedy() throws Exception {
        for (String name : List.of("parcel-van", "coupe", "yard-cart")) {
            for (FaultSpec fault :
                    FaultSpec.all(VehicleReader.read(Catalogue.installed().vehicle(name)))) {
                assertFalse(Remedy.of(fault.name()).startsWith("nothing in this vehicle"), fault.name());
            }
        }
    }

    private int sprag(StringWriter out, String... args) {
        CommandLine line =
                Sprag.commandLineFor(args).setOut(new PrintWriter(out)).setErr(new PrintWriter(out));
        return line.execute(args);
    }

    @Test
    void command_stoppedAndStartedAgain_goesOnWhereItWas() throws Exception {
        StringWriter out = new StringWriter();
        String dir = folder.resolve("faults").toString();
        Path file = folder.resolve("faults/campaign.csv");
        int first = sprag(out, "campaign", "parcel-van", "--only", "cruising pedal_a_v", "--out", dir);
        List<String> lines = Files.readAllLines(file);
        Files.writeString(
                file,
                String.join("\n", lines.subList(0, 4)) + "\n" + lines.get(4).substring(0, 20));
        int second = sprag(out, "campaign", "parcel-van", "--only", "cruising pedal_a_v", "--out", dir);
        Set<String> again = new HashSet<>(Files.readAllLines(file));
        assertTrue(lines.size() > 5 && again.containsAll(lines.subList(0, 4)), out.toString());
        assertEquals(
                lines.size() - 2,
                ResultFile.outcomes(Files.readAllLines(file)).stream()
                        .map(FaultOutcome::id)
                        .distinct()
                        .count());
        assertTrue(first <= ExitCode.FINDING && second <= ExitCode.FINDING, out.toString());
        String xml = Files.readString(folder.resolve("faults/junit.xml"));
        assertEquals(
                "testsuites",
                DocumentBuilderFactory.newInstance()
                        .newDocumentBuilder()
                        .parse(new java.io.ByteArrayInputStream(xml.getBytes(java.nio.charset.StandardCharsets.UTF_8)))
                        .getDocumentElement()
                        .getTagName());
        String page = Files.readString(folder.resolve("faults/campaign.html"));
        PageCheck.standsAlone(page);
        assertTrue(page.contains("pedal_a_v.open"));
    }

    @Test
    void command_otherCampaignInTheFolder_isRefused() {
        StringWriter out = new StringWriter();
        String dir = folder.resolve("faults").toString();
        sprag(out, "campaign", "parcel-van", "--only", "cruising pedal_a_v.open", "--out", dir);
        int status =
                sprag(out, "campaign", "parcel-van", "--seed", "2", "--only", "cruising pedal_a_v.open", "--out", dir);
        assertEquals(ExitCode.USAGE, status);
        assertTrue(out.toString().replaceAll("\\s+", " ").contains("holds another campaign"), out.toString());
    }

    @ParameterizedTest
    @ValueSource(strings = {"0/2", "3/2", "x", "1/0"})
    void command_badShard_isRefused(String shard) {
        StringWriter out = new StringWriter();
        assertEquals(ExitCode.USAGE, sprag(out, "campaign", "parcel-van", "--shard", shard));
        assertTrue(out.toString().contains("--shard " + shard), out.toString());
    }

    /** The run of the van ended before its poles had stayed closed for long enough to count. */
    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void keyThatReadsOnForEver_cruising_leavesThePolesClosed_andIsHarm(String name) throws Exception {
        Vehicle vehicle = VehicleReader.read(Catalogue.installed().vehicle(name));
        Campaign campaign = new Campaign(vehicle, 1);
        Run run = campaign.runs().stream()
                .filter(each -> each.id(vehicle).endsWith("cruising key_on.short_high"))
                .findFirst()
                .orElseThrow();
        FaultOutcome outcome = campaign.play(run, rig -> {});
        assertEquals(Verdict.HARM, outcome.verdict(), outcome + "");
        double leftClosedS = outcome.harms().get(Harm.POLES_LEFT_CLOSED.ordinal());
        assertTrue(leftClosedS > Harm.POLES_LEFT_CLOSED.limit(vehicle), leftClosedS + " s");
    }

    @Test
    void singleRun_leavesATraceOfEveryTick() throws Exception {
        StringWriter out = new StringWriter();
        sprag(out, "campaign", "parcel-van", "--only", "cruising pedal_a_v.open", "--out", folder.toString());
        List<String> lines = Files.readAllLines(folder.resolve("trace.csv"));
        int ticks = DriverScript.ticks(VehicleReader.read(Catalogue.installed().vehicle("parcel-van")));
        assertEquals(ticks + 1, lines.size());
        assertEquals(lines.get(0).split(",", -1).length, lines.get(ticks).split(",", -1).length);
    }

    /** What the guide says was found stands for so many runs: more faults need a new campaign, {@code --bus van-pair}. */
    private static void theGuideCounts(Campaign onBus) throws IOException {
        Set<String> faults = new TreeSet<>();
        int runs = 0;
        for (Run run : onBus.runs()) {
            if (run.faults().size() == 1 && BusFaults.isOne(run.faults().get(0))) {
                faults.add(run.faults().get(0));
                runs++;
            }
        }
        String guide = Files.readString(Path.of("..", "docs", "bus.md")).replaceAll("\\s+", " ");
        String counted = "has " + faults.size() + " of them: " + runs + " runs";
        assertTrue(guide.contains(counted), "docs/bus.md does not say \"" + counted + "\"");
    }

    @Test
    void campaignWithABus_hasItsFaults_andTheyDoNoHarm() throws Exception {
        Campaign onBus = new Campaign(van, BusReader.read(Catalogue.installed().bus("van-pair"), van), 1);
        assertEquals(List.of(), onBus.missing());
        theGuideCounts(onBus);
        List<String> faults = List.of("message.monitor_pack.lost", "message.torque_command.lost", "data_bus.cut");
        List<Run> runs = onBus.runs().stream()
                .filter(run -> run.moment() == FaultMoment.CRUISING || run.moment() == FaultMoment.CHARGING)
                .filter(run ->
                        run.faults().size() == 1 && faults.contains(run.faults().get(0)))
                .toList();
        assertEquals(6, runs.size());
        for (Run run : runs) {
            FaultOutcome outcome = onBus.play(run, loop -> {});
            boolean commandOfDrive = run.faults().get(0).contains("torque") && run.moment().charging;
            assertEquals(
                    commandOfDrive ? FaultOutcome.Verdict.DORMANT : FaultOutcome.Verdict.SAFE,
                    outcome.verdict(),
                    outcome::toCsv);
        }
    }
}
