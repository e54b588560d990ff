package sprag.bench.review.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.sizing.Calculation;
import sprag.supervisor.vocabulary.Signal;

public class ShippedVehiclesTest {
    public static final Path VEHICLES = Path.of("..", "config", "vehicles");
    private static final Path GUIDE = Path.of("..", "docs", "checking.md");

    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart", "relay-van"})
    void goodVehicle_hasNeitherStopNorCaution(String name) throws Exception {
        CheckReport report = Checker.check(VEHICLES.resolve(name));
        List<String> heavy = report.findings().stream()
                .filter(j -> j.finding().weight() != Weight.NOTE)
                .map(j -> j.finding().id() + " " + j.finding().sentence())
                .toList();
        assertEquals(List.of(), heavy);
        int wires = report.schedule().wires().size();
        assertTrue(wires >= 40 && wires <= 140, wires + " wires");
        assertTrue(
                report.calculations().stream().noneMatch(c -> c.verdict() == Calculation.Verdict.UNKNOWN),
                "a shipped vehicle gives everything that can be judged");
    }

    @Test
    void yardCart_showsWhatMissingSignalsCost() throws Exception {
        CheckReport report = Checker.check(VEHICLES.resolve("yard-cart"));
        assertTrue(report.lostCover().keySet().containsAll(Set.of(Signal.PEDAL_B_V, Signal.POSITIVE_AUX_CLOSED)));
        assertFalse(report.lostCover().containsKey(Signal.MOTOR_TEMP_V), "it has that one");
    }

    /** What was planted, and nothing else: id and place. */
    @Test
    void flawedVan_showsEveryPlantedMistake_andNothingElse() throws Exception {
        CheckReport report = Checker.check(VEHICLES.resolve("flawed-van"));
        Set<String> found = report.findings().stream()
                .filter(j -> j.finding().weight() != Weight.NOTE)
                .map(j -> j.finding().id() + " @ " + j.finding().where())
                .collect(Collectors.toCollection(TreeSet::new));
        Set<String> planted = new TreeSet<>(Set.of(
                "precharge-time @ precharge.timeout_ms",
                "precharge-called-stalled @ precharge.done_fraction",
                "precharge-load-left-on @ car.parts.left_on_w",
                "main-fuse-guards-cable @ car.box.fuse_a",
                "main-fuse-breaking-capacity @ design.fuse.breaks_a",
                "supply-continuous-load @ design.station.breaker_a",
                "dcdc-budget @ car.lv.dcdc_max_a",
                "traction-pin-rating @ battery_monitor.sense_plus",
                "traction-bonded @ T050",
                "traction-not-orange @ T011",
                "load-before-shunt @ charger_1",
                "precharge-wrong-side @ resistor_precharge",
                "branch-without-fuse @ T016",
                "branch-without-fuse @ T025",
                "branch-without-fuse @ T027",
                "fuse-after-load @ fuse_heater",
                "fuse-above-conductor @ T023",
                "fuse-differs @ T027",
                "contacts-in-parallel @ contactor_negative",
                "contacts-in-series @ brake_switch",
                "coil-without-suppression @ relay_precharge",
                "suppression-slows-release @ contactor_positive",
                "contact-breaks-too-much @ relay_heater",
                "inverter-supply-early @ inverter",
                "cut-off-leaves-source @ contactor_negative",
                "cut-off-leaves-source @ contactor_positive",
                "pilot-unconnected @ inlet",
                "terminal-in-two-nets @ supervisor.pedal_a_v",
                "net-one-end @ S009",
                "net-one-end @ S035",
                "net-names-alike @ L033",
                "pair-not-twisted @ T029",
                "pair-not-twisted @ T030",
                "signal-without-wire @ pedal_b_v",
                "signal-without-wire @ crash_loop_closed",
                "needed-signal-without-wire @ proximity_v",
                "outputs-unguarded @ heartbeat"));
        planted.add("wire-without-signal @ supervisor.coolant_temp_v");
        assertEquals(planted, found);
    }

    @Test
    void guide_walksThroughEveryFindingOfTheFlawedVan_andNamesNoOther() throws Exception {
        Set<String> found = Checker.check(VEHICLES.resolve("flawed-van")).findings().stream()
                .filter(j -> j.finding().weight() != Weight.NOTE)
                .map(j -> j.finding().id())
                .collect(Collectors.toCollection(TreeSet::new));
        assertEquals(found, walkedThrough(), GUIDE + " and what the flawed van shows differ");
    }

    private static Set<String> walkedThrough() throws IOException {
        String text = Files.readString(GUIDE);
        int begin = text.indexOf("## The flawed van");
        String chapter = text.substring(begin, text.indexOf("\n## ", begin + 5));
        Set<String> ids = new TreeSet<>();
        Matcher row = Pattern.compile("(?m)^\\|[^|]*\\| `([a-z0-9-]+)`").matcher(chapter);
        while (row.find()) {
            ids.add(row.group(1));
        }
        return ids;
    }
}
