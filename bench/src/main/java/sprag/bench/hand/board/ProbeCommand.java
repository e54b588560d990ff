package sprag.bench.hand.board;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.function.BiFunction;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import sprag.bench.bus.BusPorts;
import sprag.bench.cli.TerminalWatch;
import sprag.bench.cli.Within;
import sprag.bench.cli.Wrap;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.hal.Clock;
import sprag.hal.Health;
import sprag.hal.board.Board;
import sprag.hal.board.BoardSetting;
import sprag.hal.board.BoardSpec;
import sprag.hal.board.BoardState;
import sprag.hal.board.OutputPin;
import sprag.supervisor.vocabulary.Signal;

/** Shows the pins of a board while they are moved by hand, and moves one output at a time. */
@Command(
        name = "probe",
        mixinStandardHelpOptions = true,
        description = {
            "Shows what every pin of a board reads, while things are moved by hand.",
            "So a map can be made: counts, and the value in the signal's unit.",
            "With --pulse it switches one output on for a moment, after the cautions were",
            "read and the output's name was typed, and says which inputs answered.",
            "With --calibrate it measures a pedal.",
            "",
            "Nothing is driven without --pulse. Outputs are released at the end, at Ctrl-C,",
            "when the terminal is closed and when the link is lost."
        },
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {
            " 0:all well",
            " 1:the output was not confirmed, the wrong contact moved, or the pedal was not written",
            " 2:wrong usage or an unreadable file",
            " 3:the board does not answer, does not fit its map, or was lost"
        })
public final class ProbeCommand implements Callable<Integer> {
    private static final int TROUBLE = 3;
    private static final long LOOK_EVERY_NS = 250_000_000;
    private static final long PRINT_EVERY_NS = 1_000_000_000;
    private static final long GRACE_NS = 3_000_000_000L;

    private final BiFunction<BoardSpec, Clock, Board> opener;
    private final InputStream keyboard;
    private final Clock clock;
    private final long watchMs;

    @Option(
            names = "--board",
            required = true,
            paramLabel = "B",
            description = "A shipped board, a board file, or a folder that" + " holds board.toml.")
    private String boardName;

    @Option(names = "--once", description = "Print every pin once and end.")
    private boolean once;

    @Option(names = "--json", description = "Print once, for programs to read.")
    private boolean json;

    @Option(names = "--seconds", paramLabel = "N", description = "End after N seconds; else at Ctrl-C.")
    private double seconds = Double.POSITIVE_INFINITY;

    @Option(names = "--pulse", paramLabel = "OUTPUT", description = "Switch this output on for a moment.")
    private String pulse;

    @Option(names = "--ms", paramLabel = "N", description = "For how long, 10 to 5000 ms (default: 200).")
    private long pulseMs = 200;

    @Option(
            names = "--value",
            paramLabel = "X",
            description = "For an output that is a quantity: how much, in its unit.")
    private Double value;

    @Option(
            names = "--confirm",
            paramLabel = "OUTPUT",
            description = "The output's name again, instead of typing it when asked;"
                    + " the cautions are printed all the same.")
    private String confirmed;

    @Option(names = "--calibrate", paramLabel = "TRACK", description = "Measure pedal_a_v or pedal_b_v.")
    private String track;

    @Option(names = "--vehicle", paramLabel = "VEHICLE", description = "Whose file the pedal is written into.")
    private String vehicle;

    @Spec
    private CommandSpec spec;

    /** For the command line. */
    public ProbeCommand() {
        this(BusPorts::board, System.in, Clock.real(), 1000);
    }

    ProbeCommand(BiFunction<BoardSpec, Clock, Board> opener, InputStream keyboard, Clock clock, long watchMs) {
        this.opener = opener;
        this.keyboard = keyboard;
        this.clock = clock;
        this.watchMs = watchMs;
    }

    @Override
    public Integer call() throws BadInput, IOException {
        Within.check(spec, "--seconds", seconds, 0, Double.POSITIVE_INFINITY);
        Within.check(spec, "--ms", pulseMs, 10, 5000);
        Catalogue catalogue = Catalogue.installed();
        BoardSpec found = BoardReader.read(BoardFiles.find(catalogue, boardName));
        OutputPin output = pulse == null ? null : outputOf(found);
        Signal pedal = track == null ? null : trackOf(found);
        Path folder = vehicle == null ? null : catalogue.vehicle(vehicle);
        boolean asks = pulse != null && confirmed == null || track != null;
        TerminalWatch.start(true, asks ? null : keyboard);
        Board board = opener.apply(found, clock);
        board.start();
        try {
            if (!connected(board)) {
                spec.commandLine().getErr().println("sprag: " + board.health().reason());
                return TROUBLE;
            }
            if (output != null) {
                return pulse(board, output);
            }
            if (pedal != null) {
                return new PedalCalibration(board, clock, asker(), watchMs).run(pedal, folder);
            }
            return show(board);
        } finally {
            board.close();
        }
    }

    /** Waits for the first attempt to end, well or not. */
    private boolean connected(Board board) {
        long untilNs = clock.nowNs() + board.spec().settings().ns(BoardSetting.CONNECT_MS) + GRACE_NS;
        while (board.state() == BoardState.SEARCHING && !board.hasFailed() && clock.nowNs() < untilNs) {
            clock.waitUntil(clock.nowNs() + 5_000_000);
        }
        return board.state() != BoardState.SEARCHING;
    }

    private int show(Board board) {
        PinTable table = new PinTable(board);
        if (json) {
            out().println(table.json().toPrettyString());
            return board.health().isWell() ? 0 : TROUBLE;
        }
        boolean terminal = !once && System.console() != null;
        long endNs = once ? 0 : clock.nowNs() + (long) Math.min(seconds * 1e9, Long.MAX_VALUE / 4.0);
        int painted = 0;
        do {
            List<String> lines = table.lines();
            if (terminal && painted > 0) {
                out().print("\033[" + painted + "A\033[J");
            }
            lines.forEach(out()::println);
            out().flush();
            painted = lines.size();
            if (!once) {
                clock.waitUntil(clock.nowNs() + (terminal ? LOOK_EVERY_NS : PRINT_EVERY_NS));
            }
        } while (clock.nowNs() < endNs);
        return board.health().isWell() ? 0 : TROUBLE;
    }

    private int pulse(Board board, OutputPin pin) {
        out().println("CAUTION");
        for (String caution : PulseCautions.of(pin, board.spec())) {
            Wrap.at("- " + caution, 78, "  ").forEach(out()::println);
        }
        double asked = value == null ? 1 : value;
        out().println(pin.output().key() + " on " + pin.pin() + " of " + board.name() + ": " + shown(pin, asked)
                + " for " + pulseMs + " ms, then back to " + shown(pin, pin.safe()) + ".");
        String typed = confirmed != null
                ? confirmed
                : asker().ask("Type the output's name to go on, anything else to leave it: ");
        if (!typed.equals(pin.output().key())) {
            out().println("Left alone.");
            return 1;
        }
        Pulse act = new Pulse(board, clock);
        Health health = act.give(pin, asked, pulseMs);
        act.answers().forEach(out()::println);
        if (!health.isWell()) {
            spec.commandLine().getErr().println("sprag: " + health.reason());
            return TROUBLE;
        }
        List<Signal> wrong = act.wrongContacts(pin);
        if (!wrong.isEmpty()) {
            String words = "The wrong contact moved: " + pin.output().key() + " was pulsed and "
                    + wrong.stream().map(Signal::key).collect(Collectors.joining(", "))
                    + " answered. Contactors or contacts are swapped; find out which before you go on.";
            Wrap.at(words, 78, "").forEach(out()::println);
            return 1;
        }
        if (board.handOver().count() == 0) {
            out().println("Not done: the pulse never reached the port. Try a longer one with --ms.");
            return 1;
        }
        out().println(act.answers().isEmpty() ? "Done. No switch input answered." : "Done.");
        out().println("From command to port: " + board.handOver().summary() + ".");
        return 0;
    }

    private OutputPin outputOf(BoardSpec found) {
        for (OutputPin pin : found.map().outputs()) {
            if (pin.output().key().equals(pulse)) {
                if (!pin.output().isSwitch() && value == null) {
                    throw new ParameterException(
                            spec.commandLine(), pulse + " is a quantity: say how much with --value");
                }
                return pin;
            }
        }
        throw new ParameterException(
                spec.commandLine(),
                "--pulse " + pulse + " is no output of " + found.name() + "; it has "
                        + found.map().driven().stream().map(o -> o.key()).toList());
    }

    private Signal trackOf(BoardSpec found) {
        for (Signal signal : List.of(Signal.PEDAL_A_V, Signal.PEDAL_B_V)) {
            if (signal.key().equals(track) && found.map().signals().contains(signal)) {
                if (vehicle == null) {
                    throw new ParameterException(spec.commandLine(), "--calibrate needs --vehicle: whose pedal is it?");
                }
                return signal;
            }
        }
        throw new ParameterException(
                spec.commandLine(),
                "--calibrate " + track + " must be pedal_a_v or pedal_b_v, and an input of " + found.name());
    }

    private static String shown(OutputPin pin, double asked) {
        if (pin.kind().twoState) {
            return asked == 0 ? "off" : "on";
        }
        return (asked + " " + pin.output().unit.symbol).trim();
    }

    private PrintWriter out() {
        return spec.commandLine().getOut();
    }

    private Prompt asker() {
        return new Prompt(new BufferedReader(new InputStreamReader(keyboard, Charset.defaultCharset())), out());
    }
}
