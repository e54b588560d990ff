package sprag.bench.loop.measure;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import sprag.bench.cli.InputFile;
import sprag.bench.loop.trace.Channel;
import sprag.bench.loop.trace.Channels;
import sprag.bench.loop.trace.Frame;
import sprag.bench.vehicle.BadInput;

/** Reads {@code trace.csv} again. */
public final class TraceFile {
    private static final long MOST_BYTES = 400L << 20;
    private static final int MOST_ROWS = 70_000;

    private TraceFile() {}

    /** The ticks that a trace holds.
     *
     * @param file a {@code trace.csv}, or the folder that holds one
     * @throws BadInput when it cannot be read, or is no trace
     */
    public static Track read(Path file, Channels channels) throws BadInput {
        Path trace = Files.isDirectory(file) ? file.resolve("trace.csv") : file;
        try {
            InputFile.requireRegular(trace);
            if (Files.size(trace) > MOST_BYTES) {
                throw BadInput.of(trace, 1, "has more than " + MOST_BYTES + " bytes", "Give the trace of one run.");
            }
            try (CsvReader<CsvRecord> reader = CsvReader.builder().ofCsvRecord(trace)) {
                return track(reader.iterator(), channels);
            }
        } catch (IllegalArgumentException | CsvParseException e) {
            throw BadInput.of(
                    trace, 1, "is no trace: " + e.getMessage(), "Give a trace.csv as \"sprag run\" writes it.");
        } catch (InputFile.Refused e) {
            throw BadInput.of(trace, 1, e.getMessage(), e.remedy());
        } catch (IOException | UncheckedIOException e) {
            throw BadInput.of(trace, 1, "cannot be read", "Give a trace.csv as \"sprag run\" writes it.");
        }
    }

    private static Track track(Iterator<CsvRecord> rows, Channels channels) {
        List<String> heading = rows.hasNext() ? rows.next().getFields() : List.of();
        int[] place = new int[channels.all().size()];
        for (int i = 0; i < place.length; i++) {
            Channel channel = channels.all().get(i);
            place[i] = heading.indexOf(channel.column());
        }
        int time = heading.indexOf("time_s");
        int state = heading.indexOf("state");
        if (time < 0 || state < 0 || Arrays.stream(place).allMatch(p -> p < 0)) {
            throw new IllegalArgumentException(
                    "its first line is not the heading of a trace, which begins time_s,state");
        }
        Track track = new Track(channels);
        Frame frame = channels.newFrame();
        while (rows.hasNext() && track.size() < MOST_ROWS) {
            CsvRecord row = rows.next();
            if (row.getFieldCount() != heading.size()) {
                throw wrong(row, row.getFieldCount() + " cells stand under " + heading.size() + " headings");
            }
            frame.timeMs = Math.round(number(row, time) * 1000);
            frame.state = channels.states().indexOf(row.getField(state));
            for (int i = 0; i < place.length; i++) {
                frame.value[i] = place[i] < 0 ? Double.NaN : number(row, place[i]);
            }
            acting(row, heading.indexOf("interlocks"), channels, frame);
            if (frame.state < 0) {
                throw wrong(row, "\"" + row.getField(state) + "\" is no state");
            }
            track.add(frame);
        }
        return track;
    }

    private static void acting(CsvRecord row, int cell, Channels channels, Frame frame) {
        List<String> names = cell < 0 ? List.of() : List.of(row.getField(cell).split(" "));
        for (int i = 0; i < frame.acting.length; i++) {
            frame.acting[i] = names.contains(channels.interlocks().get(i));
        }
    }

    private static double number(CsvRecord row, int cell) {
        String text = row.getField(cell);
        try {
            return text.isEmpty() ? Double.NaN : Double.parseDouble(text);
        } catch (NumberFormatException e) {
            throw wrong(row, "\"" + text.substring(0, Math.min(40, text.length())) + "\" is no number");
        }
    }

    private static IllegalArgumentException wrong(CsvRecord row, String what) {
        return new IllegalArgumentException("line " + row.getStartingLineNumber() + ": " + what);
    }
}
