package sprag.bench.docs;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.evidence.campaign.play.FaultMoment;
import sprag.bench.trip.trace.SpeedTrace;
import sprag.bench.trip.trace.TraceReader;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;

/** A sentence of a page with figures of a run has the figures that the run gives. What a whole run is like: {@link DocStatementsTest}. */
class DocFiguresTest {
    private static final String COMBINATIONS = "hold in each of ([0-9,]+) combinations";
    private static final String FLAWED = "check flawed-van --all";
    private static final String PROOF = "prove parcel-van --export exported";
    private static final String NUMBER = "([0-9.,]*[0-9])";

    /**
     * A sentence.
     *
     * @param page where it stands
     * @param sentence its words, a format for each figure
     * @param command what prints the figures
     * @param among the words among which they stand there: # is a figure
     */
    private record Row(String page, String sentence, String command, String among) {}

    private static final List<Row> ROWS = List.of(
            new Row("live.md", "| parcel-van | %,.0f |", "live parcel-van", COMBINATIONS),
            new Row("live.md", "| coupe | %,.0f |", "live coupe", COMBINATIONS),
            new Row("live.md", "| yard-cart | %,.0f |", "live yard-cart", COMBINATIONS),
            new Row("live.md", "| relay-van | %,.0f |", "live relay-van", COMBINATIONS),
            new Row(
                    "checking.md",
                    "comes to rest at %.3f of the pack voltage, where that converter starts; %.2f is needed",
                    FLAWED,
                    "that the bus comes to: #, at least #,"),
            new Row("checking.md", "Only %.1f W may be left on", FLAWED, "left on the bus while it charges: # W"),
            new Row("checking.md", "%.2f A for hours", FLAWED, "the current through the charging cable: # A"),
            new Row("checking.md", "the fuse stayed at %.0f A", FLAWED, "the rating of the main fuse: # A"),
            new Row(
                    "checking.md",
                    "carries %.0f A by the table",
                    FLAWED,
                    "the rating of the main fuse: 500 A, at most # A"),
            new Row("checking.md", "drive %.0f kA into a short", FLAWED, "circuit current of the pack: #000 A"),
            new Row(
                    "checking.md",
                    "The main fuse breaks %.0f kA",
                    FLAWED,
                    "circuit current of the pack: 8000 A, at most #000 A"),
            new Row("checking.md", "needs 1.25 times as much: %.1f A", FLAWED, "for the charging current: # A"),
            new Row("checking.md", "has a %.0f A breaker", FLAWED, "for the charging current: 39.78 A, at most # A"),
            new Row(
                    "checking.md",
                    "%.1f A on a wet winter night, from a converter of %.0f A",
                    FLAWED,
                    "draws on a wet winter night: # A, at most # A"),
            new Row("checking.md", "10 mm² carries %.0f A", FLAWED, "(10 mm²) carries at most # A"),
            new Row("checking.md", "%.0f A is written beside a wire", FLAWED, "writes a fuse of # A beside wire T027"),
            new Row("checking.md", "an arc at %.0f V d.c.", FLAWED, "for 32 V d.c. but switches # V"),
            new Row("checking.md", "| %.0f V across 30 cells", FLAWED, "The pack has # V when full"),
            new Row("checking.md", "is a %.0f V automotive relay", FLAWED, "relay_heater is rated for # V d.c."),
            new Row("checking.md", "raised to %.0f A", FLAWED, "fuse fuse_charger_2 is # A"),
            new Row(
                    "checking.md",
                    "%.0f ms become some %.1f ms; %.0f ms are allowed",
                    FLAWED,
                    "releases in # ms on its own; with its diode across the coil expect about # ms, more than the # ms"),
            new Row(
                    "prove.md",
                    "finds %,.0f states of Logic and tries %,.0f steps between them; %.0f promises hold, and two have",
                    PROOF,
                    "# reachable states of Logic; # transitions .* # promises hold; "));

    private static String page(String name) throws Exception {
        return Files.readString(MadePages.docs().resolve(name)).replaceAll("\\s+", " ");
    }

    private static void says(String page, String sentence) throws Exception {
        assertTrue(page(page).contains(sentence), "docs/" + page + " does not say: " + sentence);
    }

    /** With the dot as the decimal sign. */
    private static String words(String format, Object... figures) {
        return String.format(Locale.ROOT, format, figures);
    }

    /** The figures that a command prints among some words. */
    private static Object[] figures(String command, String among) {
        String pattern = among.contains("([")
                ? among
                : Arrays.stream(among.split("#", -1))
                        .map(part -> Pattern.quote(part).replace(".*", "\\E.*?\\Q"))
                        .reduce((a, b) -> a + NUMBER + b)
                        .orElseThrow();
        String printed = Printed.of(command).text().replaceAll("\\s+", " ");
        Matcher found = Pattern.compile(pattern).matcher(printed);
        assertTrue(found.find(), command + " does not print " + among + ":\n" + printed);
        return IntStream.rangeClosed(1, found.groupCount())
                .mapToObj(i -> (Object) Double.valueOf(found.group(i).replace(",", "")))
                .toArray();
    }

    @Test
    void sentence_withFiguresOfACommand_hasThem() throws Exception {
        List<String> wrong = new ArrayList<>();
        for (Row row : ROWS) {
            String sentence = words(row.sentence, figures(row.command, row.among));
            if (!page(row.page).contains(sentence)) {
                wrong.add("docs/" + row.page + " does not say: " + sentence);
            }
        }
        assertEquals(List.of(), wrong);
    }

    /** What `value` reads off a run of the van. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(
            delimiter = '|',
            value = {
                "here %.2f s after the precharge relay closed for the second time"
                        + " | time positive_contactor above 0.5 from precharge_relay above 0.5"
                        + " after precharge_relay below 0.5 after precharge_relay above 0.5",
                "(About %.0f s.) | time car.bus_voltage_v below 60 after state RUNDOWN from state RUNDOWN"
            })
    void lesson_figureOfARun_isReadOffIt(String sentence, String question) throws Exception {
        Printed run = Printed.of("run parcel-van drive-and-stop");
        String value = Printed.of("value '" + run.folder().resolve("drive-and-stop") + "' '" + question + "'")
                .text();
        says("lesson-panel.md", words(sentence, Double.valueOf(value.split(" ")[0])));
    }

    @Test
    void lesson_figuresOfTheVan_areThoseOfItsFile() throws Exception {
        Settings van =
                VehicleReader.read(Catalogue.installed().vehicle("parcel-van")).settings();
        double ohm = van.get(Parameter.PRECHARGE_RESISTANCE_OHM);
        double uf = van.get(Parameter.BUS_CAPACITANCE_UF);
        String page = "lesson-panel.md";
        says(page, words("For this van %.0f ohm and %.0f microfarad make %.0f ms.", ohm, uf, ohm * uf / 1e3));
        says(page, words("has reached at least %.0f %% of the pack", 100 * van.get(Parameter.PRECHARGE_DONE_FRACTION)));
        says(
                page,
                words(
                        "(%.0f %% of travel, %.0f ms.)",
                        100 * van.get(Parameter.PEDAL_DISAGREE_SHARE), van.get(Parameter.PEDAL_DISAGREE_MS)));
        says(
                page,
                words(
                        "(Below %.2f V and above %.2f V. A pedal at rest reads %.1f V",
                        van.get(Parameter.PEDAL_MIN_V),
                        van.get(Parameter.PEDAL_MAX_V),
                        van.get(Parameter.PEDAL_A_RELEASED_V)));
        says(page, words("Below %.0f %% of pedal travel", 100 * van.get(Parameter.PEDAL_BRAKE_SHARE)));
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(
            delimiter = '|',
            value = {
                "udds | %.1f km, %.0f min | 60",
                "wltc3b | %.1f km, %.0f min | 60",
                "commute | %.0f km, %.0f min | 60",
                "delivery-day | %.0f km, %.0f h | 3600"
            })
    void trace_shipped_isAsLongAsThePageSays(String name, String length, double unitS) throws Exception {
        SpeedTrace trace = TraceReader.read(Catalogue.installed().trip(name));
        Matcher row =
                Pattern.compile("\\| `" + name + "` \\|[^|]*\\| ([^|]*) \\|").matcher(page("trip.md"));
        assertTrue(row.find(), name);
        assertEquals(words(length, trace.distanceM() / 1000, trace.endS() / unitS), row.group(1));
    }

    @Test
    void lessons_listedOnThePage_areThoseOfTheProgram() throws Exception {
        List<String> program = Printed.of("lesson").lines().stream()
                .filter(line -> line.matches(" +[0-9]+ .* min"))
                .map(line -> line.strip().replaceFirst(" +", ". ").replaceFirst(" +[0-9]+ min$", ""))
                .toList();
        List<String> listed = Files.readAllLines(MadePages.docs().resolve("lessons.md")).stream()
                .filter(line -> line.matches("\\| [0-9]+\\. .*"))
                .map(line -> line.split(" \\| ")[0].substring(2))
                .toList();
        assertEquals(program, listed);
        assertEquals(15, program.size());
        says("lessons.md", "Fifteen lessons of 20 to 25 minutes");
        says("lesson-panel.md", "Fifteen shorter lessons");
    }

    @Test
    void moments_ofTheCampaign_areSixteenAsThePagesSay() throws Exception {
        assertEquals(16, FaultMoment.values().length);
        says("wired.md", "at one of the sixteen moments");
    }

    /** The lower end of the interval of Clopper and Pearson (1934) when all pass: the n-th root of half of what is left. */
    @Test
    void margin_thousandCarsThatPass_isTheShareOfThePage() throws Exception {
        says("margin.md", words("the true share may still be %.1f %%", 100 * Math.pow(0.025, 1 / 1000.0)));
    }

    @Test
    void graph_exported_isAsLargeAsThePageSays() throws Exception {
        says("prove.md", words("in a file of %.0f MB", megabytes(PROOF)));
    }

    @Tag("long")
    @Test
    void proofs_ofTheOtherVehicles_haveTheFiguresOfThePage() throws Exception {
        String coupe = "prove coupe --export exported";
        says("prove.md", words("(the coupe: %.0f MB)", megabytes(coupe)));
        String states = "# reachable states of Logic";
        says(
                "prove.md",
                words(
                        "they are: %,.0f for the parcel van, %,.0f for the coupe and %,.0f for the yard cart",
                        figures(PROOF, states)[0], figures(coupe, states)[0], figures("prove yard-cart", states)[0]));
    }

    private static double megabytes(String proof) throws Exception {
        return Files.size(Printed.of(proof).folder().resolve("exported").resolve("logic.aut")) / 1e6;
    }
}
