package sprag.bench.panel.bench;

import java.util.List;
import sprag.bench.panel.bench.FrameLayout.Head;
import sprag.bench.panel.guide.Guide;
import sprag.bench.panel.session.BoardLink;
import sprag.bench.panel.session.CarSession;
import sprag.bench.scenario.Scenario;
import sprag.bench.wired.LiveSheets;
import sprag.bench.wired.WiredCar;

/** What pages are shown: numbers in frames, and words. The bench's thread writes; any thread may read what was written last. */
public final class Publisher {
    /** How often a frame goes out. */
    public static final long FRAME_MS = 50;

    private static final long FRAMES_PER_S = 1000 / FRAME_MS;

    private final Bench bench;
    private final Pace pace;
    private final FrameLayout layout = new FrameLayout();
    private long frames;
    private String boardFigures = "";
    private volatile byte[] frame = new byte[0];
    private volatile PageState state;
    private volatile LiveSheets.State circuit;
    private WiredCar circuitOf;
    private long circuitChanges;

    public Publisher(Bench bench, Pace pace) {
        this.bench = bench;
        this.pace = pace;
    }

    /** Publishes what stands on the bench now. */
    public void publish(long nowNs) {
        CarSession session = bench.session();
        Scenario playing = bench.playing();
        double played = playing == null ? -1 : Math.min(1, session.loop.timeMs() / (double) playing.durationMs());
        layout.set(Head.FRAME, frames++);
        layout.set(Head.SPEED, pace.speed());
        layout.set(Head.PAUSED, pace.isPaused() ? 1 : 0);
        layout.set(Head.PLAYED, played);
        layout.set(Head.SLIPPED_S, pace.slippedS());
        frame = layout.write(session, nowNs);
        List<String> faults = session.loop.present();
        PageState now = new PageState(
                Guide.of(session),
                faults,
                playing == null ? "" : playing.name(),
                session.device.health().reason(),
                boardLine(session));
        if (!now.equals(state)) {
            state = now;
        }
        follow(session.wires);
    }

    /** The circuit is read only when something in it may have moved. */
    private void follow(WiredCar wires) {
        if (wires == null || wires == circuitOf && wires.changes() == circuitChanges) {
            return;
        }
        circuitOf = wires;
        circuitChanges = wires.changes();
        LiveSheets.State now = bench.sheets().of(wires);
        if (!now.equals(circuit)) {
            circuit = now;
        }
    }

    /** What the board is, and how quick board and loop are; the figures are renewed once a second. */
    private String boardLine(CarSession session) {
        BoardLink board = bench.board();
        if (board == null) {
            return "";
        }
        if (frames % FRAMES_PER_S == 0 || frames == 1) {
            boardFigures = "delay of a tick: " + session.loop.loop().lateness().summary() + "; " + board.figures();
        }
        return board.stage() + " " + board.identity() + " \u00b7 " + boardFigures;
    }

    /** The newest frame; nobody changes it. */
    public byte[] frame() {
        return frame;
    }

    /** What the drawn circuit does, the same object until that changes; null without one. */
    public LiveSheets.State circuit() {
        return circuit;
    }

    /** The newest words; the same object until a word changes. */
    public PageState state() {
        return state;
    }
}
