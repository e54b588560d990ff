package sprag.bench.port.equal;

import java.io.BufferedOutputStream;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import sprag.bench.cli.Trouble;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** Writes vectors as CSV and as bytes. docs/porting.md describes both. */
public final class VectorFiles {
    /** Ticks of scenarios. */
    public static final String TICKS = "ticks";
    /** Branches of Logic. */
    public static final String LOGIC = "logic";
    /** What is remembered when power comes back. */
    public static final String WAKE = "wake";

    private static final byte[] MAGIC = "SPRGVEC1".getBytes(StandardCharsets.US_ASCII);

    private VectorFiles() {}

    /** Writes all six files. */
    public static void write(Vectors vectors, Path folder) {
        try {
            ticksCsv(vectors, folder.resolve(TICKS + ".csv"));
            ticksBytes(vectors, folder.resolve(TICKS + ".bin"));
            logicCsv(vectors, folder.resolve(LOGIC + ".csv"));
            logicBytes(vectors, folder.resolve(LOGIC + ".bin"));
            wakes(vectors.wakes(), folder);
        } catch (IOException e) {
            throw new Trouble("cannot write the vectors in", folder, e);
        }
    }

    private static void ticksCsv(Vectors vectors, Path file) throws IOException {
        Stream<String> inputs = Stream.of(Signal.values()).map(Signal::key);
        Stream<String> outputs = Stream.of(Output.values()).map(output -> "expected_" + output.key());
        try (BufferedWriter to = Files.newBufferedWriter(file)) {
            to.write("scenario,tick,"
                    + Stream.concat(inputs, outputs).collect(Collectors.joining(","))
                    + ",expected_packed_state\n");
            for (Vectors.Sequence sequence : vectors.sequences()) {
                for (int tick = 0; tick < sequence.ticks(); tick++) {
                    StringBuilder row =
                            new StringBuilder(sequence.name()).append(',').append(tick);
                    append(row, sequence.readings(), tick * Signal.COUNT, Signal.COUNT);
                    append(row, sequence.outputs(), tick * Output.COUNT, Output.COUNT);
                    to.write(row.append(',')
                            .append(sequence.states()[tick])
                            .append('\n')
                            .toString());
                }
            }
        }
    }

    private static void append(StringBuilder row, double[] numbers, int from, int count) {
        for (int i = from; i < from + count; i++) {
            row.append(',').append(numbers[i]);
        }
    }

    private static ByteBuffer bytes(int count) {
        return ByteBuffer.allocate(count).order(ByteOrder.LITTLE_ENDIAN);
    }

    private static void ticksBytes(Vectors vectors, Path file) throws IOException {
        try (OutputStream to = new BufferedOutputStream(Files.newOutputStream(file))) {
            to.write(bytes(20)
                    .put(MAGIC)
                    .putInt(vectors.sequences().size())
                    .putInt(Signal.COUNT)
                    .putInt(Output.COUNT)
                    .array());
            for (Vectors.Sequence sequence : vectors.sequences()) {
                to.write(bytes(4).putInt(sequence.ticks()).array());
                for (int tick = 0; tick < sequence.ticks(); tick++) {
                    ByteBuffer row = bytes((Signal.COUNT + Output.COUNT + 1) * Double.BYTES);
                    put(row, sequence.readings(), tick * Signal.COUNT, Signal.COUNT);
                    put(row, sequence.outputs(), tick * Output.COUNT, Output.COUNT);
                    to.write(row.putLong(sequence.states()[tick]).array());
                }
            }
        }
    }

    private static void put(ByteBuffer row, double[] numbers, int from, int count) {
        for (int i = from; i < from + count; i++) {
            row.putDouble(numbers[i]);
        }
    }

    /** Reads the ticks back, as another port does.
     *
     * @param file with the bytes
     * @return the sequences, without their names
     */
    public static List<Vectors.Sequence> read(Path file) throws IOException {
        ByteBuffer from = ByteBuffer.wrap(Files.readAllBytes(file)).order(ByteOrder.LITTLE_ENDIAN);
        byte[] magic = new byte[MAGIC.length];
        from.get(magic);
        int count = from.getInt();
        if (!Arrays.equals(magic, MAGIC) || from.getInt() != Signal.COUNT || from.getInt() != Output.COUNT) {
            throw new IOException(file + " does not hold vectors of this version");
        }
        List<Vectors.Sequence> sequences = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            sequences.add(sequence(from));
        }
        return sequences;
    }

    private static Vectors.Sequence sequence(ByteBuffer from) {
        int ticks = from.getInt();
        double[] readings = new double[ticks * Signal.COUNT];
        double[] outputs = new double[ticks * Output.COUNT];
        long[] states = new long[ticks];
        for (int tick = 0; tick < ticks; tick++) {
            for (int i = 0; i < Signal.COUNT; i++) {
                readings[tick * Signal.COUNT + i] = from.getDouble();
            }
            for (int i = 0; i < Output.COUNT; i++) {
                outputs[tick * Output.COUNT + i] = from.getDouble();
            }
            states[tick] = from.getLong();
        }
        return new Vectors.Sequence("", ticks, readings, outputs, states);
    }

    private static void logicCsv(Vectors vectors, Path file) throws IOException {
        try (BufferedWriter to = Files.newBufferedWriter(file)) {
            to.write("packed_state,"
                    + Stream.of(Fact.values())
                            .map(fact -> fact.name().toLowerCase(Locale.ROOT))
                            .collect(Collectors.joining(","))
                    + ",expected_packed_state,expected_permissions\n");
            for (LogicWalk.Row row : vectors.logic()) {
                StringBuilder text = new StringBuilder().append(row.before());
                for (byte fact : row.facts()) {
                    text.append(',').append(fact);
                }
                to.write(text.append(',')
                        .append(row.after())
                        .append(',')
                        .append(row.permitted())
                        .append('\n')
                        .toString());
            }
        }
    }

    private static void logicBytes(Vectors vectors, Path file) throws IOException {
        try (OutputStream to = new BufferedOutputStream(Files.newOutputStream(file))) {
            to.write(bytes(16)
                    .put(MAGIC)
                    .putInt(vectors.logic().size())
                    .putInt(Fact.COUNT)
                    .array());
            for (LogicWalk.Row row : vectors.logic()) {
                to.write(bytes(3 * Long.BYTES + Fact.COUNT)
                        .putLong(row.before())
                        .put(row.facts())
                        .putLong(row.after())
                        .putLong(row.permitted())
                        .array());
            }
        }
    }

    private static void wakes(Wakes wakes, Path folder) throws IOException {
        int count = wakes.remembered().length;
        StringBuilder text = new StringBuilder("remembered,expected_packed_state\n");
        ByteBuffer bytes = bytes(12 + count * 2 * Long.BYTES).put(MAGIC).putInt(count);
        for (int i = 0; i < count; i++) {
            text.append(wakes.remembered()[i])
                    .append(',')
                    .append(wakes.states()[i])
                    .append('\n');
            bytes.putLong(wakes.remembered()[i]).putLong(wakes.states()[i]);
        }
        Files.writeString(folder.resolve(WAKE + ".csv"), text);
        Files.write(folder.resolve(WAKE + ".bin"), bytes.array());
    }
}
