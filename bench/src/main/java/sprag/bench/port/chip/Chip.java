package sprag.bench.port.chip;

import java.io.DataInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.IntBuffer;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import sprag.bench.cli.Trouble;
import sprag.bench.port.chip.ChipProgram.Line;
import sprag.bench.port.tool.Tool;
import sprag.hal.TickListener;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/**
 * The emulated microcontroller, asked over its line by Modbus RTU: readings in, a tick, commands out. Its time is that of its
 * instructions, 125 million a second, so that a busy computer changes nothing.
 */
public final class Chip implements AutoCloseable {
    private static final int STATION = 1;
    private static final int WORDS = 4;
    private static final int MOST_SIGNALS = 30;
    private static final int TICK = 0x1000;
    private static final int COMMANDS = 0x2000;
    private static final int ABOUT = 0x3000;
    private static final int TOLD = 9;
    private static final int NEW_MEMORY = 0x4000;
    private static final int TRIAL = 0x4001;
    /** The timer counts 25 million clocks a second, an instruction takes eight nanoseconds of the emulated time. */
    private static final int INSTRUCTIONS_PER_CLOCK = 5;
    /** An emulator that has closed its line is about to end. */
    private static final int ENDS_WITHIN_S = 5;

    private final Process process;
    private final Thread killer = new Thread(this::kill, "end-emulator");
    private final OutputStream to;
    private final DataInputStream from;
    private final double[] sent = new double[Signal.COUNT];
    private final double[] now = new double[Signal.COUNT];
    private final double[] commands = new double[Output.COUNT];
    private boolean first = true;
    private long packed;

    private Chip(Process process, Line line) {
        this.process = process;
        if (line == Line.SERIAL) {
            Runtime.getRuntime().addShutdownHook(killer);
        } // else it ends by itself when this program has ended; before that a run that is interrupted still needs it
        to = process.getOutputStream();
        from = new DataInputStream(process.getInputStream());
    }

    /** What the program tells about itself.
     *
     * @param ticks since its last start
     * @param worstInstructions of one step, in steps of 5
     * @param starts how often it has begun
     * @param released whether every output is released
     * @param selfTest whether its compiler has kept the arithmetic of Java
     * @param lamps 1 while a contactor or relay is closed, 2 while inverter or charger may work, or their sum
     * @param soundCopies of what it must not forget: 0 to 2
     * @param state of its supervisor
     */
    public record About(
            long ticks,
            long worstInstructions,
            long starts,
            boolean released,
            boolean selfTest,
            int lamps,
            int soundCopies,
            State state) {}

    /** Switches a new one on. Its memory is made, as somebody does who has looked at the car.
     *
     * @param program what it runs
     * @param line how it talks with this computer
     */
    public static Chip start(Path program, Line line) {
        Chip chip = begin(program, line);
        try {
            chip.order(NEW_MEMORY, 0x4E57);
            return chip;
        } catch (IOException e) {
            chip.close();
            throw cannotStart(program, e);
        }
    }

    private static Trouble cannotStart(Path program, IOException e) {
        return new Trouble("cannot start the emulated chip with " + program + ": " + e.getMessage());
    }

    private static Chip begin(Path program, Line line) {
        try {
            return new Chip(emulator(program, line).start(), line);
        } catch (IOException e) {
            throw cannotStart(program, e);
        }
    }

    /**
     * What starts the emulator with a program. An instruction takes eight nanoseconds of its time. It is started apart from the
     * terminal: Ctrl-C asks this program to end, and the emulator must not be gone before the last tick.
     */
    public static ProcessBuilder emulator(Path program, Line line) {
        List<String> words = new ArrayList<>(List.of("-M", "mps2-an386", "-display", "none", "-monitor", "none"));
        words.addAll(List.of("-icount", "shift=3", "-kernel"));
        words.add(program.toAbsolutePath().toString());
        words.addAll(
                line == Line.SERIAL
                        ? List.of("-serial", "stdio")
                        : List.of("-serial", "none", "-semihosting-config", "enable=on,target=native"));
        ProcessBuilder emulator = Tool.QEMU
                .command(program.toAbsolutePath().getParent(), words)
                .redirectError(ProcessBuilder.Redirect.DISCARD);
        Tool.SETSID.find().ifPresent(apart -> {
            List<String> all = new ArrayList<>(List.of(apart.toString()));
            all.addAll(emulator.command());
            emulator.command(all);
        });
        return emulator;
    }

    private static int checksum(byte[] bytes, int length) {
        int sum = 0xFFFF;
        for (int i = 0; i < length; i++) {
            sum ^= bytes[i] & 0xFF;
            for (int bit = 0; bit < 8; bit++) {
                sum = (sum & 1) != 0 ? sum >> 1 ^ 0xA001 : sum >> 1;
            }
        }
        return sum;
    }

    /** Sends a request and reads its answer. */
    private ByteBuffer ask(ByteBuffer request, int answerBytes) throws IOException {
        send(request);
        byte[] answer = new byte[answerBytes + 2];
        read(answer, 0, 5);
        if ((answer[1] & 0x80) != 0) {
            throw new IOException("the chip refuses function " + (answer[1] & 0x7F) + " with code " + answer[2]);
        }
        read(answer, 5, answer.length - 5);
        int sum = checksum(answer, answerBytes);
        if ((answer[answerBytes] & 0xFF) != (sum & 0xFF) || (answer[answerBytes + 1] & 0xFF) != sum >> 8) {
            throw new IOException("a damaged answer from the chip");
        }
        return ByteBuffer.wrap(answer, 0, answerBytes);
    }

    private void read(byte[] into, int at, int count) throws IOException {
        try {
            from.readFully(into, at, count);
        } catch (EOFException e) {
            throw new EOFException(ended());
        }
    }

    /** Why nothing comes any more. */
    private String ended() {
        try {
            if (process.waitFor(ENDS_WITHIN_S, TimeUnit.SECONDS)) {
                return "the emulator has ended with status " + process.exitValue();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        return "the emulator has closed its line";
    }

    private void send(ByteBuffer request) throws IOException {
        int length = request.position();
        int sum = checksum(request.array(), length);
        byte[] frame = Arrays.copyOf(request.array(), length + 2);
        frame[length] = (byte) sum;
        frame[length + 1] = (byte) (sum >> 8);
        try {
            to.write(frame);
            to.flush();
        } catch (IOException e) {
            throw new IOException(ended(), e);
        }
    }

    private static ByteBuffer request(int function) {
        return ByteBuffer.allocate(256).put((byte) STATION).put((byte) function);
    }

    private void write(int from, int to) throws IOException {
        int count = to - from;
        ByteBuffer frame = request(16).putShort((short) (from * WORDS)).putShort((short) (count * WORDS));
        frame.put((byte) (count * Double.BYTES));
        for (int i = from; i < to; i++) {
            frame.putDouble(now[i]);
            sent[i] = now[i];
        }
        ask(frame, 6);
    }

    /** Lets it decide once. Only readings that have changed are sent. */
    public void tick(long tick, Readings in) throws IOException {
        in.copyTo(now, 0);
        int i = 0;
        while (i < now.length) {
            int end = i;
            while (end < now.length && end - i < MOST_SIGNALS && changed(end)) {
                end++;
            }
            if (end > i) {
                write(i, end);
            }
            i = Math.max(end, i + 1);
        }
        first = false;
        ByteBuffer frame = request(23).putShort((short) COMMANDS).putShort((short) ((Output.COUNT + 1) * WORDS));
        frame.putShort((short) TICK).putShort((short) 1).put((byte) 2).putShort((short) tick);
        ByteBuffer answer = ask(frame, 3 + (Output.COUNT + 1) * Double.BYTES).position(3);
        for (int output = 0; output < commands.length; output++) {
            commands[output] = answer.getDouble();
        }
        packed = answer.getLong();
    }

    /** Lets it decide once, for somebody who cannot go on without it. */
    void mustTick(long tick, Readings in) {
        try {
            tick(tick, in);
        } catch (IOException e) {
            throw new Trouble("the chip is lost in tick " + tick + ": " + e.getMessage());
        }
    }

    private boolean changed(int signal) {
        return first || Double.doubleToRawLongBits(sent[signal]) != Double.doubleToRawLongBits(now[signal]);
    }

    /** What its supervisor remembers of its state, after the last tick. */
    public long packed() {
        return packed;
    }

    /** What it commanded in its last tick. */
    public double command(Output output) {
        return commands[output.ordinal()];
    }

    /** The first field in which its last tick differs from what the Java decided, in words. */
    public Optional<String> differs(Commands java, long packedInJava) {
        for (Output output : Output.values()) {
            double onChip = commands[output.ordinal()];
            if (Double.compare(java.get(output), onChip) != 0) {
                return Optional.of(
                        output.key() + " is " + java.get(output) + " in Java and " + onChip + " on the chip");
            }
        }
        return packed == packedInJava
                ? Optional.empty()
                : Optional.of("the packed state is " + packedInJava + " in Java and " + packed + " on the chip");
    }

    /** A listener that lets the chip decide every tick beside a supervisor in Java, and stops at the first difference. */
    public TickListener beside(Supervisor java) {
        return (tick, in, out) -> {
            mustTick(tick, in);
            differs(out, java.state().pack()).ifPresent(difference -> {
                throw new Trouble("Java and chip differ in tick " + tick + ": " + difference);
            });
        };
    }

    /** Asks the program about itself. */
    public About about() throws IOException {
        return toldBy(request(3).putShort((short) ABOUT).putShort((short) (2 * TOLD)));
    }

    private About toldBy(ByteBuffer frame) throws IOException {
        IntBuffer told =
                ask(frame, 3 + TOLD * Integer.BYTES).position(3).slice().asIntBuffer();
        return new About(
                Integer.toUnsignedLong(told.get(0)),
                Integer.toUnsignedLong(told.get(1)) * INSTRUCTIONS_PER_CLOCK,
                Integer.toUnsignedLong(told.get(3)),
                told.get(4) == 1,
                told.get(5) == 1,
                told.get(6),
                told.get(7),
                State.values()[told.get(8)]);
    }

    /** Writes one register. */
    private void order(int register, int value) throws IOException {
        ask(one(register, value), 6);
    }

    private static ByteBuffer one(int register, int value) {
        return request(16)
                .putShort((short) register)
                .putShort((short) 1)
                .put((byte) 2)
                .putShort((short) value);
    }

    /** For trials: sends bytes that are no request. */
    void noise(byte... bytes) throws IOException {
        to.write(bytes);
        to.flush();
    }

    /** For trials with a program of their own: orders something. */
    void trial(int what) throws IOException {
        order(TRIAL, what);
    }

    /** For trials with a program of their own: orders something that is not answered, after which it restarts, and waits for that. */
    Restart restart(int trial) throws IOException {
        send(one(TRIAL, trial));
        return restarted();
    }

    /** For trials with a program of their own: its loop stops in one more tick or at its end, and it restarts. */
    Restart stopInTick(int trial) throws IOException {
        order(TRIAL, trial);
        send(one(TICK, 0));
        return restarted();
    }

    /** For trials with a program of their own: its clock goes on and nothing is sent any more, and it restarts. */
    Restart fallSilent(int trial) throws IOException {
        order(TRIAL, trial);
        return restarted();
    }

    /** What such a program tells when it begins again.
     *
     * @param releasedAfterClocks from the end of its last whole tick until its outputs were released
     * @param aliveUntilClocks from the end of its last whole tick until the restart
     * @param lampsBefore its pins when its loop stopped
     */
    record Restart(int releasedAfterClocks, int aliveUntilClocks, int lampsBefore) {}

    private Restart restarted() throws IOException {
        first = true;
        return new Restart(from.readInt(), from.readInt(), from.readInt());
    }

    /** Lets it decide once more with the readings of before, and asks about itself in the same breath. */
    About tickAndTell() throws IOException {
        ByteBuffer frame = request(23).putShort((short) ABOUT).putShort((short) (2 * TOLD));
        frame.putShort((short) TICK).putShort((short) 1).put((byte) 2).putShort((short) 0);
        return toldBy(frame);
    }

    @Override
    public void close() {
        kill();
        try {
            Runtime.getRuntime().removeShutdownHook(killer);
        } catch (IllegalStateException e) {
            assert !process.isAlive() || killer.isAlive() : "the program ends: the hook does it";
        }
    }

    void kill() {
        process.destroyForcibly();
    }
}
