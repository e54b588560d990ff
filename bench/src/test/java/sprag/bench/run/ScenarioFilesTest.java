package sprag.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** Which scenarios suit a vehicle that nobody wrote them for. */
class ScenarioFilesTest {
    @TempDir
    private Path folder;

    /** A cart whose heater is wired, but whose simulated car has none. */
    private Vehicle cartWithHeaterSignals() throws Exception {
        Path shipped = Catalogue.installed().vehicle("yard-cart").resolve("vehicle.toml");
        String text = Files.readString(shipped)
                .replace(
                        "\"motor_temp_v\"]",
                        "\"motor_temp_v\", \"heater_request\", \"heater_airflow\", \"heater_temp_v\"]");
        assertTrue(text.contains("heater_airflow"), "the shipped file reads otherwise now");
        Files.writeString(folder.resolve("vehicle.toml"), text);
        return VehicleReader.read(folder);
    }

    @Test
    void everyScenario_faultOfAPartThatIsMissing_doesNotSuit() throws Exception {
        List<String> names = new ScenarioFiles(Catalogue.installed(), cartWithHeaterSignals())
                .take(List.of()).stream().map(Scenario::name).toList();
        assertFalse(names.contains("heater-without-air"), "there is no blower that could die");
        assertTrue(names.contains("drive-and-stop"));
    }

    @Test
    void namedScenario_faultOfAPartThatIsMissing_isRefusedInOneGoodSentence() throws Exception {
        ScenarioFiles shelf = new ScenarioFiles(Catalogue.installed(), cartWithHeaterSignals());
        BadInput bad = assertThrows(BadInput.class, () -> shelf.take(List.of("heater-without-air")));
        String message = bad.problems().get(0).message();
        assertEquals(1, bad.problems().size());
        assertTrue(message.contains("\"blower.dead\" is no fault of"), message);
        assertFalse(message.contains("..") || message.contains("?."), message);
    }
}
