package sprag.bench.port.chip;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import sprag.bench.cli.Trouble;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.Rig;
import sprag.bench.port.chip.ChipProgram.Line;
import sprag.bench.port.tool.Tool;
import sprag.bench.port.translate.Translation;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Interlock;

/**
 * Puts an emulated microcontroller in the place of the supervisor in Java, in one closed loop after the other. The Java runs beside it,
 * and both must ask for the same in each tick before the car lives through it: so what moves the car is what the chip has decided.
 */
public final class ChipSeat implements AutoCloseable {
    private final Path folder;
    private final ChipProgram program;

    private ChipSeat(Path folder, ChipProgram program) {
        this.folder = folder;
        this.program = program;
    }

    /** A seat that stays empty: the Java decides alone. */
    public static ChipSeat empty() {
        return new ChipSeat(null, null);
    }

    /** Translates and compiles the supervisor of a vehicle.
     *
     * @param without the interlocks that are taken out
     */
    public static ChipSeat of(Vehicle vehicle, Set<Interlock> without) throws BadInput {
        for (Tool tool : List.of(Tool.ARM_GCC, Tool.QEMU)) {
            if (tool.find().isEmpty()) {
                throw new Trouble(tool.missing());
            }
        }
        Translation translation = new Translation(Catalogue.installed().home(), false);
        Map<String, String> files = new LinkedHashMap<>(translation.code());
        files.put("vehicle.c", translation.data(vehicle.settings(), new Supervisor(vehicle.settings(), without)));
        Path folder = temporary();
        return new ChipSeat(folder, ChipProgram.compile(folder, files));
    }

    private static Path temporary() {
        try {
            return Files.createTempDirectory("sprag-chip");
        } catch (IOException e) {
            throw new Trouble("cannot make a folder for the chip's program: " + e.getMessage());
        }
    }

    /** Lets a chip decide every tick of a loop that has not begun. The first difference from the Java is Trouble.
     *
     * @return to be closed after the last tick
     */
    public Running beside(Rig rig) {
        if (program == null) {
            return () -> {};
        }
        if (!(rig instanceof ClosedLoop loop)) {
            throw new Trouble("relays switch this vehicle: it has no supervisor that a chip could replace");
        }
        Chip chip = Chip.start(program.file(Line.HOST), Line.HOST);
        loop.loop().listen(chip.beside(loop.supervisor()));
        return chip::close;
    }

    /** A chip that decides. */
    public interface Running extends AutoCloseable {
        @Override
        void close();
    }

    @Override
    public void close() {
        if (folder == null) {
            return;
        }
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(path);
            }
        } catch (IOException e) {
            throw new Trouble("cannot remove", folder, e);
        }
    }
}
