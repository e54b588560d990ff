package sprag.bench.hand.board;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.BufferedReader;
import java.io.File;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * A board's own ready-made firmware, run instruction by instruction on an emulated microcontroller in real time, with its serial
 * line on a pseudo-terminal. Needs gcc, libsimavr-dev and the firmware (see DEVELOPERS.md); without them its tests are skipped.
 */
public final class Microcontroller implements AutoCloseable {
    private static final Path HEADER = Path.of("/usr/include/simavr/sim_avr.h");
    /** Where the build looks for firmware. */
    private static final Path SHELF = Path.of("target", "firmware");
    /** How long the boot loader of such a board waits for new firmware (ms): 0.5 to 2 s, common practice. */
    private static final int BOOT_MS = 500;

    /** Boards and firmware that were made by others. */
    public enum Kind {
        /** Standard firmware, Firmata 2.4. */
        SMALL_2_4("atmega328p", "small-2.4.hex", "DDDDDDDDBBBBBB", "01234567012345"),
        /** Firmware with additions of its own, Firmata 2.5. */
        SMALL_2_5("atmega328p", "small-2.5.hex", "DDDDDDDDBBBBBB", "01234567012345"),
        /** Standard firmware, Firmata 2.3. */
        LARGE_2_3("atmega2560", "large-2.3.hex", LARGE_PORTS, LARGE_BITS),
        /** Firmware with additions of its own, Firmata 2.5. */
        LARGE_2_5("atmega2560", "large-2.5.hex", LARGE_PORTS, LARGE_BITS);

        private final String chip;
        private final String firmware;
        private final String ports;
        private final String bits;

        Kind(String chip, String firmware, String ports, String bits) {
            this.chip = chip;
            this.firmware = firmware;
            this.ports = ports;
            this.bits = bits;
        }
    }

    /** Port and bit of each pin of the large board, D0 to D37. */
    private static final String LARGE_PORTS = "EEEEGEHHHHBBBBJJHHDDDDAAAAAAAACCCCCCCC";

    private static final String LARGE_BITS = "01455334564567101032100123456776543210";

    private final Kind kind;
    private final Path line;
    private final Process process;
    private final PrintWriter to;
    private final BufferedReader from;

    public Microcontroller(Path folder, Kind kind) {
        this.kind = kind;
        line = folder.resolve("line");
        Path firmware = SHELF.resolve(kind.firmware);
        assumeTrue(Files.exists(firmware), firmware + " is not there: no emulated board is tried");
        assumeTrue(onPath("gcc"), "gcc is not installed: no emulated board is tried");
        try {
            process = new ProcessBuilder(
                            compiled(folder).toString(), kind.chip, firmware.toString(), line.toString(), "" + BOOT_MS)
                    .redirectError(ProcessBuilder.Redirect.INHERIT)
                    .start();
            to = new PrintWriter(process.getOutputStream(), true, StandardCharsets.US_ASCII);
            from = new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.US_ASCII));
            assertEquals("ready", from.readLine());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static boolean onPath(String program) {
        for (String folder : System.getenv("PATH").split(File.pathSeparator)) {
            if (Files.isExecutable(Path.of(folder, program))) {
                return true;
            }
        }
        return false;
    }

    private static Path compiled(Path folder) throws IOException {
        Path source = folder.resolve("microcontroller.c");
        Path program = folder.resolve("microcontroller");
        if (Files.exists(program)) {
            return program;
        }
        assumeTrue(Files.exists(HEADER), "libsimavr-dev is not installed: no emulated board is tried");
        Files.copy(Microcontroller.class.getResourceAsStream("/firmata/microcontroller.c"), source);
        List<String> command = List.of(
                "gcc",
                "-O2",
                "-Wall",
                "-I" + HEADER.getParent(),
                source.toString(),
                "-lsimavr",
                "-lelf",
                "-lutil",
                "-o",
                program.toString());
        try {
            Process gcc = new ProcessBuilder(command).redirectErrorStream(true).start();
            String said = new String(gcc.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertEquals(0, gcc.waitFor(), said);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException("interrupted", e);
        }
        return program;
    }

    /** The port to open. */
    public String line() {
        return line.toString();
    }

    /** Gives the emulator a command and returns its answer. */
    public synchronized String say(String command) {
        to.println(command);
        try {
            String answer = from.readLine();
            if (answer == null || answer.startsWith("unknown")) {
                throw new IllegalStateException("the microcontroller answers " + answer + " to " + command);
            }
            return answer;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Joins a pin to ground or to the supply. */
    public void wire(int pin, boolean high) {
        say((high ? "high " : "low ") + place(pin));
    }

    /** Takes every wire off a pin. */
    public void open(int pin) {
        say("open " + place(pin));
    }

    /** Puts a voltage on an analogue channel. */
    public void volts(int channel, double volts) {
        say("volts " + channel + " " + Math.round(volts * 1000));
    }

    /** Whether a pin is an output, and high. */
    public boolean drivesHigh(int pin) {
        return say("get " + place(pin)).equals("out 1");
    }

    /** Whether a pin is an output. */
    public boolean isOutput(int pin) {
        return say("get " + place(pin)).startsWith("out");
    }

    /** How long after the last change from outside a pin changed (us of the board's own clock), -1 when it has not. */
    public long sinceUs(int pin) {
        return Long.parseLong(say("since " + place(pin)));
    }

    private String place(int pin) {
        return kind.ports.charAt(pin) + " " + kind.bits.charAt(pin);
    }

    @Override
    public void close() {
        to.close();
        try {
            if (!process.waitFor(2, TimeUnit.SECONDS)) {
                process.destroyForcibly();
            }
        } catch (InterruptedException e) {
            process.destroyForcibly();
            Thread.currentThread().interrupt();
        }
    }
}
