package sprag.bench.evidence.campaign;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.evidence.campaign.Campaign.Run;
import sprag.bench.evidence.campaign.play.FaultMoment;
import sprag.bench.evidence.campaign.play.FaultOutcome;
import sprag.bench.evidence.campaign.play.FaultOutcome.Verdict;
import sprag.bench.port.chip.ChipSeat;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.bench.wired.WiredPlan;

/** Faults of the drawn wires, contacts and fuses of the van, and what comes of them. */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class WiredCampaignTest {
    private static final int ONE_OF = 64;

    private static Vehicle van;
    private static Campaign campaign;

    @BeforeAll
    static void playTheDayWithoutAFault() throws Exception {
        van = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
        campaign = new Campaign(van, null, WiredPlan.of(van), 1, ChipSeat.empty());
    }

    @ParameterizedTest(name = "{0} {1}: {2}")
    @CsvSource({
        "CRUISING,    S016.broken,                              SAFE,       pedal-out-of-range, the first track of the pedal",
        "CRUISING,    S018.broken,                              SAFE,       pedal-out-of-range, both tracks lose their ground",
        "CRUISING,    L014.broken,                              SAFE,       positive-dropped, the coil of the positive contactor",
        "CRUISING,    E003.broken,                              SAFE,       supervisor-off, its ground is lifted",
        "CRUISING,    E010.broken,                              DORMANT,    '', nothing in the car sees a protective conductor",
        "CRUISING,    relay_watchdog.in-out.stuck_closed,       DORMANT,    '', only a beat that stops would show it",
        "CRUISING,    cut_off.in-out.stuck_closed,              DORMANT,    '', only a pressed cut-off would show it",
        "CRUISING,    fuse_coils.stuck_open,                    SAFE,       negative-dropped, every coil lets go",
        "CRUISING,    T011.chafed,                              HARM,       '', no insulation monitor is fitted",
        "CHARGING,    relay_charge.in-out.stuck_open,           UNDETECTED, '', the other charger goes on",
    })
    void faultOfTheDrawing_inARun_isNoticedAsItShould(
            FaultMoment moment, String fault, Verdict verdict, String noticedBy, String because) {
        FaultOutcome outcome = campaign.play(new Run(moment, List.of(fault)), rig -> {});
        assertEquals(verdict + " " + noticedBy, outcome.verdict() + " " + outcome.interlock(), because);
    }

    @Test
    void runs_ofADrawing_breakEachWireContactAndFuseOnceAtEachMoment() {
        List<String> names = campaign.runs().stream()
                .filter(run -> run.moment() == FaultMoment.CRUISING)
                .map(run -> run.faults().get(0))
                .toList();
        assertEquals(names.size(), names.stream().distinct().count());
        assertTrue(names.containsAll(List.of(
                "T001.broken",
                "T001.chafed",
                "E003.broken",
                "fuse_main.stuck_open",
                "contactor_positive.in-out.stuck_closed")));
        assertEquals(names.size() * FaultMoment.values().length, campaign.runs().size());
        assertTrue(names.stream().noneMatch(n -> n.contains(",") || n.contains("+") || n.contains(" ")), names + "");
    }

    /** What the whole campaign has found stands in a file; {@code -Plong} plays a share of it, and all with docs.update. */
    @Tag("long")
    @Order(1)
    @Test
    void shareOfTheCampaign_findsWhatIsStored() throws Exception {
        boolean whole = Boolean.getBoolean("docs.update");
        List<FaultOutcome> outcomes = Collections.synchronizedList(new ArrayList<>());
        campaign.playAll(campaign.share(campaign.runs(), 1, whole ? 1 : ONE_OF, Set.of()), outcomes::add, () -> false);
        Baseline now = Baseline.of(van, outcomes);
        if (whole) {
            Files.writeString(stored(), now.toString());
        }
        assertEquals(List.of(), now.differencesFrom(Baseline.parse(Files.readAllLines(stored())), whole));
    }

    @Order(2)
    @Test
    void page_tellsWhatIsStored() throws Exception {
        Baseline stored = Baseline.parse(Files.readAllLines(stored()));
        String page = Files.readString(Catalogue.installed().home().resolve("docs/wired.md"));
        assertEquals(
                campaign.runs().size(),
                stored.faults.values().stream().mapToInt(Map::size).sum());
        String size = String.format(
                Locale.ROOT,
                "The van has %d, so a whole campaign has %,d runs",
                stored.faults.size(),
                campaign.runs().size());
        assertTrue(page.contains(size), "docs/wired.md lacks: " + size);
        for (Verdict verdict : Verdict.values()) {
            String row = String.format(
                    Locale.ROOT, "| %s | %,d |", verdict.name().toLowerCase(Locale.ROOT), stored.count(verdict));
            assertTrue(page.contains(row), "docs/wired.md lacks " + row);
        }
        Map<String, Integer> helps = new TreeMap<>();
        stored.faults.forEach((fault, runs) -> {
            if (runs.values().stream().anyMatch(r -> r.verdict() == Verdict.UNDETECTED)) {
                String withoutPlace = campaign.remedy(fault).replaceFirst("^\\S+ to \\S+: ", "");
                helps.merge(withoutPlace, 1, Integer::sum);
            }
        });
        helps.forEach((remedy, faults) -> {
            String row = "| " + faults + " | " + remedy + " |";
            assertTrue(page.contains(row), "docs/wired.md lacks " + row);
        });
        int all = helps.values().stream().mapToInt(Integer::intValue).sum();
        assertTrue(page.contains(" " + all + " faults that change something"), "docs/wired.md lacks " + all);
    }

    private static Path stored() {
        return Catalogue.installed()
                .home()
                .resolve("bench/src/test/resources/sprag/bench/evidence/campaign/whole-wired-parcel-van.txt");
    }

    @Test
    void remedy_ofAWire_saysWhereItLeads() {
        assertTrue(
                campaign.remedy("E010.broken").startsWith("charger_2.earth to chassis.charger: a measurement of the"));
        assertTrue(campaign.remedy("cut_off.in-out.stuck_closed").contains("on purpose"));
    }
}
