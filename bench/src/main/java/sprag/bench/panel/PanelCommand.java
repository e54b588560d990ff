package sprag.bench.panel;

import java.io.PrintWriter;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import sprag.bench.bus.BusFile;
import sprag.bench.bus.BusPorts;
import sprag.bench.bus.BusReader;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.Terminal;
import sprag.bench.cli.TerminalWatch;
import sprag.bench.cli.Trouble;
import sprag.bench.cli.Within;
import sprag.bench.hand.board.BoardFiles;
import sprag.bench.hand.board.BoardReader;
import sprag.bench.hand.board.BothMaps;
import sprag.bench.loop.TakenOut;
import sprag.bench.loop.record.Recorder;
import sprag.bench.loop.record.Recordings;
import sprag.bench.page.Cautions;
import sprag.bench.panel.bench.BenchThread;
import sprag.bench.panel.bench.ControlLease;
import sprag.bench.panel.session.BoardLink;
import sprag.bench.panel.session.Subject;
import sprag.bench.panel.web.Invitation;
import sprag.bench.panel.web.Panel;
import sprag.bench.panel.web.PanelServer;
import sprag.bench.panel.web.QrCode;
import sprag.bench.port.chip.ChipOption;
import sprag.bench.port.chip.ChipSeat;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleArgument;
import sprag.bench.wired.WiredPlan;
import sprag.hal.Clock;
import sprag.hal.board.BoardSpec;
import sprag.supervisor.vocabulary.Interlock;

/** {@code panel}: the live bench in a browser. */
@Command(
        name = "panel",
        mixinStandardHelpOptions = true,
        description = {
            "Shows the bench in a browser: pull levers, break things, see why.",
            "Prints one link; whoever has it can look on and ask for control.",
            "Ctrl-C, a closed terminal or a lost remote line ends it and releases everything."
        },
        footer = {"", "Example: sprag panel parcel-van"})
public final class PanelCommand implements Callable<Integer> {
    private static final long END_WITHIN_MS = 2000;
    private static final int HIGHEST_PORT = 65_535;

    @Mixin
    private VehicleArgument named;

    @Option(
            names = "--port",
            paramLabel = "N",
            defaultValue = "8640",
            description = "Port to listen on, 0 for any free one (default: ${DEFAULT-VALUE}).")
    private int port;

    @Option(
            names = "--bind",
            paramLabel = "ADDRESS",
            defaultValue = "127.0.0.1",
            description =
                    "Address to listen on; others than this machine's own loopback let the whole network try (default:"
                            + " ${DEFAULT-VALUE}).")
    private String address;

    @Option(
            names = "--board",
            paramLabel = "B",
            description = "Name of a shipped board, or path to its file: its pins come before the simulated car's.")
    private String boardName;

    @Option(
            names = "--bus",
            paramLabel = "B",
            description =
                    "Name of a shipped data bus, or path to its file: its signals come before the simulated car's.")
    private String busName;

    @Option(
            names = "--simulate-bus",
            paramLabel = "B",
            description = "Put this data bus between the simulated car and the supervisor, with its faults and its"
                    + " scenarios; for the simulated car only.")
    private String simulatedBusName;

    @Option(
            names = "--out",
            paramLabel = "DIR",
            description = "Record every tick into this folder, for replay; with a board that is done in any case, by"
                    + " itself into a new folder under the current one.")
    private Path outDir;

    @Mixin
    private ChipOption chip;

    @Option(
            names = "--without",
            paramLabel = "ID",
            description = "Take out an interlock, to see what it is needed for; may be given more than once; for the"
                    + " simulated car only.")
    private List<String> withoutIds = new ArrayList<>();

    @Option(
            names = "--wired",
            description =
                    "Put the drawn circuit of wiring.csv between the supervisor and the car; for the simulated car"
                            + " only (docs/wired.md).")
    private boolean wired;

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() throws BadInput {
        Within.check(spec, "--port", port, 0, HIGHEST_PORT);
        Catalogue catalogue = Catalogue.installed();
        Vehicle vehicle = named.readSupervised();
        Set<Interlock> without = TakenOut.of(spec.commandLine(), withoutIds);
        refuseNoAddress();
        forSimulatedOnly("--simulate-bus", simulatedBusName != null);
        forSimulatedOnly("--chip", chip.wanted());
        forSimulatedOnly("--without", !without.isEmpty());
        forSimulatedOnly("--wired", wired);
        WiredPlan wires = wired ? WiredPlan.of(vehicle) : null;
        BusFile simulated = simulatedBusName == null ? null : BusReader.read(catalogue.bus(simulatedBusName), vehicle);
        List<Scenario> scenarios = PlayableScenarios.suiting(catalogue, vehicle, simulated);
        TerminalWatch.start(isReal(), System.in);
        BoardSpec bus = bus(catalogue, vehicle);
        BoardLink board = boards(catalogue, bus);
        CountDownLatch ended = new CountDownLatch(1);
        // With a board every tick is kept: what happened on real pins cannot be played again.
        Path folder = !isReal() && outDir == null ? null : OutFolder.open(outDir);
        try (Recordings recordings = recordings(folder);
                ChipSeat seat = chip.seat(vehicle, without)) {
            if (bus != null) {
                BusPorts.listen(bus, recordings);
            }
            Subject subject = new Subject(vehicle, simulated, board, wires, without);
            Panel panel = new Panel(subject, Clock.real(), scenarios, new ControlLease(), recordings, seat);
            Runtime.getRuntime().addShutdownHook(new Thread(() -> end(panel.thread(), ended)));
            return serve(vehicle, panel, folder, recordings);
        } finally {
            if (board != null) {
                board.device().close();
            }
            ended.countDown();
        }
    }

    /** An empty one, as of a variable that is not set, gives a link that no browser follows. */
    private void refuseNoAddress() {
        if (address.isBlank()) {
            throw new ParameterException(
                    spec.commandLine(), "--bind is empty: give an address, or leave it out for this machine alone");
        }
    }

    private void forSimulatedOnly(String option, boolean given) {
        if (given && isReal()) {
            throw new ParameterException(
                    spec.commandLine(), option + " is for the simulated car only: leave --board and --bus out");
        }
    }

    private int serve(Vehicle vehicle, Panel panel, Path folder, Recordings recordings) {
        try (PanelServer server = new PanelServer(panel, address, port)) {
            greet(vehicle, server);
            if (folder != null) {
                String trouble = recordings.trouble();
                out().println(
                                trouble.isEmpty()
                                        ? "Every tick is recorded into " + folder + "."
                                        : "CAUTION: " + trouble + ".");
            }
            out().println("Ctrl-C ends it.");
            out().flush();
            panel.thread().run();
        }
        out().println("The bench has ended.");
        out().flush();
        if (recordings.trouble().isEmpty()) {
            return ExitCode.WELL;
        }
        spec.commandLine().getErr().println("sprag: " + recordings.trouble());
        return ExitCode.TROUBLE;
    }

    /** Whatever ends the program ends the bench first, which releases everything. */
    private static void end(BenchThread thread, CountDownLatch ended) {
        thread.stop();
        try {
            if (!ended.await(END_WITHIN_MS, TimeUnit.MILLISECONDS)) {
                System.err.println("sprag: the bench did not end within " + END_WITHIN_MS + " ms");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private Recordings recordings(Path folder) {
        if (folder == null) {
            return Recordings.none();
        }
        return Recordings.into(folder, !isReal() ? Recorder.Pace.SIMULATED : Recorder.Pace.REAL_TIME);
    }

    private boolean isReal() {
        return boardName != null || busName != null;
    }

    /** The board, the bus, both as one, or null. Both files are read before either is opened. */
    private BoardLink boards(Catalogue catalogue, BoardSpec bus) throws BadInput {
        BoardSpec board = boardName == null ? null : BoardReader.read(BoardFiles.find(catalogue, boardName));
        if (board != null && bus != null) {
            BothMaps.join(board.map(), bus.map(), catalogue.bus(busName));
            return new JoinedBoards(List.of(open(board), open(bus)));
        }
        return board != null ? open(board) : bus != null ? open(bus) : null;
    }

    private BoardSpec bus(Catalogue catalogue, Vehicle vehicle) throws BadInput {
        return busName == null
                ? null
                : BusReader.read(catalogue.bus(busName), vehicle).spec();
    }

    private static BoardLink open(BoardSpec board) {
        return new RealBoard(BusPorts.board(board, Clock.real()));
    }

    private PrintWriter out() {
        return spec.commandLine().getOut();
    }

    private void greet(Vehicle vehicle, PanelServer server) {
        PrintWriter out = out();
        String pins = !isReal()
                ? "simulated car, no board" + (simulatedBusName == null ? "" : ", data bus " + simulatedBusName)
                        + (wired ? ", wired as drawn" : "")
                : (boardName == null ? "" : "board " + boardName + ", ")
                        + (busName == null ? "" : "bus " + busName + ", ") + "the rest simulated";
        out.println("Panel for " + vehicle.name() + ", " + pins + ":");
        out.println();
        out.println("  " + server.link());
        out.println();
        if (!isLoopback()) {
            invite(server);
        }
        if (!withoutIds.isEmpty()) {
            out.println("WEAKENED ON PURPOSE: without " + String.join(", ", withoutIds) + ".");
            out.println();
        }
        out.println(Cautions.STANDING);
        if (isReal()) {
            out.println("The board's outputs stay released until somebody arms it on the page. Before that:");
            Cautions.RULES.forEach(rule -> out.println("- " + rule));
        }
    }

    /** The links for others, with a code for the cameras of their phones where a terminal shows it. */
    private void invite(PanelServer server) {
        PrintWriter out = out();
        for (Invitation each : server.invitations()) {
            out.println("  " + each.words() + ":");
            out.println("  " + each.url());
            if (Terminal.colour()) {
                QrCode.lines(each.url()).forEach(line -> out.println("  " + line));
            }
            out.println();
        }
        out.println(
                "CAUTION: it listens on " + address + ". Others on the network can reach it, nothing on the way is");
        out.println("encrypted, and whoever reads the first link can move the levers. Give away the other links only.");
        out.println();
    }

    private boolean isLoopback() {
        try {
            return InetAddress.getByName(address).isLoopbackAddress();
        } catch (UnknownHostException e) {
            throw new Trouble("cannot find the address " + address + ": " + e.getMessage());
        }
    }
}
