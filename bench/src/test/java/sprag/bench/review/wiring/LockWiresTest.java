package sprag.bench.review.wiring;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.review.report.Checker;
import sprag.bench.review.wiring.schedule.ScheduleFiles;
import sprag.bench.vehicle.VehicleReader;

/** The lock of the coupe's inlet: each of its wires is needed. */
class LockWiresTest {
    private static final Path COUPE = Path.of("../config/vehicles/coupe");

    @TempDir
    Path folder;

    @ParameterizedTest(name = "without {0}: {1}")
    @CsvSource({"S028, needed-signal-without-wire", "S029, signal-without-wire"})
    void wireOfTheLock_missing_isFound(String wire, String finding) throws Exception {
        for (String file : List.of("vehicle.toml", "parts.csv", "wiring.csv")) {
            List<String> lines = Files.readAllLines(COUPE.resolve(file)).stream()
                    .filter(line -> !line.startsWith(wire + ","))
                    .toList();
            Files.write(folder.resolve(file), lines);
        }
        assertEquals(1, found(folder).stream().filter(finding::equals).count());
        assertEquals(0, found(COUPE).stream().filter(finding::equals).count());
    }

    private static List<String> found(Path vehicle) throws Exception {
        return WiringCheck.findings(
                        ScheduleFiles.read(vehicle).orElseThrow(), Checker.limits(VehicleReader.read(vehicle)))
                .stream()
                .map(f -> f.id())
                .toList();
    }
}
