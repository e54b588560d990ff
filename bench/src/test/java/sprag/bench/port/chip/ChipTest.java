package sprag.bench.port.chip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.port.tool.Tool;
import sprag.bench.port.translate.Translation;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.State;

/** The supervisor on an emulated Cortex-M4F, with the simulated car at the other end of its serial line. */
@Timeout(value = 300, unit = TimeUnit.SECONDS)
class ChipTest {
    private static final Catalogue CATALOGUE = Catalogue.installed();

    @TempDir
    static Path folder;

    private static Vehicle vehicle;
    private static ChipProgram program;

    private Chip chip;
    private ClosedLoop loop;

    @BeforeAll
    static void compile() throws Exception {
        assumeTrue(Tool.ARM_GCC.find().isPresent(), Tool.ARM_GCC.missing());
        assumeTrue(Tool.QEMU.find().isPresent(), Tool.QEMU.missing());
        vehicle = VehicleReader.read(CATALOGUE.vehicle("parcel-van"));
        Translation translation = new Translation(CATALOGUE.home(), false);
        Map<String, String> files = new LinkedHashMap<>(translation.code());
        files.put("vehicle.c", translation.data(vehicle.settings()));
        program = ChipProgram.compile(folder, files);
    }

    @BeforeEach
    void start() {
        chip = Chip.start(program.file());
        loop = new ClosedLoop(vehicle, 1);
        loop.loop().listen(chip.beside(loop.supervisor()));
    }

    @AfterEach
    void stop() {
        chip.close();
    }

    private void run(int ticks) {
        for (int i = 0; i < ticks; i++) {
            loop.tick();
        }
    }

    private LogicState onChip() {
        LogicState state = new LogicState();
        state.unpack(chip.packed());
        return state;
    }

    @Test
    void start_onTheChip_isDecidedAsInJava() throws Exception {
        run(5);
        loop.move("key", 1);
        loop.move("brake", 1);
        run(10);
        loop.move("start", 1);
        run(30);
        assertEquals(State.PRECHARGE, onChip().state());
        Chip.About about = chip.about();
        assertEquals(45, about.ticks());
        assertTrue(about.selfTest(), "the compiler for the chip keeps the arithmetic of Java");
        assertTrue(about.worstInstructions() > 1_000 && about.worstInstructions() < 100_000, about.toString());
    }

    @Test
    void sizes_fitASmallChip() {
        ChipProgram.Sizes sizes = program.sizes();
        assertTrue(sizes.flashBytes() > 30_000 && sizes.flashBytes() < 96_000, sizes.toString());
        assertTrue(sizes.ramBytes() > 1_000 && sizes.ramBytes() < 8_000, sizes.toString());
        assertTrue(sizes.stackBytes() > 100 && sizes.stackBytes() < 1_500, sizes.toString());
    }
}
