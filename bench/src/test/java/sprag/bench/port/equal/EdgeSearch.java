package sprag.bench.port.equal;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import sprag.bench.port.tool.Tool;
import sprag.bench.port.translate.StateCell;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/**
 * Looks for ticks in which a comparison meets two equal numbers and what it makes of them shows. The search is in C, see {@code edge.c};
 * what it finds is decided again by the Java.
 */
final class EdgeSearch {
    private static final String NAME = "edge";

    private EdgeSearch() {}

    /**
     * What became of one comparison.
     *
     * @param edge which one
     * @param less how often its first number was the smaller one in the ticks that were begun with
     * @param equal how often both were equal there
     * @param more how often the first number was the larger one there
     * @param reached in how many of these ticks it was met
     * @param unseen how often both were made equal without any difference by what is made of it
     * @param kept ticks in which both are equal and which come out otherwise when that is taken the other way
     * @param beside ticks in which both are as near to each other as they can be, and in which the comparison matters
     */
    record Row(Edges.Edge edge, long less, long equal, long more, long reached, long unseen, long kept, long beside) {
        boolean isShown() {
            return kept > 0;
        }

        boolean isMet() {
            return isShown() || unseen > 0 || equal > 0;
        }
    }

    /** What all vehicles together have reached. */
    static final class Coverage {
        /** In so many vehicles a comparison is to show what it makes of equal numbers. */
        private static final int VEHICLES = 3;

        private final Map<Edges.Edge, List<Row>> rows = new LinkedHashMap<>();
        private int vehicles;

        void add(List<Row> found) {
            vehicles++;
            found.forEach(row ->
                    rows.computeIfAbsent(row.edge(), e -> new ArrayList<>()).add(row));
        }

        int vehicles() {
            return vehicles;
        }

        /** The comparisons that need no more ticks. */
        Set<Edges.Edge> enough() {
            return rows.keySet().stream()
                    .filter(edge -> count(edge, Row::isShown) >= VEHICLES)
                    .collect(Collectors.toSet());
        }

        private long count(Edges.Edge edge, Predicate<Row> what) {
            return rows.get(edge).stream().filter(what).count();
        }

        /** The comparisons for which something is true in some vehicle. */
        List<Edges.Edge> those(Predicate<Row> what) {
            return rows.keySet().stream().filter(edge -> count(edge, what) > 0).toList();
        }

        /** In words: how many were met, and those that never were or never showed. */
        String words() {
            List<Edges.Edge> shown = those(Row::isShown);
            List<Edges.Edge> met = those(Row::isMet);
            List<Edges.Edge> reached = those(row -> row.reached() > 0);
            StringBuilder words = new StringBuilder(rows.size() + " comparisons by size; reached "
                    + reached.size() + ", with equal numbers at first "
                    + those(row -> row.equal() > 0).size() + ", after the search " + met.size() + ", where it shows "
                    + shown.size() + "; just beside the limit, where it shows "
                    + those(row -> row.beside() > 0).size() + "; the others:\n");
            for (Edges.Edge edge : rows.keySet()) {
                if (!shown.contains(edge)) {
                    words.append(
                            met.contains(edge)
                                    ? "never shows: "
                                    : reached.contains(edge) ? "never equal: " : "never reached: ");
                    words.append(edge.file()).append(", ").append(edge.words()).append('\n');
                }
            }
            return words.toString();
        }
    }

    /** What was found for a vehicle. */
    record Found(List<Row> rows, List<Cases> cases) {}

    /** Searches.
     *
     * @param twin of the vehicle
     * @param tape ticks in a row to begin with
     * @param begun single ticks to begin with
     * @param enough comparisons that need no more ticks
     * @param folder where to compile
     */
    static Found search(Twin twin, List<Batch> tape, List<Cases> begun, Set<Edges.Edge> enough, Path folder)
            throws IOException {
        Edges.Told told = Edges.in(twin.files());
        compile(told, folder);
        long[] skipped = told.edges().stream()
                .mapToLong(edge -> enough.contains(edge) ? 1 : 0)
                .toArray();
        ByteBuffer starts = starts(twin, begun, skipped);
        try (OutputStream to = Files.newOutputStream(folder.resolve("starts"))) {
            to.write(starts.array());
            to.write(tape(tape).array());
        }
        Path out = folder.resolve("found");
        Process search = new ProcessBuilder(folder.resolve(NAME).toString())
                .redirectInput(folder.resolve("starts").toFile())
                .redirectOutput(out.toFile())
                .redirectError(ProcessBuilder.Redirect.INHERIT)
                .start();
        int status;
        try {
            status = search.waitFor();
        } catch (InterruptedException e) {
            search.destroy();
            throw new IllegalStateException("the search was interrupted", e);
        }
        if (status != 0) {
            throw new IllegalStateException("the search for equal numbers ended with status " + status);
        }
        return read(twin, told.edges(), ByteBuffer.wrap(Files.readAllBytes(out)).order(ByteOrder.LITTLE_ENDIAN));
    }

    private static void compile(Edges.Told told, Path folder) throws IOException {
        Map<String, String> all = new LinkedHashMap<>(told.code());
        all.putAll(HostProgram.program());
        for (String own : List.of("edge.c", "edge.h")) {
            try (var in = EdgeSearch.class.getResourceAsStream("/sprag/bench/port/" + own)) {
                all.put(own, new String(in.readAllBytes(), StandardCharsets.UTF_8));
            }
        }
        Files.createDirectories(folder);
        List<String> words = new ArrayList<>(List.of(
                "-std=c99",
                "-O2",
                "-ffp-contract=off",
                "-fwrapv",
                "-w",
                "-DEDGE_SITES=" + told.edges().size()));
        for (Map.Entry<String, String> file : all.entrySet()) {
            Files.writeString(folder.resolve(file.getKey()), file.getValue());
            if (file.getKey().endsWith(".c") && !file.getKey().equals("twin.c")) {
                words.add(file.getKey());
            }
        }
        words.addAll(List.of("-lm", "-o", NAME));
        Tool.Ended ended = Tool.GCC.run(folder, words);
        if (ended.status() != 0) {
            throw new IllegalStateException("gcc refuses the comparisons that tell:\n" + ended.out());
        }
    }

    /** How many numbers there are, what is skipped, what kinds of cells, the ranges of the signals, and the possible ticks among some. */
    private static ByteBuffer starts(Twin twin, List<Cases> begun, long[] skipped) {
        int memory = twin.cells().size();
        int count = 0;
        for (Cases cases : begun) {
            for (boolean possible : cases.result().possible()) {
                count += possible ? 1 : 0;
            }
        }
        ByteBuffer to = ByteBuffer.allocate(Long.BYTES
                        * (1 + skipped.length + 3 * memory + 2 * Signal.COUNT + count * (memory + Signal.COUNT)))
                .order(ByteOrder.LITTLE_ENDIAN);
        to.putLong(count);
        LongStream.of(skipped).forEach(to::putLong);
        twin.cells().forEach(cell -> to.putLong(kind(cell)));
        Supervisor supervisor = new Supervisor(twin.settings());
        List<Object> holders =
                twin.cells().stream().map(cell -> cell.holder(supervisor)).toList();
        for (int cell = 0; cell < memory; cell++) {
            int first = cell;
            while (first > 0 && holders.get(first - 1) == holders.get(cell)) {
                first--;
            }
            int end = cell;
            while (end < memory && holders.get(end) == holders.get(cell)) {
                end++;
            }
            to.putLong(first).putLong(end);
        }
        for (Signal signal : Signal.values()) {
            to.putDouble(signal.min).putDouble(signal.max);
        }
        for (Cases cases : begun) {
            for (int i = 0; i < cases.count(); i++) {
                if (cases.result().possible()[i]) {
                    for (int cell = 0; cell < memory; cell++) {
                        to.putLong(cases.before()[i * memory + cell]);
                    }
                    for (int signal = 0; signal < Signal.COUNT; signal++) {
                        to.putDouble(cases.readings()[i * Signal.COUNT + signal]);
                    }
                }
            }
        }
        return to;
    }

    private static ByteBuffer tape(List<Batch> tape) {
        int ticks = tape.stream().mapToInt(Batch::ticks).sum();
        ByteBuffer to = ByteBuffer.allocate(Long.BYTES * (1 + ticks * (1 + Signal.COUNT)))
                .order(ByteOrder.LITTLE_ENDIAN);
        to.putLong(ticks);
        for (Batch batch : tape) {
            for (int tick = 0; tick < batch.ticks(); tick++) {
                to.putLong(tick == 0 && batch.fresh() ? 1 : 0);
                for (int signal = 0; signal < Signal.COUNT; signal++) {
                    to.putDouble(batch.readings()[tick * Signal.COUNT + signal]);
                }
            }
        }
        return to;
    }

    private static long kind(StateCell cell) {
        if (cell.isQuantity()) {
            return 0;
        }
        if (cell.type() == boolean.class) {
            return -2;
        }
        return cell.type().isEnum() ? cell.type().getEnumConstants().length : -1;
    }

    private static Found read(Twin twin, List<Edges.Edge> edges, ByteBuffer from) {
        List<Row> rows = new ArrayList<>();
        List<long[]> memories = new ArrayList<>();
        List<double[]> readings = new ArrayList<>();
        for (Edges.Edge edge : edges) {
            Row row = new Row(
                    edge,
                    from.getLong(),
                    from.getLong(),
                    from.getLong(),
                    from.getLong(),
                    from.getLong(),
                    from.getLong(),
                    from.getLong());
            rows.add(row);
            for (int i = 0; i < row.kept() + row.beside(); i++) {
                long[] memory = new long[twin.cells().size()];
                double[] reading = new double[Signal.COUNT];
                for (int cell = 0; cell < memory.length; cell++) {
                    memory[cell] = from.getLong();
                }
                for (int signal = 0; signal < reading.length; signal++) {
                    reading[signal] = from.getDouble();
                }
                memories.add(memory);
                readings.add(reading);
            }
        }
        List<Cases> cases = new ArrayList<>();
        for (int first = 0; first < memories.size(); first += Cases.MOST) {
            int next = Math.min(memories.size(), first + Cases.MOST);
            cases.add(decided(twin, memories.subList(first, next), readings.subList(first, next)));
        }
        return new Found(rows, cases);
    }

    private static Cases decided(Twin twin, List<long[]> memories, List<double[]> readings) {
        int memory = twin.cells().size();
        int count = memories.size();
        Cases cases = new Cases(
                count,
                new long[count * memory],
                new double[count * Signal.COUNT],
                new Cases.Result(
                        new boolean[count],
                        new Batch.Decided(new double[count * Output.COUNT], new long[count]),
                        new long[count * memory]));
        JavaStep step = new JavaStep(twin.settings(), twin.cells());
        for (int i = 0; i < count; i++) {
            System.arraycopy(memories.get(i), 0, cases.before(), i * memory, memory);
            System.arraycopy(readings.get(i), 0, cases.readings(), i * Signal.COUNT, Signal.COUNT);
            cases.result().possible()[i] =
                    step.isPossible(cases.before(), i * memory, cases.readings(), i * Signal.COUNT);
            step.commands().copyTo(cases.result().decided().outputs(), i * Output.COUNT);
            cases.result().decided().states()[i] = step.packed();
            step.memory(cases.result().after(), i * memory);
        }
        return cases;
    }
}
