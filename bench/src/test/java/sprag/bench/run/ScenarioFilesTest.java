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
import sprag.supervisor.vocabulary.Parameter;

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

    /** The cart has two levels; a third counted as none without a word. */
    @Test
    void regenLevelAboveTheVehiclesLast_isRefusedWithRange_theLastIsTaken() throws Exception {
        Catalogue catalogue = Catalogue.installed();
        Vehicle cart = VehicleReader.read(catalogue.vehicle("yard-cart"));
        int levels = (int) cart.get(Parameter.REGEN_LEVELS);
        String text = "[about]\ntitle = \"t\"\nwhy = \"w\"\nduration_s = 2\n[start]\nregen_level = %d\n"
                + "[[expect]]\ntext = \"off\"\nstate = \"OFF\"\nat_s = 1\n";
        Path file = folder.resolve("level.toml");
        Files.writeString(file, text.formatted(levels));
        assertEquals(
                1,
                new ScenarioFiles(catalogue, cart)
                        .take(List.of(file.toString()))
                        .size());
        Files.writeString(file, text.formatted(levels + 1));
        BadInput bad =
                assertThrows(BadInput.class, () -> new ScenarioFiles(catalogue, cart).take(List.of(file.toString())));
        assertTrue(bad.getMessage().contains("regen_level = 3 is outside 0..2 of this vehicle"), bad.getMessage());
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
