package sprag.bench.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.TypingTest;
import sprag.bench.cli.ExitCode;

class TripCommandTest extends TypingTest {
    @TempDir
    Path folder;

    private String trace(String rows) throws IOException {
        return Files.writeString(folder.resolve("hop.csv"), "time_s,speed_kph\n" + rows)
                .toString();
    }

    @Test
    void trip_kept_writesAPageAndEndsWell() throws IOException {
        String hop = trace("0,0\n20,40\n40,40\n55,0\n60,0\n");
        assertEquals(ExitCode.WELL, sprag("trip", "parcel-van", hop, "--out", folder.toString()), err::toString);
        assertTrue(
                out.toString().lines().filter(line -> !line.startsWith("Page")).allMatch(l -> l.length() <= 80),
                out::toString);
        String page = Files.readString(folder.resolve("trip.html"));
        assertTrue(page.contains("The trace was kept.") && page.contains("<svg"));
    }

    @Test
    void trip_json_holdsEveryFigure() throws IOException {
        String hop = trace("0,0\n20,40\n40,40\n55,0\n60,0\n");
        assertEquals(ExitCode.WELL, sprag("trip", "parcel-van", hop, "--json"));
        var read = new ObjectMapper().readTree(out.toString());
        List<String> missing = new ArrayList<>();
        TripJson.NAMES.forEach(name -> {
            if (!read.path(name).isNumber()) {
                missing.add(name);
            }
        });
        assertEquals(List.of(), missing);
    }

    private double figure(String part, String... more) throws IOException {
        out.getBuffer().setLength(0);
        String hop = trace("0,0\n20,40\n60,40\n75,0\n80,0\n");
        List<String> args = new ArrayList<>(List.of("trip", "parcel-van", hop, "--json"));
        args.addAll(List.of(more));
        assertEquals(ExitCode.WELL, sprag(args.toArray(String[]::new)), err::toString);
        var read = new ObjectMapper().readTree(out.toString());
        return read.path("energy_wh").path(part).asDouble();
    }

    /** 290 kg on 1450 kg are a fifth more weight. Air of -10 degrees is 293/263 times as dense as air of 20. */
    @Test
    void trip_loadOrCold_takesWhatArithmeticSays() throws IOException {
        assertEquals(1.2, figure("rolling", "--load", "290") / figure("rolling"), 0.005);
        assertEquals(293.15 / 263.15, figure("air", "--cold", "-10") / figure("air"), 0.01);
    }

    @Test
    void trip_tooFast_isAFinding() throws IOException {
        String fast = trace("0,0\n3,80\n20,80\n");
        assertEquals(ExitCode.FINDING, sprag("trip", "parcel-van", fast, "--json"));
        assertTrue(out.toString().contains("The trace was not kept"));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "parcel-van                                         | a trace is missing; the shipped ones are: commute",
                "parcel-van uds                                     | Did you mean udds?",
                "parcel-van udds --soc 1.1                          | --soc 1.1 is outside 0..1",
                "parcel-van udds --soc NaN                          | --soc unknown is outside 0..1",
                "parcel-van udds --cold -41                         | --cold -41 is outside -40..60",
                "parcel-van udds --regen 4                          | --regen 4 is outside 0..3",
                "parcel-van udds --load -1450                       | --load",
                "yard-cart udds --heater                            | yard-cart has no heater",
                "parcel-van udds --standing                         | one thing at a time",
                "parcel-van udds --find pack.cels 1..2 range_km=1   | Did you mean pack.cells",
                "parcel-van udds --find pack.cells 30..40 pack.cells 30..40 range_km=1 | stands there twice",
                "parcel-van udds --find pack.cells 30..40 drive.mass_kg range_km=1 | --find takes KEY A..B",
                "parcel-van udds --find pack.cells 9 range_km=1     | is no range within",
                "parcel-van udds --find pack.cells 40..30 range_km=1 | the lower number first",
                "parcel-van udds --find pack.cells 30..40 range=1   | is no aim",
                "parcel-van udds --find pack.cells 30..40 range_km=x | is no aim",
                "parcel-van udds --find pack.chemistry 0..1 range_km=1 | only a key with a number",
                "parcel-van udds --find car.lv.start_share 0.5..1 range_km=1 | the 12 V battery of a trip always sets out full",
                "parcel-van udds --find car.cells.start_share 0.5..1 range_km=1 | as charged as --soc says",
                "parcel-van udds --find car.day.ambient_c 0..20 range_km=1 | as warm as --cold says",
                "parcel-van udds --find drive.mass_kg NaN..9 range_km=1 | is no range within",
            })
    void wrongUsage_isRefusedBeforeAnythingIsDriven(String args, String message) {
        List<String> all = new ArrayList<>(List.of("trip"));
        all.addAll(List.of(args.strip().split(" +")));
        assertEquals(ExitCode.USAGE, sprag(all.toArray(String[]::new)), out::toString);
        assertTrue(err.toString().replaceAll("\\s+", " ").contains(message), err::toString);
    }
}
