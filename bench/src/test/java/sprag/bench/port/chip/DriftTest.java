package sprag.bench.port.chip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.port.chip.ChipProgram.Line;
import sprag.bench.port.tool.Tool;
import sprag.bench.port.translate.SharedTranslation;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.State;

/** A chip that truly decides differently: its vehicle waits longer than the one in Java. */
@Timeout(value = 300, unit = TimeUnit.SECONDS)
class DriftTest {
    @Test
    void chipThatDecidesOtherwise_isCountedFromItsFirstTick(@TempDir Path folder) throws Exception {
        assumeTrue(Tool.ARM_GCC.find().isPresent(), Tool.ARM_GCC.missing());
        assumeTrue(Tool.QEMU.find().isPresent(), Tool.QEMU.missing());
        Vehicle van = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
        Vehicle slower = van.with(Parameter.CONTACTOR_WELD_TEST_MS, 2 * van.get(Parameter.CONTACTOR_WELD_TEST_MS));
        Map<String, String> files =
                new LinkedHashMap<>(SharedTranslation.single().code());
        files.put("vehicle.c", SharedTranslation.single().data(slower.settings()));
        try (Chip chip = Chip.start(ChipProgram.compile(folder, files).file(Line.HOST), Line.HOST)) {
            ClosedLoop loop = new ClosedLoop(van, 1);
            Drift drift = new Drift(chip, loop.supervisor());
            loop.loop().listen(drift);
            run(loop, 5);
            loop.move("key", 1);
            loop.move("brake", 1);
            run(loop, 10);
            loop.move("start", 1);
            run(loop, 5);
            assertEquals(0, drift.otherwise(), "both have begun the weld test");
            assertTrue(drift.lines().get(0).startsWith("20 ticks; in 0 of them"), drift.lines()::toString);
            while (drift.otherwise() == 0) {
                run(loop, 1);
            }
            assertEquals(loop.state(), State.PRECHARGE);
            assertTrue(
                    drift.lines().get(0).contains("in 1 of them the chip decides differently, first in tick "),
                    drift.lines()::toString);
            run(loop, 1);
            assertEquals(2, drift.otherwise(), "the chip is still in its test");
        }
    }

    private static void run(ClosedLoop loop, int ticks) {
        for (int i = 0; i < ticks; i++) {
            loop.tick();
        }
    }
}
