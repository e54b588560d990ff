package sprag.bench.vehicle;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A name that is none: it is told as a name, not as a file with a line, and what there is instead. */
class CatalogueTest {
    @TempDir
    Path home;

    private Catalogue catalogue;

    @BeforeEach
    void twoVehiclesAndAScenario() throws Exception {
        for (String name : List.of("delivery-van", "tractor")) {
            Path folder =
                    Files.createDirectories(home.resolve("config/vehicles").resolve(name));
            Files.writeString(folder.resolve(Catalogue.VEHICLE_FILE), "");
        }
        Files.createDirectories(home.resolve("config/scenarios"));
        Files.writeString(home.resolve("config/scenarios/drive.toml"), "");
        catalogue = new Catalogue(home);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
        nosuch   | nosuch is neither the name of a shipped vehicle nor a folder that holds vehicle.toml. The shipped vehicles are: delivery-van, tractor.
        tracter  | tracter is neither the name of a shipped vehicle nor a folder that holds vehicle.toml. Did you mean tractor? The shipped vehicles are: delivery-van, tractor.
        """)
    void vehicle_ofNoName_isToldWithTheNamesThereAre(String asked, String told) {
        assertEquals(
                told,
                assertThrows(BadInput.class, () -> catalogue.vehicle(asked)).getMessage());
    }

    @Test
    void vehicle_withoutAnyShipped_saysWhereTheyWouldBe() {
        BadInput bad = assertThrows(BadInput.class, () -> new Catalogue(home.resolve("elsewhere")).vehicle("tractor"));
        assertTrue(
                bad.getMessage().endsWith("There is none in " + home.resolve("elsewhere/config") + "."),
                bad.getMessage());
    }

    @Test
    void scenario_ofNoName_isToldWithWhereTheListIs() {
        assertEquals(
                "driv is neither the name of a shipped scenario nor a scenario file. Did you mean drive?"
                        + " The shipped scenarios stand in docs/scenario-reference.md.",
                assertThrows(BadInput.class, () -> catalogue.scenario("driv")).getMessage());
    }

    @Test
    void vehicle_byPath_isFoundByFolderAndByFile() throws Exception {
        Path folder = home.resolve("config/vehicles/tractor");
        assertEquals(folder, catalogue.vehicle(folder.toString()));
        assertEquals(folder, catalogue.vehicle(folder.resolve("vehicle.toml").toString()));
    }
}
