package sprag.bench.hand.commission;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import picocli.CommandLine;
import sprag.bench.bus.BusReader;
import sprag.bench.car.Lever;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.cli.ExitCode;
import sprag.bench.hand.commission.steps.LeverAction;
import sprag.bench.hand.emulated.LockstepClock;
import sprag.bench.hand.emulated.Microcontroller;
import sprag.bench.loop.bus.FarPair;
import sprag.bench.loop.record.Recorder;
import sprag.bench.loop.record.Recording;
import sprag.bench.loop.record.Replay;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.hal.board.Board;
import sprag.hal.board.MemoryPort;
import sprag.hal.bus.BusDriver;

/**
 * A whole commissioning of a van's low-voltage side on firmware that others made, in virtual time: the real driver, a loom of
 * contactors with their contacts, a cut-off and a watchdog relay, and somebody who does what the lines on the screen say and nothing
 * else.
 */
@Execution(ExecutionMode.CONCURRENT)
class CommissionedMicrocontrollerTest {
    private static final int NEGATIVE = 8;
    private static final int PRECHARGE = 9;
    private static final int POSITIVE = 10;
    private static final int HEARTBEAT = 12;
    private static final int[] CONTACTORS = {NEGATIVE, PRECHARGE, POSITIVE};
    /** The pin that each contactor's auxiliary contact closes to ground. */
    private static final int[] CONTACTS = {31, 32, 33};
    /** Switches to ground, by the lever that moves them. */
    private static final Map<Lever, Integer> SWITCHES = Map.of(
            Lever.KEY, 22, Lever.START, 23, Lever.BRAKE, 26, Lever.CUT_LOOP, 27, Lever.PLUG, 28, Lever.COVER_LOOP, 29);

    private static final int FORWARD = 24;
    private static final int REVERSE = 25;
    private static final double SUPPLY_V = 12.6;
    private static final double PEDAL_SUPPLY_V = 5;
    private static final long WATCHDOG_NS = 200_000_000;

    private static final long LOOM_MS = 1;

    @TempDir
    Path folder;

    private final StringWriter err = new StringWriter();
    private final Person person = new Person();
    private final LockstepClock clock = new LockstepClock();
    private final boolean[] closed = {true, true, true};
    private Microcontroller chip;
    /** The data bus beside the board, and the car whose nodes speak on it; null without one. */
    private FarPair pair;

    private SimulatedCar onTheBus;
    private boolean cut;
    /** Whether the loom bridges the watchdog relay: a mistake. */
    private boolean bridged;

    private boolean beat;
    private long beatNs = clock.nowNs() - WATCHDOG_NS;

    @AfterEach
    void stop() {
        if (chip != null) {
            chip.close();
        }
    }

    /** Some eighty seconds of the emulated board. The other mistake is the sample in the build. */
    @Test
    @Tag("long")
    void soundLoomAndDataBus_everyStepPasses_alsoWithTheCablePulled() throws Exception {
        attachBus();
        commissionAndExpectFailed(List.of());
        assertEquals(steps(), withVerdict("passed").size());
        assertTrue(steps() > 40, steps() + " steps");
        assertTrue(record().toString().contains("Firmata 2.5"), "the record names what answered");
        try (Recording recording = new Recording(folder.resolve("record/sequence.start_stop.sprag"))) {
            assertTrue(new Replay(recording).run().isEmpty(), "what happened on pins is decided again the same");
        }
        assertTrue(withVerdict("passed").contains("bus.resistance"), "the bus was commissioned too");
        assertTrue(withVerdict("passed").contains("output.charger_1_limit_a"), "a command by message");
        assertTrue(withVerdict("passed").contains("input.heater_request"), "a switch by message");
        assertTrue(pair.lastDrivenMs() > 0, "frames that drive were sent");
        assertEquals(List.of(), pair.notReleased(), "the last frame of each message releases");
    }

    @Test
    @Tag("long")
    void watchdogRelayBridged_isFound() throws Exception {
        bridged = true;
        commissionAndExpectFailed(List.of("cut_off.watchdog"));
        assertTrue(withVerdict("passed").contains("cut_off.hardware"));
        assertTrue(withVerdict("not done").contains("sequence.start_stop"));
    }

    private void commissionAndExpectFailed(List<String> wanted) throws Exception {
        int status = commission();
        assertEquals(wanted, withVerdict("failed"), () -> err + person.lastLines());
        assertEquals(wanted.isEmpty() ? ExitCode.WELL : ExitCode.FINDING, status, () -> err + person.lastLines());
    }

    private JsonNode record() throws IOException {
        return new ObjectMapper()
                .readTree(folder.resolve("record/commission.json").toFile());
    }

    private int steps() throws IOException {
        return record().path("steps").size();
    }

    private List<String> withVerdict(String verdict) throws IOException {
        List<String> ids = new ArrayList<>();
        record().path("steps").forEach(step -> {
            if (step.path("verdict").asText().equals(verdict)) {
                ids.add(step.path("id").asText());
            }
        });
        return ids;
    }

    @BeforeEach
    void build() throws IOException {
        chip = new Microcontroller(Microcontroller.Kind.LARGE_2_5);
        clock.follow(chip::advanceTo);
        Files.writeString(folder.resolve("board.toml"), map());
        for (Lever lever : Lever.values()) {
            person.move(lever, lever.initial);
        }
        chip.volts(2, PEDAL_SUPPLY_V * 20 / 30);
        chip.volts(3, SUPPLY_V * 10 / 57);
        clock.every(LOOM_MS, this::carry);
    }

    /** Part of the van's pair: what the dash says, and what dash, charger and converter are told. */
    private void attachBus() throws Exception {
        String[] shipped =
                Files.readString(Catalogue.installed().bus("van-pair")).split("(?=\\[\\[message]])");
        StringBuilder text = new StringBuilder(shipped[0]);
        for (String message : shipped) {
            if (message.matches("(?s).*name = \"(dash_switches|dash_lamps|charger_1_command|dcdc_command)\".*")) {
                text.append(message);
            }
        }
        Path file = Files.writeString(folder.resolve("bus.toml"), text);
        Vehicle van = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
        onTheBus = new SimulatedCar(van, 1);
        pair = new FarPair(clock, BusReader.read(file, van).map(), onTheBus, 1);
        clock.every(1, pair::speak);
    }

    private int commission() {
        CommandLine line = new CommandLine(new CommissionCommand(
                (spec, time) -> {
                    clock.announceThread();
                    return spec.driver() instanceof BusDriver
                            ? new Board(spec, new MemoryPort(pair), time)
                            : new Board(spec, chip.line(), time);
                },
                person.keys,
                false,
                clock,
                Recorder.Pace.SIMULATED));
        line.setOut(new PrintWriter(person, true)).setErr(new PrintWriter(err, true));
        List<String> words = new ArrayList<>(List.of(
                "parcel-van",
                "--board",
                folder.resolve("board.toml").toString(),
                "--out",
                folder.resolve("record").toString()));
        if (pair != null) {
            words.addAll(List.of("--bus", folder.resolve("bus.toml").toString()));
        }
        return line.execute(words.toArray(String[]::new));
    }

    private String map() {
        StringBuilder text = new StringBuilder();
        text.append("[board]\nname = \"desk\"\nprotocol = \"firmata\"\nport = \"emulated\"\nbaud = 57600\n");
        text.append("retry_ms = 100\nsilence_ms = 600\n[firmata]\nsampling_ms = 20\n");
        String[] switches = {
            "key_on",
            "start_request",
            "forward_switch",
            "reverse_switch",
            "brake_pressed",
            "cut_loop_closed",
            "plug_present",
            "cover_loop_closed",
            null,
            "negative_aux_closed",
            "precharge_aux_closed",
            "positive_aux_closed"
        };
        for (int i = 0; i < switches.length; i++) {
            if (switches[i] != null) {
                text.append("[[input]]\nsignal = \"" + switches[i] + "\"\npin = \"D" + (22 + i)
                        + "\"\nkind = \"pull-up\"\ninvert = true\n");
            }
        }
        String[] volts = {"pedal_a_v", "pedal_b_v", "pedal_supply_v", "lv_supply_v"};
        double[] scales = {5.0 / 1023, 5.0 / 1023, 7.5 / 1023, 28.5 / 1023};
        for (int i = 0; i < volts.length; i++) {
            text.append("[[input]]\nsignal = \"" + volts[i] + "\"\npin = \"A" + i + "\"\nkind = \"analogue\"\n"
                    + String.format(Locale.ROOT, "unit = \"v\"%nscale = %.8f%nbits = 10%n", scales[i]));
        }
        String[] outputs = {"negative_contactor", "precharge_relay", "positive_contactor", null, "heartbeat"};
        for (int i = 0; i < outputs.length; i++) {
            if (outputs[i] != null) {
                text.append("[[output]]\noutput = \"" + outputs[i] + "\"\npin = \"D" + (NEGATIVE + i)
                        + "\"\nkind = \"digital\"\n");
            }
        }
        return text.toString();
    }

    /** The loom: coils behind cut-off and watchdog relay, and the contacts that follow them. */
    private void carry() {
        boolean now = chip.drivesHigh(HEARTBEAT);
        if (now != beat) {
            beat = now;
            beatNs = clock.nowNs();
        }
        boolean supplied = !cut && (bridged || clock.nowNs() - beatNs < WATCHDOG_NS);
        for (int i = 0; i < CONTACTORS.length; i++) {
            boolean to = supplied && chip.drivesHigh(CONTACTORS[i]);
            if (to != closed[i]) {
                closed[i] = to;
                chip.wire(CONTACTS[i], !to);
            }
        }
    }

    /** A keyboard whose typist goes on only when what was typed has been read. */
    private static final class Keys extends InputStream {
        private byte[] typed = {};
        private int at;
        private boolean isWaitedFor;

        /** Types a line and waits until the reader has taken it and asks for more. */
        synchronized void type(String line) {
            typed = (line + "\n").getBytes(StandardCharsets.UTF_8);
            at = 0;
            isWaitedFor = false;
            notifyAll();
            while (!isWaitedFor) {
                sleep();
            }
        }

        @Override
        public synchronized int read() {
            while (at == typed.length) {
                isWaitedFor = true;
                notifyAll();
                sleep();
            }
            return typed[at++];
        }

        /** One byte at a time, so that a reader that asks again has done with what came before. */
        @Override
        public int read(byte[] into, int from, int length) {
            into[from] = (byte) read();
            return 1;
        }

        private void sleep() {
            try {
                wait();
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                throw new IllegalStateException("interrupted at the keyboard", e);
            }
        }
    }

    /** Reads what is printed, does what it says, types what it asks for. */
    private final class Person extends Writer {
        private final StringBuilder line = new StringBuilder();
        private final List<String> lines = new ArrayList<>();
        private final Keys keys = new Keys();
        private final StringBuilder told = new StringBuilder();
        private boolean asked;

        String lastLines() {
            return String.join("\n", lines.subList(Math.max(0, lines.size() - 60), lines.size()));
        }

        @Override
        public void write(char[] text, int from, int length) {
            for (int i = from; i < from + length; i++) {
                if (text[i] == '\n') {
                    read(line.toString());
                    line.setLength(0);
                } else {
                    line.append(text[i]);
                }
            }
        }

        /** Where the cursor waits after four blanks, something is to be typed. */
        @Override
        public void flush() {
            if (line.toString().equals("    ") && asked) {
                line.setLength(0);
                asked = false;
                answer(take());
            }
        }

        @Override
        public void close() {}

        private void read(String text) {
            lines.add(text);
            boolean goesOn = text.startsWith("  ") && told.length() > 0;
            if (text.startsWith("> ")) {
                told.setLength(0);
                told.append(text.substring(2));
                asked = true;
            } else if (text.startsWith("  ! Now ")) {
                told.setLength(0);
                asked = false;
                told.append(text.substring(8));
            } else if (text.startsWith("  !   ")) {
                told.append(' ').append(text.substring(6));
            } else if (asked && goesOn) {
                told.append(' ').append(text.strip());
            }
            if (!asked && told.toString().endsWith(".")) {
                act(take());
            }
        }

        private String take() {
            String all = told.toString();
            told.setLength(0);
            return all;
        }

        private void answer(String question) {
            act(question);
            keys.type(
                    question.contains("y or n")
                            ? "y"
                            : question.contains("Type \"")
                                    ? question.replaceAll(".*Type \"([a-z]+)\".*", "$1")
                                    : question.contains("Then press Enter") ? "" : number(question));
        }

        private String number(String question) {
            if (question.contains("esistance at")) {
                return "60";
            }
            if (question.contains("oltage of the")) {
                return "2.5";
            }
            if (question.contains("regen_level")) {
                return "" + Lever.REGEN_LEVEL.initial;
            }
            return question.contains("greatest voltage")
                    ? "0"
                    : question.contains("least resistance")
                            ? "2000"
                            : question.contains("greatest resistance")
                                    ? "0.02"
                                    : question.contains("pedal_supply_v") ? "" + PEDAL_SUPPLY_V : "" + SUPPLY_V;
        }

        private void act(String sentence) {
            String text = sentence.toLowerCase(Locale.ROOT);
            for (LeverAction action : LeverAction.values()) {
                if (text.contains(action.instruction)) {
                    move(action.lever, action.to);
                }
            }
            if (text.contains("put the lever in neutral")) {
                for (Lever lever : List.of(Lever.KEY, Lever.START, Lever.BRAKE, Lever.PEDAL, Lever.DIRECTION)) {
                    move(lever, 0);
                }
                move(Lever.PLUG, 0);
                move(Lever.CUT_LOOP, 1);
                move(Lever.COVER_LOOP, 1);
            }
            if (text.contains("release the cut-off")) {
                move(Lever.CUT_LOOP, 1);
            }
            if (text.contains("pull the connector of the accelerator")) {
                chip.volts(0, 5);
            }
            if (text.contains("pull the board's cable")) {
                chip.pull();
            }
            if (text.contains("put the cable in again")) {
                chip.plug();
            }
        }

        private void move(Lever lever, double to) {
            if (onTheBus != null) {
                onTheBus.levers().set(lever, to);
            }
            if (lever == Lever.PEDAL) {
                chip.volts(0, 0.9 + to * 3.3);
                chip.volts(1, 0.5 + to * 1.7);
            } else if (lever == Lever.DIRECTION) {
                chip.wire(FORWARD, to <= 0);
                chip.wire(REVERSE, to >= 0);
            } else if (SWITCHES.containsKey(lever)) {
                chip.wire(SWITCHES.get(lever), to == 0);
            }
            if (lever == Lever.CUT_LOOP) {
                cut = to == 0;
            }
        }
    }
}
