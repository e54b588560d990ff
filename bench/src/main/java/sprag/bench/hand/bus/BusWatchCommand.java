package sprag.bench.hand.bus;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.function.BiFunction;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import sprag.bench.bus.BusFile;
import sprag.bench.bus.BusPorts;
import sprag.bench.bus.BusReader;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.InputFile;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.TerminalWatch;
import sprag.bench.cli.Trouble;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Problems;
import sprag.hal.Clock;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSetting;
import sprag.hal.board.BoardSettings;
import sprag.hal.board.BoardSpec;
import sprag.hal.board.LinkLost;
import sprag.hal.board.Port;
import sprag.hal.board.PortChoice;
import sprag.hal.bus.BusDriver;
import sprag.hal.bus.BusMap;
import sprag.hal.bus.CanFrame;
import sprag.hal.bus.CandumpText;
import sprag.hal.bus.SlcanLine;

/** {@code bus watch}: what is heard on a bus. */
@Command(
        name = "watch",
        mixinStandardHelpOptions = true,
        description = {
            "Shows every identifier on a bus: rate, jitter, bytes, values, what is late.",
            "It only listens and acknowledges no frame of others, unless asked to.",
            "--learn tells which bits follow something that you do three times.",
            "Ctrl-C ends it."
        },
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {
            " 0:all well",
            " 1:a message of the file is late, wrong or missing, or nothing was learnt",
            " 2:wrong usage or an unreadable file",
            " 3:the adapter does not answer or was lost"
        },
        footer = {
            "",
            "Example: sprag bus watch --bus van-pair",
            "         sprag bus watch --port /dev/ttyACM0 --kbit 500 --learn \"brake pedal\"",
            "         sprag bus watch --bus van-pair --log drive.log"
        })
public final class BusWatchCommand implements Callable<Integer> {
    /** So many frames are taken before the end, the keyboard and the print are looked at again. */
    private static final int MOST_AT_ONCE = 2000;

    private static final long PRINT_EVERY_NS = 1_000_000_000;
    private static final long POLL_NS = 1_000_000;
    private static final double MOST_SECONDS = 1_000_000;
    private static final int USUAL_KBIT = 500;

    private final BiFunction<BoardSpec, Clock, Port> opener;
    private final InputStream keyboard;
    private final Clock clock;

    @Option(
            names = "--bus",
            paramLabel = "B",
            description = "A shipped bus, a bus file, or a folder that holds bus.toml.")
    private String busName;

    @Option(names = "--port", paramLabel = "PATH", description = "The adapter's port, instead of that in the file.")
    private String portPath;

    @Option(names = "--kbit", paramLabel = "N", description = "Speed of the bus in kbit/s, where there is no file.")
    private Integer kbit;

    @Option(names = "--log", paramLabel = "FILE", description = "Read a candump log instead of listening.")
    private Path log;

    @Option(names = "--record", paramLabel = "FILE", description = "Write what is heard as a candump log.")
    private Path record;

    @Option(
            names = "--seconds",
            paramLabel = "N",
            description = "End after N seconds (of a log: its own); else at Ctrl-C.")
    private Double seconds;

    @Option(
            names = "--acknowledge",
            description = "Acknowledge frames: needed where only one other node is on the bus.")
    private boolean acknowledge;

    @Option(names = "--learn", paramLabel = "WHAT", description = "Find the bits that follow what you do three times.")
    private String learn;

    @Option(names = "--json", description = "Print once at the end, for programs to read.")
    private boolean json;

    @Spec
    private CommandSpec spec;

    /** For the command line. */
    public BusWatchCommand() {
        this(BusPorts::port, System.in, Clock.real());
    }

    BusWatchCommand(BiFunction<BoardSpec, Clock, Port> opener, InputStream keyboard, Clock clock) {
        this.opener = opener;
        this.keyboard = keyboard;
        this.clock = clock;
    }

    @Override
    public Integer call() throws BadInput, IOException {
        refuseNonsense();
        BoardSpec bus = bus();
        BusWatch watch = new BusWatch(((BusDriver) bus.driver()).map());
        if (log == null && learn == null && record == null && BusPorts.isLog(bus)) {
            log = Path.of(bus.port().path());
        }
        if (log != null) {
            // A log has times of its own, and its end is no lost adapter.
            readLog(watch);
            return end(watch, watch.lastNs(), "");
        }
        TerminalWatch.start(true, keyboard);
        Port port = opener.apply(bus, clock);
        try (port) {
            return listen(port, watch);
        } catch (LinkLost e) {
            spec.commandLine().getErr().println("sprag: " + e.getMessage());
            return ExitCode.TROUBLE;
        }
    }

    /** What cannot be meant is refused, not passed over. */
    private void refuseNonsense() {
        CommandSpec command = spec;
        if (kbit != null) {
            BusSpeed.require(command, kbit);
        }
        if (kbit != null && busName != null) {
            throw new ParameterException(
                    command.commandLine(), "--kbit is given beside --bus, whose file says the speed: leave --kbit out");
        }
        if (seconds != null && !(seconds > 0 && seconds <= MOST_SECONDS)) {
            throw new ParameterException(
                    command.commandLine(),
                    "--seconds " + seconds + " is outside 0.." + (int) MOST_SECONDS + "; without it, Ctrl-C ends");
        }
        if (log != null && (portPath != null || record != null || learn != null || acknowledge)) {
            throw new ParameterException(
                    command.commandLine(),
                    "--log reads a file; --port, --record, --learn and --acknowledge need an adapter: leave one out");
        }
        if (learn != null && (seconds != null || json)) {
            throw new ParameterException(
                    command.commandLine(),
                    "--learn lasts as long as it says and prints words: no --seconds, no --json");
        }
    }

    private BoardSpec bus() throws BadInput {
        if (busName == null && log == null && (portPath == null || kbit == null)) {
            throw new ParameterException(spec.commandLine(), "give --bus, or --port with --kbit, or --log");
        }
        PortChoice port = PortChoice.path(portPath == null ? "none" : portPath);
        if (busName != null) {
            BusFile file = BusReader.read(Catalogue.installed().bus(busName));
            BoardSpec found = file.spec();
            return portPath == null
                    ? found
                    : new BoardSpec(found.name(), found.driver(), port, found.settings(), found.map());
        }
        BoardMap nothing = new BoardMap(List.of(), List.of());
        BusMap map = new BusMap(kbit == null ? USUAL_KBIT : kbit, List.of(), nothing, false);
        BoardSettings settings = new BoardSettings(Map.of(BoardSetting.BAUD, 115_200.0));
        return new BoardSpec("bus", new BusDriver(map), port, settings, nothing);
    }

    private int listen(Port port, BusWatch watch) throws IOException {
        port.open();
        SlcanLine line = new SlcanLine(port, clock);
        BusMap map = watch.map();
        line.open(map.bitRateKbit(), !acknowledge);
        long startNs = clock.nowNs();
        watch.begin(startNs);
        BusLearner learner = learn == null ? null : new BusLearner(learn, out());
        double lastsS = learner == null ? seconds == null ? Double.POSITIVE_INFINITY : seconds : learner.begin(startNs);
        long printNs = startNs + PRINT_EVERY_NS;
        CanFrame frame = new CanFrame();
        if (record != null) {
            OutFolder.refusePipe(record);
        }
        try (PrintWriter file = record == null ? null : new PrintWriter(Files.newBufferedWriter(record))) {
            while ((clock.nowNs() - startNs) / 1e9 < lastsS) {
                clock.waitUntil(clock.nowNs() + POLL_NS);
                for (int n = 0; n < MOST_AT_ONCE && line.next(frame); n++) {
                    long nowNs = clock.nowNs();
                    watch.accept(frame, nowNs);
                    if (file != null) {
                        file.println(CandumpText.write(nowNs, "bus", frame));
                    }
                    if (learner != null) {
                        learner.accept(frame, nowNs);
                    }
                }
                if (learner != null) {
                    learner.guide(clock.nowNs());
                } else if (clock.nowNs() >= printNs && !json && leftS(startNs, lastsS) > PRINT_EVERY_NS / 2e9) {
                    printNs += PRINT_EVERY_NS; // the last print is at the end: it must show more than a moment
                    watch.print(out(), clock.nowNs(), line.errorText());
                }
            }
            line.leave();
        }
        return learner == null ? end(watch, clock.nowNs(), line.errorText()) : learner.report();
    }

    private double leftS(long startNs, double lastsS) {
        return lastsS - (clock.nowNs() - startNs) / 1e9;
    }

    private int end(BusWatch watch, long nowNs, String adapter) {
        List<String> troubles = watch.troubles(nowNs);
        if (json) {
            out().println(watch.json(nowNs));
        } else {
            watch.print(out(), nowNs, adapter);
        }
        return troubles.isEmpty() ? ExitCode.WELL : ExitCode.FINDING;
    }

    private void readLog(BusWatch watch) throws BadInput {
        try {
            InputFile.requireRegular(log);
        } catch (InputFile.Refused e) {
            Problems problems = new Problems();
            problems.add(log, e.getMessage(), "Name a log in the text form of candump.");
            throw new BadInput(problems.list());
        }
        CanFrame frame = new CanFrame();
        int number = 0;
        long startNs = 0;
        try (BufferedReader reader = Files.newBufferedReader(log, StandardCharsets.US_ASCII)) {
            for (String text = reader.readLine(); text != null; text = reader.readLine()) {
                number++;
                CandumpText.Kind kind = text.isBlank() ? CandumpText.Kind.LEFT_OUT : CandumpText.read(text, frame);
                if (kind == CandumpText.Kind.BROKEN) {
                    throw new Trouble(log + ":" + number + ": \"" + text
                            + "\" is no line of a log, such as (1700000000.123456) can0 123#1122");
                }
                if (kind == CandumpText.Kind.FRAME) {
                    long timeNs = CandumpText.timeNs(text);
                    if (watch.frames() == 0) {
                        watch.begin(timeNs);
                        startNs = timeNs;
                    }
                    if (seconds != null && (timeNs - startNs) / 1e9 > seconds) {
                        return;
                    }
                    watch.accept(frame, timeNs);
                }
            }
        } catch (IOException e) {
            throw new Trouble("cannot read", log, e);
        }
    }

    private PrintWriter out() {
        return spec.commandLine().getOut();
    }
}
