package sprag.bench.trip;

import java.nio.file.Path;
import sprag.bench.trip.trace.TraceReader;
import sprag.bench.vehicle.BadInput;

/** Reads a speed trace or a recorded track to its end, for tests elsewhere. */
public final class TraceFile {
    private TraceFile() {}

    public static void read(Path file) throws BadInput {
        TraceReader.read(file);
    }
}
