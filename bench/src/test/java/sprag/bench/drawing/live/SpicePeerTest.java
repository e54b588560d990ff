package sprag.bench.drawing.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.drawing.live.element.Consumer;
import sprag.bench.drawing.live.element.Control;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;

/** Traction and relay circuits net by net against ngspice, which finds by itself which coils pull. */
class SpicePeerTest {
    private static final Path PROGRAM = Path.of("/usr/bin/ngspice");
    private static final int COMBINATIONS = 6;
    private static final double FLOATS_V = 0.3;

    @TempDir
    Path folder;

    /** One combination: what is set, and what this program makes of it. */
    private record Tried(Set<String> words, Flow flow) {}

    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart", "relay-van"})
    void randomCombinations_netByNetAndCoilByCoil_agreeWithTheSimulator(String vehicle) throws Exception {
        assumeTrue(Files.isExecutable(PROGRAM), "ngspice is not installed: no circuit is compared with it");
        Schedule schedule = Schedules.of(vehicle);
        SwitchCircuit circuit = Schedules.circuit(schedule);
        Set<String> all = circuit.controls.stream().map(Control::setWords).collect(Collectors.toSet());
        SpiceDeck deck = new SpiceDeck(schedule);
        List<Tried> tried = new ArrayList<>();
        Random random = new Random(7);
        for (Situation situation : Situation.of(circuit).subList(0, 4)) {
            tried.add(tried(circuit, situation.set()));
        }
        while (tried.size() < 4 + COMBINATIONS) {
            tried.add(tried(circuit, combination(circuit, random)));
        }
        for (Tried each : tried) {
            deck.add(all, each.words, 0);
            deck.add(all, each.words, 1);
        }
        Map<String, Double> volts = simulated(deck.text());
        int compared = 0;
        for (int i = 0; i < tried.size(); i++) {
            compared += compare(circuit, schedule, deck, tried.get(i), 2 * i + 1, volts);
        }
        assertTrue(compared > 300, compared + " terminals were compared");
    }

    @Test
    void anotherSituation_doesNotAgree() throws Exception {
        assumeTrue(Files.isExecutable(PROGRAM), "ngspice is not installed: no circuit is compared with it");
        Schedule schedule = Schedules.of("yard-cart");
        SwitchCircuit circuit = Schedules.circuit(schedule);
        Set<String> all = circuit.controls.stream().map(Control::setWords).collect(Collectors.toSet());
        List<Situation> situations = Situation.of(circuit);
        SpiceDeck deck = new SpiceDeck(schedule);
        Set<String> parked = tried(circuit, situations.get(0).set()).words;
        deck.add(all, parked, 0);
        deck.add(all, parked, 1);
        Map<String, Double> volts = simulated(deck.text());
        Tried precharging = tried(circuit, situations.get(2).set());
        assertThrows(AssertionError.class, () -> compare(circuit, schedule, deck, precharging, 1, volts));
    }

    private static Tried tried(SwitchCircuit circuit, BitSet set) {
        Set<String> words =
                set.stream().mapToObj(c -> circuit.controls.get(c).setWords()).collect(Collectors.toSet());
        return new Tried(words, new Tracer(circuit, Fault.NOTHING, new BitSet()).settle(new Proof.Break(set, false)));
    }

    private static BitSet combination(SwitchCircuit circuit, Random random) {
        BitSet set = new BitSet();
        for (int c = 0; c < circuit.controls.size(); c++) {
            Control control = circuit.controls.get(c);
            boolean often =
                    control.kind() == Control.Kind.OUTPUT || control.kind().isSwitched();
            boolean mains = control.kind() == Control.Kind.STATION;
            set.set(c, !mains && random.nextInt(often ? 2 : 8) == 0);
        }
        return set;
    }

    private Map<String, Double> simulated(String text) throws IOException, InterruptedException {
        Path deck = Files.writeString(folder.resolve("deck.cir"), text);
        Path raw = folder.resolve("deck.raw");
        Path said = folder.resolve("said.txt");
        ProcessBuilder builder = new ProcessBuilder(PROGRAM.toString(), "-b", "-r", raw.toString(), deck.toString())
                .redirectErrorStream(true)
                .redirectOutput(said.toFile());
        builder.environment().put("SPICE_ASCIIRAWFILE", "1");
        Process process = builder.start();
        process.waitFor();
        assertTrue(Files.exists(raw), Files.readString(said));
        return SpiceDeck.read(Files.readString(raw, StandardCharsets.ISO_8859_1));
    }

    private static int compare(
            SwitchCircuit circuit,
            Schedule schedule,
            SpiceDeck deck,
            Tried tried,
            int copy,
            Map<String, Double> volts) {
        double minusV = schedule.parts().values().stream()
                .filter(p -> p.kind() == PartKind.PACK)
                .mapToDouble(p -> volts.get(deck.node(copy, p.name() + ".minus")))
                .min()
                .orElseThrow();
        int compared = 0;
        for (int n = 0; n < circuit.nodes.size(); n++) {
            String terminal = circuit.nodes.get(n).name();
            double lowV = volts.get(deck.node(copy, terminal));
            double highV = volts.get(deck.node(copy + 1, terminal));
            String cell =
                    LiveTable.cell(tried.flow, tried.flow.netlist.net[n], 1).text();
            String where = terminal + " carries " + cell + ", " + lowV + " V, with " + tried.words;
            boolean traction = cell.contains("P");
            assertEquals(traction || cell.equals("-"), Math.abs(highV - lowV) > FLOATS_V, where);
            double expectedV = switch (cell) {
                case "12" -> 12;
                case "5" -> 5;
                case "0" -> 0;
                case "P+" -> minusV + 96;
                case "P-" -> minusV;
                default -> Double.NaN;
            };
            if (!Double.isNaN(expectedV) && (!traction || (tried.flow.chain() & 1) != 0)) {
                assertEquals(expectedV, lowV, 0.5, where);
                compared++;
            }
        }
        for (int c : circuit.consumers(Consumer.Kind.COIL)) {
            Consumer coil = circuit.consumers.get(c);
            double acrossV = volts.get(
                            deck.node(copy, circuit.nodes.get(coil.a()).name()))
                    - volts.get(deck.node(copy, circuit.nodes.get(coil.b()).name()));
            assertEquals(Math.abs(acrossV) > 9, (tried.flow.fed[c] & 1) != 0, coil.part() + " with " + tried.words);
        }
        return compared;
    }
}
