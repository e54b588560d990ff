package sprag.bench.review.sizing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static sprag.bench.vehicle.SizingParameter.CABLE_MAIN_MM2;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

class CalculationTest {
    @TempDir
    Path folder;

    private Calculation twice(String without) throws Exception {
        String text =
                Files.readString(Catalogue.installed().vehicle("yard-cart").resolve("vehicle.toml"));
        Files.writeString(folder.resolve("vehicle.toml"), text.replaceAll("(?m)^" + without + " *=.*$", ""));
        Vehicle vehicle = VehicleReader.read(folder);
        Calculation calculation = new Calculation(vehicle, "id", "the title");
        calculation.in(CABLE_MAIN_MM2);
        calculation.in(CABLE_MAIN_MM2);
        return calculation.gives(1, "V").atMost("a limit", 2);
    }

    @Test
    void inputUsedTwice_isListedOnce() throws Exception {
        assertEquals(1, twice("nothing").inputs().size());
    }

    @Test
    void inputUsedTwiceAndNotGiven_isMissedOnce() throws Exception {
        assertEquals("design.cable.main_mm2 is not given", twice("main_mm2").lacks());
    }
}
