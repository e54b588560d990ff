package sprag.bench.fuzz;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import sprag.bench.bus.BusReader;
import sprag.bench.bus.DatabaseImport;
import sprag.bench.hand.board.BoardReader;
import sprag.bench.loop.FrameColumns;
import sprag.bench.loop.record.Recording;
import sprag.bench.review.wiring.schedule.ScheduleReader;
import sprag.bench.scenario.ScenarioReader;
import sprag.bench.trip.TraceFile;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Readings;

/** Everything that reads bytes from outside. One row each: whatever the bytes are, it reads them or refuses them as bad input. */
public enum FuzzTarget {
    /** The file of a vehicle. */
    VEHICLE("vehicle.toml", file -> VehicleReader.read(file.getParent())),
    /** The wires of a schedule. */
    SCHEDULE("wiring.csv", file -> ScheduleReader.read(Files.readAllBytes(file), null)),
    /** The parts of a schedule. */
    PARTS("parts.csv", file -> ScheduleReader.read(new byte[0], Files.readAllBytes(file))),
    /** A scenario. */
    SCENARIO("scenario.toml", file -> ScenarioReader.read(file, FrameColumns.VOCABULARY, Van.VEHICLE)),
    /** A speed trace to drive. */
    TRACE("trace.csv", TraceFile::read),
    /** A recorded track to drive. */
    TRACK("track.gpx", TraceFile::read),
    /** A recording of a run. */
    RECORDING("run.srec", FuzzTarget::replay),
    /** The description of an I/O board. */
    BOARD("board.toml", BoardReader::read),
    /** The messages of a data bus. */
    BUS("bus.toml", BusReader::read),
    /** A database of messages from elsewhere. */
    DATABASE(
            "messages.dbc",
            file -> DatabaseImport.of(
                    new String(Files.readAllBytes(file), StandardCharsets.UTF_8)
                            .lines()
                            .toList(),
                    500));

    /** What such a file is called. */
    final String fileName;

    private final Reader reader;

    /** Reads a file to its end. */
    private interface Reader {
        void read(Path file) throws BadInput, IOException;
    }

    /** The vehicle that scenarios speak of. */
    private static final class Van {
        static final Vehicle VEHICLE = read();

        private static Vehicle read() {
            try {
                return VehicleReader.read(Path.of("../config/vehicles/parcel-van"));
            } catch (BadInput e) {
                throw new IllegalStateException(e);
            }
        }
    }

    FuzzTarget(String fileName, Reader reader) {
        this.fileName = fileName;
        this.reader = reader;
    }

    private static void replay(Path file) throws IOException {
        Readings readings = new Readings();
        Commands commands = new Commands();
        try (Recording recording = new Recording(file)) {
            while (recording.next(readings, commands)) {
                recording.tick();
            }
        } catch (IllegalArgumentException e) {
            throw new IOException(e.getMessage(), e); // the command takes it for a refusal, too
        }
    }

    /** The folder of the inputs that are kept for it. */
    String corpus() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** Gives it some bytes. Whatever comes out of here is a defect.
     *
     * @param folder where the file is put
     */
    void take(Path folder, byte[] bytes) throws IOException {
        Path file = folder.resolve(fileName);
        Files.write(file, bytes);
        try {
            reader.read(file);
        } catch (BadInput | IOException e) {
            if (e.getMessage() == null || e.getMessage().isBlank()) {
                throw new AssertionError("it is refused without a word", e);
            }
        }
    }
}
