package sprag.bench.hand.bus;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.function.BiFunction;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sprag.bench.bus.BusFile;
import sprag.bench.bus.BusPorts;
import sprag.bench.bus.BusReader;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.Interruption;
import sprag.bench.cli.TerminalWatch;
import sprag.bench.page.Cautions;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Problem;
import sprag.hal.Clock;
import sprag.hal.board.BoardSpec;
import sprag.hal.board.LastRelease;
import sprag.hal.board.LinkLost;
import sprag.hal.board.Port;
import sprag.hal.bus.BusEncoder;
import sprag.hal.bus.BusField;
import sprag.hal.bus.BusMap;
import sprag.hal.bus.BusMessage;
import sprag.hal.bus.CanFrame;
import sprag.hal.bus.SlcanLine;

/** {@code bus send}: sends one message for a while, to a bus that is declared a bench. */
@Command(
        name = "send",
        mixinStandardHelpOptions = true,
        description = {
            "Sends one message at its period for a while, with counter and check sum.",
            "Only to a bus whose file says bench = true, after the cautions were read and",
            "the message's name was typed. At the end, at Ctrl-C and when the terminal is",
            "closed, a message of the supervisor is sent with every output released.",
        },
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {
            " 0:sent",
            " 1:the message's name was not typed",
            " 2:wrong usage, an unreadable file, or a bus that is no bench",
            " 3:the adapter does not answer or was lost"
        },
        footer = {"", "Example: sprag bus send --bus van-pair charger_1_command limit=5 enable=1 --seconds 3"})
public final class BusSendCommand implements Callable<Integer> {
    private static final long POLL_NS = 500_000;
    private static final int MOST_AT_ONCE = 200;
    private static final double MOST_SECONDS = 60;
    /** As often as on any other release: one frame can be lost. */
    private static final int RELEASE_FRAMES = 2;

    /** What is sent for a while, and what is sent last. */
    private record Frames(BusMessage message, CanFrame asked, CanFrame released) {}

    private final BiFunction<BoardSpec, Clock, Port> opener;
    private final InputStream keyboard;
    private final Clock clock;

    @Option(names = "--bus", required = true, paramLabel = "B", description = "A bus file that says bench = true.")
    private String busName;

    @Parameters(index = "0", paramLabel = "MESSAGE", description = "The message's name in the file.")
    private String messageName;

    @Parameters(
            index = "1..*",
            paramLabel = "FIELD=VALUE",
            description = "Values in the unit of the file, 1 and 0 for a switch; the rest is 0.")
    private List<String> values = new ArrayList<>();

    @Option(names = "--seconds", paramLabel = "N", description = "For how long, up to 60 (default: 1).")
    private double seconds = 1;

    @Option(
            names = "--confirm",
            paramLabel = "MESSAGE",
            description = "The name again, instead of typing it when asked.")
    private String confirmed;

    @Spec
    private CommandSpec spec;

    /** For the command line. */
    public BusSendCommand() {
        this(BusPorts::port, System.in, Clock.real());
    }

    BusSendCommand(BiFunction<BoardSpec, Clock, Port> opener, InputStream keyboard, Clock clock) {
        this.opener = opener;
        this.keyboard = keyboard;
        this.clock = clock;
    }

    @Override
    public Integer call() throws BadInput, IOException {
        BusFile bus = BusReader.read(Catalogue.installed().bus(busName));
        if (!bus.map().bench()) {
            throw new BadInput(List.of(new Problem(
                    bus.file(),
                    0,
                    0,
                    "bus.bench",
                    "is not true",
                    "true",
                    "let frames be sent by hand into a car",
                    "Say bench = true only where no traction battery is connected and nothing can move.")));
        }
        BusMessage message = message(bus);
        Frames frames = frames(bus.map(), message);
        if (!(seconds > 0 && seconds <= MOST_SECONDS)) {
            throw new ParameterException(spec.commandLine(), "--seconds " + seconds + " is outside 0..60");
        }
        TerminalWatch.start(true, confirmed == null ? null : keyboard);
        if (!isConfirmed(message, frames.asked)) {
            out().println("Not typed: nothing was sent.");
            return ExitCode.FINDING;
        }
        try (Port port = opener.apply(bus.spec(), clock);
                Interruption interruption = new Interruption()) {
            LastRelease.Entry atExit = new LastRelease.Entry(interruption::ask, interruption::finish);
            LastRelease.watch(atExit); // else the library may close the port before the released outputs are sent
            try {
                port.open();
                SlcanLine line = new SlcanLine(port, clock);
                line.open(bus.map().bitRateKbit(), false);
                send(port, line, frames, interruption);
                port.drain();
            } finally {
                LastRelease.forget(atExit);
            }
            return ExitCode.WELL;
        } catch (LinkLost e) {
            spec.commandLine().getErr().println("sprag: " + e.getMessage());
            return ExitCode.TROUBLE;
        }
    }

    private void send(Port port, SlcanLine line, Frames frames, Interruption interruption) throws LinkLost {
        BusMessage message = frames.message;
        long endNs = clock.nowNs() + Math.round(seconds * 1e9);
        long periodNs = Math.round(message.periodMs() * 1e6);
        long dueNs = clock.nowNs();
        long count = 0;
        CanFrame heard = new CanFrame();
        try {
            while (clock.nowNs() < endNs && !interruption.getAsBoolean()) {
                clock.waitUntil(Math.min(dueNs, clock.nowNs() + POLL_NS));
                for (int n = 0; n < MOST_AT_ONCE && line.next(heard); n++) {
                    // what others say is for "bus watch"; a flood must not keep the end away
                }
                if (clock.nowNs() >= dueNs) {
                    dueNs += periodNs;
                    one(line, message, frames.asked, count++);
                }
            }
        } finally {
            if (message.isSent()) {
                for (int n = 0; n < RELEASE_FRAMES; n++) {
                    one(line, message, frames.released, count++);
                }
                port.drain(); // an adapter that leaves the bus may throw away what it has not sent yet
            }
            line.leave();
        }
        out().println(count + " frames of " + message.name() + " handed to the adapter; " + line.errorText());
    }

    private static void one(SlcanLine line, BusMessage message, CanFrame frame, long count) throws LinkLost {
        if (message.counter() != null) {
            message.counter().put(frame.data(), count);
        }
        BusEncoder.finish(message, frame);
        line.send(frame);
    }

    private BusMessage message(BusFile bus) {
        return bus.map().messages().stream()
                .filter(m -> m.name().equals(messageName))
                .findFirst()
                .orElseThrow(() -> new ParameterException(
                        spec.commandLine(),
                        messageName + " is no message of " + bus.file() + "; it has "
                                + bus.map().messages().stream()
                                        .map(BusMessage::name)
                                        .toList()));
    }

    private Frames frames(BusMap map, BusMessage message) {
        CanFrame asked = new CanFrame().begin(message.id(), message.extended(), message.length());
        CanFrame released = new CanFrame().begin(message.id(), message.extended(), message.length());
        for (BusField field : message.fields()) {
            long rest = rawAtRest(map, message, field);
            field.place().put(asked.data(), rest);
            field.place().put(released.data(), rest);
        }
        for (String text : values) {
            String[] parts = text.split("=", 2);
            BusField field = message.fields().stream()
                    .filter(f -> f.name().equals(parts[0]))
                    .findFirst()
                    .orElseThrow(() -> new ParameterException(
                            spec.commandLine(),
                            text + ": " + messageName + " has no field " + parts[0] + "; it has "
                                    + message.fields().stream()
                                            .map(BusField::name)
                                            .toList()));
            double value = number(text, parts);
            boolean isSwitch = isSwitch(map, message, field);
            field.place().put(asked.data(), isSwitch ? rawOfSwitch(text, field, value) : raw(field, value));
        }
        return new Frames(message, asked, released);
    }

    private static boolean isSwitch(BusMap map, BusMessage message, BusField field) {
        if (field.pin() == BusField.NO_PIN) {
            return false;
        }
        return message.isSent()
                ? map.pins().outputs().get(field.pin()).kind().twoState
                : map.pins().inputs().get(field.pin()).kind().twoState;
    }

    /** An output is released, a switch is off, the rest is 0; no counts where 0 does not fit. */
    private long rawAtRest(BusMap map, BusMessage message, BusField field) {
        if (field.pin() == BusField.NO_PIN && message.isSent()) {
            return field.fixedRaw();
        }
        if (isSwitch(map, message, field)) {
            return field.codes().off().get(0);
        }
        if (message.isSent()) {
            return map.pins().outputs().get(field.pin()).safeRaw();
        }
        double counts = -field.offset() / field.factor();
        return isWithin(field, counts) ? Math.round(counts) : 0;
    }

    private long rawOfSwitch(String text, BusField field, double value) {
        if (value != 0 && value != 1) {
            throw new ParameterException(spec.commandLine(), text + " is a switch: 1 is on, 0 is off");
        }
        return (value == 1 ? field.codes().on() : field.codes().off()).get(0);
    }

    private double number(String text, String... parts) {
        try {
            return Double.parseDouble(parts.length == 2 ? parts[1] : "");
        } catch (NumberFormatException e) {
            throw new ParameterException(spec.commandLine(), text + " is not FIELD=NUMBER", e);
        }
    }

    private long raw(BusField field, double value) {
        double counts = (value - field.offset()) / field.factor();
        if (!isWithin(field, counts)) {
            throw new ParameterException(
                    spec.commandLine(),
                    field.name() + "=" + value + " " + field.unit() + " is " + counts + " counts, outside "
                            + least(field) + ".." + most(field));
        }
        return Math.round(counts);
    }

    /** False for what is no number, too. */
    private static boolean isWithin(BusField field, double counts) {
        return counts > least(field) - 0.5 && counts < most(field) + 0.5;
    }

    private static long least(BusField field) {
        return field.place().signed() ? -1L << field.place().length() - 1 : 0;
    }

    private static long most(BusField field) {
        if (field.place().signed()) {
            return ~least(field);
        }
        return field.place().length() > 62 ? Long.MAX_VALUE : field.place().allOnes();
    }

    private boolean isConfirmed(BusMessage message, CanFrame asked) throws IOException {
        out().println("This sends " + asked + " every " + message.periodMs() + " ms for " + seconds
                + " s. Whatever obeys it will act, and nothing but your eyes supervises it.");
        Cautions.RULES.forEach(rule -> out().println("- " + rule));
        if (confirmed != null) {
            return confirmed.equals(message.name());
        }
        out().print("Traction battery absent, nothing can move: type " + message.name() + " to send: ");
        out().flush();
        String typed = new BufferedReader(new InputStreamReader(keyboard, Charset.defaultCharset())).readLine();
        return typed != null && typed.trim().equals(message.name());
    }

    private PrintWriter out() {
        return spec.commandLine().getOut();
    }
}
