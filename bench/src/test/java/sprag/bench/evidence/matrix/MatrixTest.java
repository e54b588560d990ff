package sprag.bench.evidence.matrix;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.input.Conditioner;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** The pages in docs are the ones that the code prints. {@code -Ddocs.update=true} rewrites them. */
class MatrixTest {
    private static final Path DOCS = Path.of(System.getProperty("user.dir")).resolveSibling("docs");

    @Test
    void interlocksPage_isTheOneInTheCode() throws Exception {
        current("interlocks.md", Matrix.asMarkdown());
    }

    @Test
    void statesPage_isTheOneInTheCode() throws Exception {
        current("states.md", Matrix.statesAsMarkdown());
    }

    @Test
    void terminalMatrix_everyVehicle_fitsEightyColumns() throws Exception {
        for (String name : new String[] {"parcel-van", "coupe", "yard-cart"}) {
            for (String line : Matrix.forTerminal(
                    VehicleReader.read(Catalogue.installed().vehicle(name)).settings())) {
                assertTrue(line.length() <= 80, line.length() + " columns: " + line);
            }
        }
    }

    /** What the table says against the code that decides: hostile readings, with and without what a row needs. */
    @Test
    void anyReadings_signalsOfARowNotFitted_itsCauseNeverComes_andFittedItDoes() throws Exception {
        Settings all =
                VehicleReader.read(Catalogue.installed().vehicle("parcel-van")).settings();
        Settings fitted = Settings.of(values(all), EnumSet.allOf(Signal.class));
        Set<Fact> possible = causes(fitted);
        Set<Fact> bare = EnumSet.noneOf(Fact.class);
        Settings none = fitted;
        for (Signal signal : Signal.values()) {
            none = signal.optional ? none.without(signal) : none;
        }
        bare.addAll(causes(none));
        for (Interlock row : Interlock.values()) {
            if (!row.cause.isFact() || row.cause.value() != 1) {
                continue;
            }
            Fact fact = row.cause.fact();
            boolean can = Needs.of(row).missing(none).isEmpty();
            assertFalse(!can && bare.contains(fact), row + " acts without what the table says it needs");
            assertFalse(can && possible.contains(fact) && !bare.contains(fact), row + " needs what the table hides");
            assertTrue(Needs.of(row).missing(fitted).isEmpty(), row + " misses a signal where all are fitted");
            for (Signal signal : Needs.of(row).signals()) {
                Settings without = fitted.without(signal);
                boolean acts = Needs.of(row).missing(without).isEmpty();
                assertFalse(!acts && causes(without).contains(fact), row + " acts without " + signal);
            }
        }
    }

    private static double[] values(Settings settings) {
        double[] values = new double[Parameter.values().length];
        for (Parameter parameter : Parameter.values()) {
            values[parameter.ordinal()] = settings.get(parameter);
        }
        return values;
    }

    /** The facts that come true under readings that are each held for 2.2 s, within and beyond their range or unknown. */
    private static Set<Fact> causes(Settings settings) {
        Set<Fact> seen = EnumSet.noneOf(Fact.class);
        Conditioner conditioner = new Conditioner(settings);
        Random random = new Random(7);
        Readings in = new Readings();
        Commands last = new Commands();
        for (int i = 0; i < 100; i++) {
            for (Signal signal : Signal.values()) {
                double value = signal.min + random.nextDouble() * (signal.max - signal.min);
                double whole = signal.isSwitch() ? Math.round(value) : value;
                in.set(signal, random.nextInt(8) == 0 ? Double.NaN : whole);
            }
            for (Output output : Output.values()) {
                last.set(output, random.nextBoolean());
            }
            for (int tick = 0; tick < 220; tick++) {
                conditioner.update(in, last, false);
                for (Fact fact : Fact.values()) {
                    if (conditioner.facts().value(fact) == 1) {
                        seen.add(fact);
                    }
                }
            }
        }
        return seen;
    }

    @Test
    void yardCart_withoutAuxiliaryContacts_weldRowsAreMarked() throws Exception {
        List<String> lines = Matrix.forTerminal(
                VehicleReader.read(Catalogue.installed().vehicle("yard-cart")).settings());
        assertTrue(lines.stream().anyMatch(line -> line.startsWith("negative-welded ") && line.endsWith("not fitted")));
        assertTrue(lines.contains("  negative-welded        needs negative_aux_closed"), String.join("\n", lines));
    }

    private static void current(String page, String expected) throws IOException {
        Path file = DOCS.resolve(page);
        if (Boolean.getBoolean("docs.update")) {
            Files.writeString(file, expected);
        }
        String actual = Files.exists(file) ? Files.readString(file) : "";
        assertEquals(expected, actual, file + " is stale; if the change is meant: mvn test -Ddocs.update=true");
    }
}
