package sprag.bench.evidence.campaign;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.drawing.live.Fault;
import sprag.bench.evidence.campaign.Campaign.Felt;
import sprag.bench.evidence.campaign.Campaign.Run;
import sprag.bench.evidence.campaign.harm.Harm;
import sprag.bench.evidence.campaign.harm.HarmMeter;
import sprag.bench.evidence.campaign.play.FaultMoment;
import sprag.bench.evidence.campaign.play.FaultOutcome;
import sprag.bench.evidence.campaign.play.FaultOutcome.Verdict;
import sprag.bench.evidence.campaign.play.ReferenceRun;
import sprag.bench.evidence.campaign.play.RelayRig;
import sprag.bench.port.chip.ChipSeat;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.bench.wired.WiredPlan;

/**
 * The van with a supervisor and the same van with timer relays: every fault of each drawing at the moments that both reach.
 * {@code -Plong} plays a few faults and all that hurt, so that the ratio on the page is seen again; {@code -Dcampaign.whole=true}
 * with it plays all; {@code -Ddocs.update=true} plays all, stores them and writes docs/relay-van.md.
 */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class RelayVanTest {
    private static final Set<FaultMoment> MOMENTS = EnumSet.of(
            FaultMoment.AT_REST,
            FaultMoment.BUS_RISING,
            FaultMoment.READY,
            FaultMoment.CRUISING,
            FaultMoment.PLUGGED_IN,
            FaultMoment.CHARGING);
    private static final Pattern WIRE = Pattern.compile("([A-Z])(\\d{3})(\\..*)");
    private static final String BEGINS = "Made from the code.\n\n";

    /** What a fault amounts to over all moments, the worst first. */
    private enum Amounts {
        HURTS("does harm"),
        NOTICED("noticed by the supervisor, no harm"),
        FELT("noticed by the driver only: the car pulls, brakes or charges otherwise; no harm"),
        NOBODY("noticed by nobody, no harm yet");

        final String words;

        Amounts(String words) {
            this.words = words;
        }
    }

    private static boolean updates() {
        return Boolean.getBoolean("docs.update");
    }

    private static Path home() {
        return Catalogue.installed().home();
    }

    private static Path file(String vehicle) {
        return home().resolve("bench/src/test/resources/sprag/bench/evidence/campaign/wired-" + vehicle + ".txt");
    }

    private static Map<String, String> stored(String vehicle) throws Exception {
        Map<String, String> lines = new TreeMap<>();
        for (String line : Files.readAllLines(file(vehicle))) {
            int at = line.indexOf(": ");
            lines.put(line.substring(0, at), line.substring(at + 2));
        }
        return lines;
    }

    @Tag("long")
    @Order(1)
    @ParameterizedTest(name = "{0}: one fault of {1}")
    @CsvSource({"parcel-van, 40", "relay-van, 40"})
    void faultsOfADrawing_hurtingOnesAndSomeOthers_amountToWhatIsStored(String name, int every) throws Exception {
        Vehicle vehicle = VehicleReader.read(Catalogue.installed().vehicle(name));
        WiredPlan plan = WiredPlan.of(vehicle);
        Campaign campaign = new Campaign(vehicle, null, plan, 1, ChipSeat.empty());
        assertTrue(campaign.missing().stream().noneMatch(MOMENTS::contains), campaign.missing() + "");
        List<String> faults = plan.faults().stream().map(Fault::key).distinct().toList();
        Map<String, String> now = new TreeMap<>();
        boolean whole = updates() || Boolean.getBoolean("campaign.whole");
        Set<String> some = new LinkedHashSet<>(whole ? faults : hurting(name));
        for (int i = 0; i < faults.size(); i += every) {
            some.add(faults.get(i));
        }
        some.parallelStream()
                .map(fault -> Map.entry(fault, amounts(campaign, vehicle, fault)))
                .toList()
                .forEach(e -> now.put(e.getKey(), e.getValue()));
        if (updates()) {
            Files.write(
                    file(name),
                    now.entrySet().stream()
                            .map(e -> e.getKey() + ": " + e.getValue())
                            .toList());
        }
        Map<String, String> then = stored(name);
        assertEquals(faults.size(), then.size());
        now.forEach((fault, amounts) -> assertEquals(then.get(fault), amounts, fault));
    }

    /** The faults that hurt; of the traction wires on the chassis, which all do the same, one. */
    private static List<String> hurting(String vehicle) throws Exception {
        List<String> hurting = new ArrayList<>();
        stored(vehicle).forEach((fault, amounts) -> {
            boolean alike =
                    fault.matches("T\\d+\\.chafed") && hurting.stream().anyMatch(f -> f.matches("T\\d+\\.chafed"));
            if (amounts.startsWith("hurts") && !alike) {
                hurting.add(fault);
            }
        });
        return hurting;
    }

    @Test
    void soundRelayVan_day_isHarmToNobody() throws Exception {
        Vehicle vehicle = VehicleReader.read(Catalogue.installed().vehicle("relay-van"));
        WiredPlan plan = WiredPlan.of(vehicle);
        for (boolean charging : new boolean[] {false, true}) {
            HarmMeter sound = new ReferenceRun(vehicle, RelayRig.of(vehicle, plan, 1), charging).harm;
            for (Harm harm : Harm.values()) {
                double amount = sound.beyond(sound).get(harm.ordinal());
                assertTrue(amount <= harm.limit(vehicle), harm.key() + " " + amount);
            }
        }
    }

    /** One word, and for harm the moments and kinds. */
    private static String amounts(Campaign campaign, Vehicle vehicle, String fault) {
        Set<Amounts> found = EnumSet.of(Amounts.NOBODY);
        List<String> harms = new ArrayList<>();
        for (FaultMoment moment : MOMENTS) {
            Felt felt = campaign.feel(new Run(moment, List.of(fault)), rig -> {});
            FaultOutcome o = felt.outcome();
            if (o.verdict() == Verdict.HARM) {
                found.add(Amounts.HURTS);
                harms.add(moment.key() + "="
                        + o.beyondLimits(vehicle).stream().map(Harm::key).collect(Collectors.joining("+")));
            } else if (!o.interlock().isEmpty()) {
                found.add(Amounts.NOTICED);
            } else if (felt.felt()) {
                found.add(Amounts.FELT);
            }
        }
        Amounts worst = found.iterator().next();
        return (worst.name().toLowerCase(java.util.Locale.ROOT) + " " + String.join(" ", harms)).strip();
    }

    @Test
    @Order(2)
    void page_tellsBothSideBySide() throws Exception {
        Path page = home().resolve("docs/relay-van.md");
        String text = Files.readString(page);
        int at = text.indexOf(BEGINS);
        assertTrue(at > 0, page + " lacks the line \"" + BEGINS.strip() + "\"");
        String expected = text.substring(0, at + BEGINS.length()) + made().stripTrailing() + "\n";
        if (updates()) {
            Files.writeString(page, expected);
        }
        assertEquals(expected, Files.readString(page), page + " is stale: run RelayVanTest with -Ddocs.update=true");
    }

    private static String made() throws Exception {
        Map<String, String> relays = stored("relay-van");
        Map<String, String> supervised = stored("parcel-van");
        StringBuilder made =
                new StringBuilder("| a single fault of the drawing | relay-van | parcel-van |\n|---|---|---|\n");
        Map<Amounts, Integer> left = count(relays);
        Map<Amounts, Integer> right = count(supervised);
        made.append(String.format("| all | %d | %d |\n", relays.size(), supervised.size()));
        for (Amounts row : Amounts.values()) {
            made.append(String.format(
                    "| %s | %s | %s |\n",
                    row.words,
                    share(left.getOrDefault(row, 0), relays.size()),
                    share(right.getOrDefault(row, 0), supervised.size())));
        }
        made.append("\n### What hurts in relay-van\n\n").append(harms(relays));
        made.append("\n### What hurts in parcel-van\n\n").append(harms(supervised));
        return made.append("\n### What the harms mean\n\n")
                .append(meanings(made.toString()))
                .toString();
    }

    private static String share(int some, int all) {
        return String.format("%d (%d %%)", some, Math.round(100.0 * some / all));
    }

    private static Map<Amounts, Integer> count(Map<String, String> lines) {
        Map<Amounts, Integer> counts = new EnumMap<>(Amounts.class);
        lines.values()
                .forEach(line -> counts.merge(
                        Amounts.valueOf(line.split(" ")[0].toUpperCase(java.util.Locale.ROOT)), 1, Integer::sum));
        return counts;
    }

    /** Faults that do the same harm at the same moments share a row. */
    private static String harms(Map<String, String> lines) {
        Map<String, List<String>> faults = new LinkedHashMap<>();
        lines.forEach((fault, line) -> {
            if (line.startsWith("hurts")) {
                faults.computeIfAbsent(line.substring("hurts ".length()), when -> new ArrayList<>())
                        .add(fault);
            }
        });
        StringBuilder rows = new StringBuilder("| faults | how many | when, and what harm |\n|---|---|---|\n");
        faults.forEach((when, names) -> rows.append(String.format(
                "| %s | %d | %s |\n", ranges(names), names.size(), moments(when).replace('_', ' '))));
        return rows.toString();
    }

    /** The moments of each kind of harm: {@code charging=a ready=a+b} becomes {@code a: charging, ready; b: ready}. */
    private static String moments(String when) {
        Map<String, List<String>> byHarm = new LinkedHashMap<>();
        for (String each : when.split(" ")) {
            String[] parts = each.split("=");
            for (String harm : parts[1].split("\\+")) {
                byHarm.computeIfAbsent(harm, h -> new ArrayList<>()).add(parts[0]);
            }
        }
        return byHarm.entrySet().stream()
                .map(e -> e.getKey() + ": "
                        + (e.getValue().size() == MOMENTS.size() ? "at all six" : String.join(", ", e.getValue())))
                .collect(Collectors.joining("; "));
    }

    /** Names of wires that follow each other become a range. */
    private static String ranges(List<String> names) {
        List<String> told = new ArrayList<>();
        for (int first = 0, last; first < names.size(); first = last + 1) {
            last = first;
            while (last + 1 < names.size() && next(names.get(last)).equals(names.get(last + 1))) {
                last++;
            }
            String one = "`" + names.get(first) + "`";
            told.add(last == first ? one : one + (last == first + 1 ? ", `" : " to `") + names.get(last) + "`");
        }
        return String.join(", ", told);
    }

    /** The same fault of the wire with the next number; the name itself when it has none. */
    private static String next(String name) {
        Matcher wire = WIRE.matcher(name);
        return wire.matches()
                ? String.format("%s%03d%s", wire.group(1), Integer.parseInt(wire.group(2)) + 1, wire.group(3))
                : "";
    }

    /** What the kinds of harm on the page mean. */
    private static String meanings(String page) {
        StringBuilder rows = new StringBuilder("| harm | measured is | hazard |\n|---|---|---|\n");
        for (Harm harm : Harm.values()) {
            String name = harm.key().replace('_', ' ');
            if (page.contains(name + ": ")) {
                rows.append(String.format("| %s | %s | %s |\n", name, harm.meaning, harm.hazard));
            }
        }
        return rows.toString();
    }
}
