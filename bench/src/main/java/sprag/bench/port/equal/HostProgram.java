package sprag.bench.port.equal;

import java.io.DataInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.Trouble;
import sprag.bench.port.tool.CompilerWords;
import sprag.bench.port.tool.Tool;
import sprag.bench.port.translate.Translation;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** The supervisor in C as a program on this machine, asked over its standard input. */
public final class HostProgram implements AutoCloseable {
    /** For sources that went through {@link #compile} before, with all warnings. */
    private static final List<String> OPTIONS = Stream.concat(
                    Stream.of("-std=c99", "-O2"), CompilerWords.AS_JAVA.stream())
            .toList();

    private static final String NAME = "twin";

    private final Process process;
    private final OutputStream to;
    private final DataInputStream from;

    private HostProgram(Process process) {
        this.process = process;
        this.to = process.getOutputStream();
        this.from = new DataInputStream(process.getInputStream());
    }

    /** Writes the sources of a vehicle's supervisor with the program around it, and compiles each into an object file.
     *
     * @param folder where to
     * @param files the sources by name
     * @param before what is compiled already, perhaps of another vehicle
     */
    static void compile(Path folder, Map<String, String> files, Compiled before) {
        OutFolder.make(folder);
        Map<String, String> all = new LinkedHashMap<>(files);
        all.putAll(program());
        all.forEach((name, text) -> OutFolder.write(folder.resolve(name), text));
        List<String> words =
                new ArrayList<>(OPTIONS); // with the level of optimisation at which most warnings are found
        words.addAll(CompilerWords.STRICT);
        words.add("-c");
        for (String file : all.keySet()) {
            if (before.fits(file, all)) {
                before.write(file, folder);
            } else if (file.endsWith(".c")) {
                words.add(file);
            }
        }
        if (words.get(words.size() - 1).endsWith(".c")) {
            must(folder, words);
        }
        link(folder, files.keySet());
    }

    /** Compiles one file again that was changed.
     *
     * @param folder where {@link #compile} has written
     * @param file which one
     */
    static void compileAgain(Path folder, String file) {
        List<String> words = new ArrayList<>(OPTIONS);
        words.addAll(List.of("-w", "-c", file));
        must(folder, words);
    }

    /** Compiles one file again so that the branches taken in it are counted.
     *
     * @param folder where {@link #compile} has written
     * @param file which one
     * @param files all of them
     */
    static void count(Path folder, String file, Map<String, String> files) {
        List<String> words = new ArrayList<>(OPTIONS);
        words.addAll(List.of("-O0", "--coverage", "-c", file));
        must(folder, words);
        link(folder, files.keySet(), "--coverage");
    }

    /** Makes the program of the object files. */
    static void link(Path folder, Iterable<String> files, String... options) {
        List<String> words = new ArrayList<>(List.of(options));
        for (String file : files) {
            if (file.endsWith(".c")) {
                words.add(Compiled.objectOf(file));
            }
        }
        words.addAll(List.of(NAME + ".o", "-lm", "-o", NAME));
        must(folder, words);
    }

    private static void must(Path folder, List<String> words) {
        Tool.Ended ended = Tool.GCC.run(folder, words);
        if (ended.status() != 0) {
            throw new Trouble("gcc refuses what was translated, in " + folder + ":\n" + ended.out());
        }
    }

    /** Starts the program that was compiled into a folder. */
    public static HostProgram start(Path folder) {
        ProcessBuilder builder = new ProcessBuilder(folder.resolve(NAME).toString());
        return start(builder.redirectError(ProcessBuilder.Redirect.INHERIT));
    }

    /** Starts the program where it is compiled for something else, such as an emulated chip. */
    static HostProgram start(ProcessBuilder builder) {
        try {
            return new HostProgram(builder.start());
        } catch (IOException e) {
            throw new Trouble("cannot start " + String.join(" ", builder.command()) + ": " + e.getMessage());
        }
    }

    /** The program around the translated files. */
    static Map<String, String> program() {
        return Map.of(NAME + ".c", Translation.resource(NAME + ".c"));
    }

    private static ByteBuffer buffer(int bytes) {
        return ByteBuffer.allocate(bytes).order(ByteOrder.LITTLE_ENDIAN);
    }

    private void ask(char what, int count, ByteBuffer with) throws IOException {
        ByteBuffer head = buffer(5 + with.position()).put((byte) what).putInt(count);
        head.put(with.array(), 0, with.position());
        to.write(head.array());
        to.flush();
    }

    private ByteBuffer answer(int bytes) throws IOException {
        ByteBuffer answer = buffer(bytes);
        try {
            from.readFully(answer.array());
        } catch (EOFException e) {
            throw new EOFException("it stopped in the middle of an answer");
        }
        return answer;
    }

    /** Whether the compiler has kept the arithmetic of Java. */
    public boolean selfTest() throws IOException {
        ask('T', 0, buffer(0));
        return answer(Long.BYTES).getLong() == 1;
    }

    /** Decides some ticks.
     *
     * @return what came of them, in the same form
     * @throws EOFException when the program has ended because something impossible happened
     */
    Batch play(Batch batch) throws IOException {
        if (batch.fresh()) {
            begin();
        }
        int numbers = batch.ticks() * Signal.COUNT;
        ByteBuffer readings = buffer(numbers * Double.BYTES);
        for (int i = 0; i < numbers; i++) {
            readings.putDouble(batch.readings()[i]);
        }
        ask('S', batch.ticks(), readings);
        double[] outputs = new double[batch.ticks() * Output.COUNT];
        long[] states = new long[batch.ticks()];
        ByteBuffer ticks = answer(batch.ticks() * (Output.COUNT + 1) * Double.BYTES);
        for (int tick = 0; tick < batch.ticks(); tick++) {
            for (int i = 0; i < Output.COUNT; i++) {
                outputs[tick * Output.COUNT + i] = ticks.getDouble();
            }
            states[tick] = ticks.getLong();
        }
        long[] remembered = new long[batch.remembered().length];
        answer(remembered.length * Long.BYTES).asLongBuffer().get(remembered);
        return new Batch(
                batch.name(),
                batch.fresh(),
                batch.firstTick(),
                batch.ticks(),
                batch.readings(),
                new Batch.Decided(outputs, states),
                remembered);
    }

    /** Decides ticks by themselves, each from a memory that is given. */
    Cases.Result cases(Cases cases) throws IOException {
        ByteBuffer with = buffer((cases.before().length + cases.readings().length) * Long.BYTES);
        for (long number : cases.before()) {
            with.putLong(number);
        }
        for (double reading : cases.readings()) {
            with.putDouble(reading);
        }
        ask('M', cases.count(), with);
        int memory = cases.before().length / cases.count();
        boolean[] possible = new boolean[cases.count()];
        double[] outputs = new double[cases.count() * Output.COUNT];
        long[] states = new long[cases.count()];
        long[] after = new long[cases.before().length];
        ByteBuffer answer = answer(cases.count() * (2 + Output.COUNT + memory) * Long.BYTES);
        for (int i = 0; i < cases.count(); i++) {
            possible[i] = answer.getLong() == 1;
            for (int output = 0; output < Output.COUNT; output++) {
                outputs[i * Output.COUNT + output] = answer.getDouble();
            }
            states[i] = answer.getLong();
            for (int cell = 0; cell < memory; cell++) {
                after[i * memory + cell] = answer.getLong();
            }
        }
        return new Cases.Result(possible, new Batch.Decided(outputs, states), after);
    }

    /** Makes everything as it is in a supervisor that was never asked. */
    void begin() throws IOException {
        ask('R', 0, buffer(0));
    }

    /** Lets the gate alone check orders, from one tick to the next. The first difference from the Java in words; empty for none. */
    String differs(GateOrders orders) throws IOException {
        ByteBuffer with = buffer((orders.readings().length + orders.asked().length) * Double.BYTES);
        for (double reading : orders.readings()) {
            with.putDouble(reading);
        }
        for (double order : orders.asked()) {
            with.putDouble(order);
        }
        ask('G', orders.count(), with);
        double[] left = new double[orders.left().length];
        boolean[] vetoed = new boolean[orders.count()];
        ByteBuffer answer = answer(orders.count() * (Output.COUNT + 1) * Double.BYTES);
        for (int i = 0; i < orders.count(); i++) {
            for (int output = 0; output < Output.COUNT; output++) {
                left[i * Output.COUNT + output] = answer.getDouble();
            }
            vetoed[i] = answer.getLong() == 1;
        }
        return orders.differs(left, vetoed);
    }

    /** Puts everything that is remembered. */
    void remember(long[] memory) throws IOException {
        ByteBuffer with = buffer(memory.length * Long.BYTES);
        for (long number : memory) {
            with.putLong(number);
        }
        ask('F', 1, with);
    }

    /** Wakes up with each of some numbers, and gives the packed state after it. */
    long[] wake(long[] remembered) throws IOException {
        ByteBuffer with = buffer(remembered.length * Long.BYTES);
        for (long number : remembered) {
            with.putLong(number);
        }
        ask('W', remembered.length, with);
        long[] states = new long[remembered.length];
        answer(states.length * Long.BYTES).asLongBuffer().get(states);
        return states;
    }

    /** Decides the ticks of the last batch again and again.
     *
     * @param ticks how many they were
     * @param times how often
     * @return the processor time that it took, in nanoseconds
     */
    long roundsNs(int ticks, int times) throws IOException {
        ask('P', ticks, buffer(Integer.BYTES).putInt(times));
        return answer(Long.BYTES).getLong();
    }

    /** Lets Logic alone decide.
     *
     * @param states packed states
     * @param facts a byte for each fact of each of them
     * @param count how many
     * @return for each: the state after it, what is permitted, and what was told
     */
    long[] logic(long[] states, byte[] facts, int count) throws IOException {
        ByteBuffer with = buffer(count * (Long.BYTES + Fact.COUNT));
        for (int i = 0; i < count; i++) {
            with.putLong(states[i]);
        }
        with.put(facts, 0, count * Fact.COUNT);
        ask('L', count, with);
        long[] answers = new long[count * 3];
        answer(answers.length * Long.BYTES).asLongBuffer().get(answers);
        return answers;
    }

    /** Lets the program come to its own end, at which it writes what it has counted. */
    void end() throws IOException {
        to.close();
        try {
            process.waitFor();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new Trouble("counting was interrupted");
        }
    }

    @Override
    public void close() {
        process.destroy();
    }
}
