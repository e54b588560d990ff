package sprag.bench.evidence.campaign;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.evidence.campaign.Campaign.Run;
import sprag.bench.evidence.campaign.harm.Harm;
import sprag.bench.evidence.campaign.play.FaultMoment;
import sprag.bench.evidence.campaign.play.FaultOutcome;
import sprag.bench.evidence.campaign.play.FaultOutcome.Verdict;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/**
 * Each campaign of a shipped vehicle finds what is stored and what docs/campaign.md lists. The default build plays a share of the
 * runs; {@code -Dcampaign.whole=true} plays all of them; {@code -Ddocs.update=true} plays all and stores them anew.
 */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class BaselineTest {
    private static final List<String> VEHICLES = List.of("parcel-van", "coupe", "yard-cart");
    private static final String BEGINS = "Made from the code.\n\n";

    private static boolean updates() {
        return Boolean.getBoolean("docs.update");
    }

    private static Path home() {
        return Catalogue.installed().home();
    }

    private static Path file(String vehicle) {
        return home().resolve("bench/src/test/resources/sprag/bench/evidence/campaign/" + vehicle + ".txt");
    }

    private static Baseline stored(String vehicle) throws Exception {
        return Baseline.parse(Files.readAllLines(file(vehicle)));
    }

    @Order(1)
    @ParameterizedTest(name = "{0}: one run of {1}")
    @CsvSource({"parcel-van, 96", "coupe, 96", "yard-cart, 48"})
    void campaignOfAShippedVehicle_findsWhatIsStored(String name, int every) throws Exception {
        play(name, every);
    }

    @Tag("long")
    @Order(1)
    @ParameterizedTest(name = "{0}: one run of {1}")
    @CsvSource({"parcel-van, 16", "coupe, 16", "yard-cart, 16"})
    void moreOfTheCampaign_findsWhatIsStored(String name, int every) throws Exception {
        assumeFalse(updates(), "all of them are played and stored already");
        play(name, every);
    }

    /** One run of so many; all of them when they are to be stored. */
    private static void play(String name, int every) throws Exception {
        boolean whole = updates() || Boolean.getBoolean("campaign.whole");
        Vehicle vehicle = VehicleReader.read(Catalogue.installed().vehicle(name));
        Campaign campaign = new Campaign(vehicle, 1);
        List<Run> runs = campaign.share(campaign.runs(), 1, whole ? 1 : every, Set.of());
        List<FaultOutcome> outcomes = Collections.synchronizedList(new ArrayList<>());
        campaign.playAll(runs, outcomes::add, () -> false);
        Baseline now = Baseline.of(vehicle, outcomes);
        if (updates()) {
            Files.createDirectories(file(name).getParent());
            Files.writeString(file(name), now.toString());
        }
        assertEquals(
                List.of(),
                now.differencesFrom(stored(name), whole),
                "rows of the campaign of " + name
                        + " have changed; when the change is meant: DEVELOPERS.md says how the new rows are stored");
    }

    @Test
    @Order(2)
    void page_listsEveryHarmAndLateRow() throws Exception {
        StringBuilder made = new StringBuilder(
                "### What counts as harm\n\n| hazard | what is measured | in | it is harm above |\n|---|---|---|---|\n");
        for (Harm row : Harm.values()) {
            made.append(String.format(
                            "| %s | %s (`%s`) | %s | %s |%n", row.hazard, row.meaning, row.key(), row.unit, row.source)
                    .replace("\r\n", "\n"));
        }
        made.append('\n');
        for (String name : VEHICLES.stream().filter(v -> Files.exists(file(v))).toList()) {
            Baseline stored = stored(name);
            made.append("### ").append(name).append("\n\n");
            long rows = stored.faults.values().stream().mapToLong(Map::size).sum();
            int runs = new Campaign(VehicleReader.read(Catalogue.installed().vehicle(name)), 1)
                    .runs()
                    .size();
            if (rows < runs) {
                made.append("This list is not complete: it rests on ")
                        .append(rows)
                        .append(" of ")
                        .append(runs);
                made.append(" runs. DEVELOPERS.md says how all of them are played and stored.\n\n");
            }
            made.append(stored.count(Verdict.HARM)).append(" runs with harm, ");
            made.append(stored.count(Verdict.LATE)).append(" late, ");
            made.append(stored.count(Verdict.UNDETECTED)).append(" undetected, ");
            made.append(stored.count(Verdict.SAFE)).append(" safe, ");
            made.append(stored.count(Verdict.DORMANT)).append(" dormant.\n\n");
            made.append(stored.table()).append('\n');
        }
        Path page = home().resolve("docs/campaign.md");
        String text = Files.readString(page);
        int at = text.indexOf(BEGINS);
        assertTrue(at > 0, page + " lacks the line \"" + BEGINS.strip() + "\"");
        String expected =
                text.substring(0, at + BEGINS.length()) + made.toString().stripTrailing() + "\n";
        if (updates()) {
            Files.writeString(page, expected);
        }
        assertEquals(expected, Files.readString(page), page + " is stale: run BaselineTest with -Ddocs.update=true");
    }

    @Test
    void baseline_writtenAndReadBack_isTheSame() throws Exception {
        Vehicle cart = VehicleReader.read(Catalogue.installed().vehicle("yard-cart"));
        Campaign campaign = new Campaign(cart, 1);
        List<FaultOutcome> outcomes = new ArrayList<>();
        List<Run> runs = campaign.runs().stream()
                .filter(run -> run.id(cart).contains("torque_request_nm.stuck_on")
                        || run.id(cart).contains("key_on.stuck"))
                .toList();
        campaign.playAll(runs, outcomes::add, () -> false);
        Baseline made = Baseline.of(cart, outcomes);
        Baseline read = Baseline.parse(List.of(made.toString().split("\n")));
        assertEquals(made.toString(), read.toString());
        assertEquals(List.of(), made.differencesFrom(read, true));
        assertTrue(made.table().contains("| `torque_request_nm.stuck_on` |"), made.table());
        read.faults.remove("key_on.stuck");
        assertEquals(
                FaultMoment.values().length, made.differencesFrom(read, false).size());
        assertEquals(
                FaultMoment.values().length, read.differencesFrom(made, true).size());
        assertEquals(0, read.differencesFrom(made, false).size());
    }
}
