package sprag.bench.hand.commission;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.function.BiFunction;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import sprag.bench.bus.BusPorts;
import sprag.bench.bus.BusReader;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.Interruption;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.TerminalWatch;
import sprag.bench.cli.Trouble;
import sprag.bench.hand.board.BoardFiles;
import sprag.bench.hand.board.BoardReader;
import sprag.bench.hand.board.BothMaps;
import sprag.bench.hand.commission.pins.BoardPins;
import sprag.bench.hand.commission.pins.JoinedPins;
import sprag.bench.hand.commission.pins.Loom;
import sprag.bench.hand.commission.pins.PinDriver;
import sprag.bench.hand.commission.pins.Pins;
import sprag.bench.hand.commission.pins.WireFault;
import sprag.bench.hand.commission.record.BringUpJournal;
import sprag.bench.hand.commission.record.CommissionRecord;
import sprag.bench.hand.commission.record.Fingerprints;
import sprag.bench.hand.commission.record.JournalEntry;
import sprag.bench.hand.commission.record.RecordPage;
import sprag.bench.hand.commission.record.RecordState;
import sprag.bench.hand.commission.steps.Answers;
import sprag.bench.hand.commission.steps.Console;
import sprag.bench.hand.commission.steps.Keyboard;
import sprag.bench.hand.commission.steps.Plan;
import sprag.bench.hand.commission.steps.StepContext;
import sprag.bench.loop.record.Recorder;
import sprag.bench.loop.record.Recordings;
import sprag.bench.page.Cautions;
import sprag.bench.review.pins.Drawing;
import sprag.bench.review.pins.PinBudget;
import sprag.bench.review.pins.Wired;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.BoardReference;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleArgument;
import sprag.bench.vehicle.VehicleReader;
import sprag.hal.Clock;
import sprag.hal.board.Board;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSpec;

/** {@code commission}: the guided bring-up. */
@Command(
        name = "commission",
        mixinStandardHelpOptions = true,
        description = {
            "Guides through bringing up the low-voltage side, traction battery absent.",
            "Supplies, every input, every output, cut-off, start and stop, plug lock-out,",
            "interlocks: the steps are made from the vehicle's file, its wiring schedule and",
            "the board's map. Leaves a dated record to print.",
            "",
            "Without --board it is a REHEARSAL on the simulated car. Nothing is driven",
            "before the map and the cautions were shown and the word was typed."
        },
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {
            " 0:every step passed",
            " 1:a step failed, was skipped, or is not done",
            " 2:wrong usage, a file with errors, or a record of other files",
            " 3:the board does not answer or was lost, or the disk is full"
        },
        footer = {
            "",
            "Example: sprag commission parcel-van",
            "         sprag commission parcel-van --board usb-bench --out first-bring-up",
            "         sprag commission parcel-van --board usb-bench --resume first-bring-up"
        })
public final class CommissionCommand implements Callable<Integer> {
    private final BiFunction<BoardSpec, Clock, Board> opener;
    private final InputStream keyboard;
    private final boolean answersFromFile;
    private final Clock clock;
    private final Recorder.Pace boardPace;

    @Mixin
    private VehicleArgument named;

    @Option(
            names = "--board",
            paramLabel = "B",
            description = "A shipped board, a board file, or a folder that holds board.toml.")
    private String boardName;

    @Option(
            names = "--bus",
            paramLabel = "B",
            description = "A shipped data bus, a bus file, or a folder with bus.toml.")
    private String busName;

    @Option(
            names = "--rehearse",
            description = "Answer every question by itself, on the simulated car; with --board its map is rehearsed and"
                    + " the board is not touched.")
    private boolean rehearse;

    @Option(
            names = "--fault",
            paramLabel = "F",
            description =
                    "Plant a fault in a rehearsal: WIRE.dead, WIRE.swapped=OTHER, cut_off.bypassed, cut_off.slow=MS.")
    private List<String> faultNames = new ArrayList<>();

    @Option(
            names = "--out",
            paramLabel = "DIR",
            description = "Where to write (default: a new folder under the current one).")
    private Path outDir;

    @Option(names = "--resume", paramLabel = "DIR", description = "Continue the record in this folder.")
    private Path resumeDir;

    @Option(
            names = "--despite-change",
            description =
                    "Continue although the vehicle, its wiring or the board's map has changed; the record says so.")
    private boolean despiteChange;

    @Option(names = "--json", description = "Print the record as JSON at the end; questions go to standard error.")
    private boolean json;

    @Spec
    private CommandSpec spec;

    private BoardSpec board;
    private Path boardFile;
    private final List<String> aboutBoard = new ArrayList<>();
    private BoardSpec bus;
    private Path busFile;
    private BoardMap map;

    /** For the command line. */
    public CommissionCommand() {
        this(BusPorts::board, System.in, TerminalWatch.isInputFile(), Clock.real(), Recorder.Pace.REAL_TIME);
    }

    /** With a clock that need not be the machine's.
     *
     * @param opener makes a board that runs on the clock
     * @param answersFromFile whether the end of the keyboard's lines is no sign that somebody has left
     * @param clock the time of everything that is done on a board
     * @param boardPace whether that time can wait for the disk
     */
    CommissionCommand(
            BiFunction<BoardSpec, Clock, Board> opener,
            InputStream keyboard,
            boolean answersFromFile,
            Clock clock,
            Recorder.Pace boardPace) {
        this.opener = opener;
        this.keyboard = keyboard;
        this.answersFromFile = answersFromFile;
        this.clock = clock;
        this.boardPace = boardPace;
    }

    @Override
    public Integer call() throws BadInput {
        checkUsage();
        Catalogue catalogue = Catalogue.installed();
        Path folder = named.folder();
        Vehicle vehicle = VehicleReader.readSupervised(folder);
        Drawing drawing = Drawing.read(folder);
        if (boardName != null) {
            boardFile = BoardFiles.find(catalogue, boardName);
            board = BoardReader.read(boardFile);
            BoardCircuits.check(boardFile, drawing).ifPresent(aboutBoard::add);
            BoardReader.reference(boardFile).map(BoardReference::text).ifPresent(aboutBoard::add);
        }
        if (busName != null) {
            busFile = catalogue.bus(busName);
            bus = BusReader.read(busFile, vehicle).spec();
        }
        map = map();
        Wired wired = Wired.of(vehicle, drawing, map);
        List<WireFault> faults = faults(wired);
        TerminalWatch.start(!isRehearsal(), null);
        Path out = resumeDir == null ? OutFolder.open(outDir) : resumeDir;
        try (Interruption interruption = new Interruption();
                BringUpJournal journal = new BringUpJournal(out);
                Recordings recordings = Recordings.into(out, pace())) {
            if (bus != null) {
                BusPorts.listen(bus, recordings);
            }
            RecordState state = begin(vehicle, new RecordState(journal), Fingerprints.of(folder, boardFile, busFile));
            try (Pins pins = isRehearsal() ? new Loom(vehicle, wired, map, faults) : connect()) {
                Loom loom = pins instanceof Loom simulated ? simulated : null;
                Answers answers = rehearse
                        ? new SimulatedAnswers()
                        : new Keyboard(keyboard, interruption, loom == null, answersFromFile || loom != null);
                PinDriver driver = new PinDriver(vehicle, pins, recordings, answers::isDeserted);
                StepContext context = new StepContext(
                        vehicle, drawing, wired, pins, loom, driver, new Console(out(), answers, driver), bus != null);
                int status = commission(context, state, out);
                if (!recordings.trouble().isEmpty()) {
                    throw new Trouble(recordings.trouble());
                }
                return status;
            }
        }
    }

    private void checkUsage() {
        if (resumeDir != null && outDir != null) {
            throw new ParameterException(spec.commandLine(), "--out and --resume exclude each other");
        }
        if (resumeDir != null && !Files.isRegularFile(resumeDir.resolve(BringUpJournal.FILE))) {
            throw new ParameterException(
                    spec.commandLine(),
                    "--resume " + resumeDir + " holds no " + BringUpJournal.FILE + "; name the folder of a record");
        }
        if (outDir != null && Files.exists(outDir.resolve(BringUpJournal.FILE))) {
            throw new ParameterException(
                    spec.commandLine(),
                    outDir + " already holds a record: continue it with --resume " + outDir
                            + ", or name another folder");
        }
        if (!faultNames.isEmpty() && !isRehearsal()) {
            throw new ParameterException(
                    spec.commandLine(), "--fault is for rehearsals only: leave --board and --bus out");
        }
    }

    private boolean isRehearsal() {
        return boardName == null && busName == null || rehearse;
    }

    private Recorder.Pace pace() {
        return isRehearsal() ? Recorder.Pace.SIMULATED : boardPace;
    }

    /** What is wired to the board and carried by the bus, null when there is neither. */
    private BoardMap map() throws BadInput {
        if (board != null && bus != null) {
            return BothMaps.join(board.map(), bus.map(), busFile);
        }
        return board != null ? board.map() : bus != null ? bus.map() : null;
    }

    private Pins connect() {
        if (board == null || bus == null) {
            return BoardPins.connect(opener.apply(board != null ? board : bus, clock), clock);
        }
        Pins first = BoardPins.connect(opener.apply(board, clock), clock);
        try {
            return new JoinedPins(first, BoardPins.connect(opener.apply(bus, clock), clock), map);
        } catch (Trouble e) {
            first.close();
            throw e;
        }
    }

    /** The board's and the bus's names, as the record keeps them. */
    private String names() {
        String first = board == null ? "" : board.name();
        return bus == null ? first : first.isEmpty() ? bus.name() : first + " and " + bus.name();
    }

    private List<WireFault> faults(Wired wired) {
        try {
            return faultNames.stream()
                    .map(name -> WireFault.parse(name, wired.signals(), wired.outputs()))
                    .toList();
        } catch (IllegalArgumentException e) {
            throw new ParameterException(spec.commandLine(), e.getMessage(), e);
        }
    }

    /** Begins a record, or checks that this one is about the same vehicle, board and files. */
    private RecordState begin(Vehicle vehicle, RecordState state, Map<String, String> fingerprints) throws BadInput {
        String name = names();
        JournalEntry.Begin begun = state.begin();
        if (begun == null) {
            state.addBegin(vehicle.name(), isRehearsal(), name, fingerprints, faultNames);
            return state;
        }
        if (begun.rehearsal() != isRehearsal()
                || !begun.board().equals(name)
                || !begun.vehicle().equals(vehicle.name())) {
            throw refused(
                    "is a " + (begun.rehearsal() ? "rehearsal" : "record") + " of " + begun.vehicle()
                            + (begun.board().isEmpty() ? " without a board" : " with board \"" + begun.board() + "\""),
                    "Resume it with the same vehicle and board, or begin a new one.");
        }
        List<String> changed = Fingerprints.changed(state.fingerprints(), fingerprints);
        if (!changed.isEmpty() && !despiteChange) {
            throw refused(
                    "is about other files: since then these have changed: " + String.join(", ", changed),
                    "Begin a new record, or add --despite-change: the record then marks the steps done before the"
                            + " change.");
        }
        if (!changed.isEmpty()) {
            state.addChange(changed, fingerprints);
        }
        return state;
    }

    private BadInput refused(String found, String remedy) {
        return BadInput.of(resumeDir.resolve(BringUpJournal.FILE), 1, found, remedy);
    }

    private int commission(StepContext context, RecordState state, Path out) {
        Plan plan = Plan.of(context);
        greet(context, plan);
        CommissionRecord record = new CommissionRecord(
                context.vehicle().name(), context.vehicle().description(), plan.texts(), plan.gaps(), state);
        context.drawing().unguardedOutputs().ifPresent(sentence -> {
            context.console().say("CAUTION " + sentence);
            state.addNote(sentence);
        });
        try {
            new BringUpSession(context, plan, state).run();
            context.pins().figures().forEach(state::addNote);
            if (!context.isRehearsal()) {
                state.addNote("delay of a tick: " + context.driver().lateness().summary());
            }
        } catch (Trouble e) {
            state.addNote("ended early: " + e.getMessage());
            throw e;
        } finally {
            write(out.resolve("commission.html"), RecordPage.of(record));
            write(out.resolve("commission.json"), record.json());
        }
        Console console = context.console();
        console.say("");
        console.say((context.isRehearsal() ? "REHEARSAL, nothing real: " : "") + record.summary() + ".");
        if (json) {
            spec.commandLine().getOut().println(record.json());
        }
        console.say("Written to " + out);
        return record.isPassed() ? ExitCode.WELL : ExitCode.FINDING;
    }

    private void greet(StepContext context, Plan plan) {
        PrintWriter out = out();
        if (context.isRehearsal()) {
            out.println("**************************** REHEARSAL ****************************");
            out.println("Every pin is simulated. What passes here says nothing about a real car.");
            out.println("*******************************************************************");
        }
        context.console()
                .say("Commissioning of " + context.vehicle().name() + " on "
                        + context.pins().identity() + ": " + plan.steps().size() + " steps, traction battery absent.");
        context.console()
                .say(
                        context.isRehearsal()
                                ? Cautions.STANDING
                                : "Not certified. No approval. Not for a car on the road.");
        context.console()
                .say(PinBudget.of(context.vehicle(), context.drawing())
                        .text(context.pins().map()));
        aboutBoard.forEach(context.console()::say);
        if (!plan.gaps().isEmpty()) {
            context.console()
                    .say(plan.gaps().size()
                            + " inputs, outputs and interlocks are not covered; the record lists them.");
        }
    }

    private PrintWriter out() {
        return json ? spec.commandLine().getErr() : spec.commandLine().getOut();
    }

    /** Written beside and moved, so that a full disk never leaves half a record. */
    private static void write(Path file, String text) {
        Path beside = file.resolveSibling(file.getFileName() + ".new");
        try {
            Files.writeString(beside, text);
            Files.move(beside, file, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException e) {
            throw new Trouble("cannot write", file, e);
        }
    }

    /** Answers as the simulated person would. */
    private static final class SimulatedAnswers implements Answers {
        @Override
        public String next(PinDriver driver, String simulated) {
            return simulated;
        }

        @Override
        public String unasked() {
            return null;
        }

        @Override
        public boolean isDeserted() {
            return false;
        }
    }
}
