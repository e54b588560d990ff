package sprag.bench.panel;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ArrayBlockingQueue;
import sprag.bench.car.Lever;
import sprag.bench.loop.Event;
import sprag.bench.loop.FrameColumns;
import sprag.bench.loop.record.Recordings;
import sprag.bench.loop.trace.Frame;
import sprag.bench.panel.FrameLayout.Head;
import sprag.bench.panel.Note.Kind;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.Clock;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.Transition;

/**
 * The car and the supervisor on a thread of their own. Orders come in through a bounded queue; a frame goes out twenty times a
 * second as one array that nobody changes afterwards. Nothing here waits for a page.
 */
final class BenchThread implements Runnable {
    /** Where the noise of every car here starts, so that a saved scenario comes out the same. */
    static final long SEED = 1;
    /** How often a frame goes out. */
    static final long FRAME_MS = 50;
    /** How long a signal stays forced that is not renewed. */
    static final long FORCED_MS = 30_000;

    private static final long FRAMES_PER_S = 1000 / FRAME_MS;
    private static final int WAITING_ORDERS = 256;
    private static final long NS_PER_MS = 1_000_000;
    private static final long NAP_NS = 4 * NS_PER_MS;
    private static final long HOPELESS_NS = 200 * NS_PER_MS;

    private final Vehicle vehicle;
    private final BoardLink board;
    private final Clock wall;
    private final ControlLease helm;
    private final Orders orders;
    private final Recordings recordings;
    private final ArrayBlockingQueue<Sent> waiting = new ArrayBlockingQueue<>(WAITING_ORDERS);
    private final FrameLayout layout = new FrameLayout();
    private final NoteBook notes = new NoteBook();
    private final Recent recent = new Recent();
    private final ActionLog doings = new ActionLog();
    private final Frame frame = FrameColumns.CHANNELS.newFrame();

    private volatile boolean going = true;
    private volatile byte[] newest = new byte[0];
    private volatile PageState told;
    private volatile long carMs;
    private Plant plant;
    private int term;
    private double speed = 1;
    private boolean paused;
    private int singleTicks;
    private long dueNs;
    private long frameDueNs;
    private long frames;
    private double slippedS;
    private String quickness = "";
    private String recordingTold = "";
    private ScenarioPlayback playing;

    private record Sent(int term, Order order) {}

    /** A bench with a car at rest.
     *
     * @param vehicle what it is
     * @param board real pins, null for none
     * @param wall the real time
     * @param helm who is in control
     * @param scenarios what can be played
     * @param recordings where every tick of every car goes
     */
    BenchThread(
            Vehicle vehicle,
            BoardLink board,
            Clock wall,
            ControlLease helm,
            List<Scenario> scenarios,
            Recordings recordings) {
        this.recordings = recordings;
        this.vehicle = vehicle;
        this.board = board;
        this.wall = wall;
        this.helm = helm;
        this.orders = new Orders(this, scenarios);
        dueNs = wall.nowNs();
        frameDueNs = dueNs;
        renew();
        publish(dueNs);
    }

    /** Puts an order in the queue; any thread may.
     *
     * @return false when the queue is full
     */
    boolean order(Order order) {
        return waiting.offer(new Sent(helm.term(), order));
    }

    /** Runs until {@link #stop}, then releases everything. */
    @Override
    public void run() {
        try {
            while (going) {
                if (playing != null) {
                    playing.play();
                    playing = null;
                } else if (board != null) {
                    plant.closed.run(this::beforeRealTick, this::seen);
                } else {
                    advance();
                }
            }
        } finally {
            plant.device.release();
            recordings.close();
        }
    }

    /** Asks it to end; any thread may. */
    void stop() {
        going = false;
    }

    /** With a board the loop itself keeps the time. */
    boolean beforeRealTick() {
        Plant before = plant;
        long nowNs = wall.nowNs();
        between(nowNs);
        return going && plant == before;
    }

    /** Does what is due now and waits for what is due next.
     *
     * @return true when a tick has run
     */
    boolean advance() {
        long nowNs = wall.nowNs();
        Plant before = plant;
        between(nowNs);
        if (plant != before) {
            return false;
        }
        boolean ticks = paused ? singleTicks > 0 : nowNs >= dueNs;
        if (ticks) {
            singleTicks = 0;
            tick();
            dueNs += Math.round(plant.tickMs * NS_PER_MS / speed);
        }
        if (paused) {
            dueNs = nowNs;
        } else if (nowNs - dueNs > HOPELESS_NS) {
            slippedS += (nowNs - dueNs) / 1e9;
            dueNs = nowNs;
        }
        if (paused || dueNs > nowNs) {
            long wakeNs = paused ? frameDueNs : Math.max(dueNs, speed > 1 ? nowNs + NAP_NS : dueNs);
            wall.waitUntil(Math.min(wakeNs, frameDueNs));
        }
        return ticks;
    }

    /** What is done between two ticks, however time passes. */
    private void between(long nowNs) {
        notes.at(plant.timeMs(), plant.loop.ticks());
        keepWatch(nowNs);
        for (Sent sent = waiting.poll(); sent != null; sent = waiting.poll()) {
            if (sent.term > term) {
                keepWatch(nowNs);
            }
            if (sent.term == term) {
                orders.carryOut(sent.order, nowNs);
            }
        }
        if (nowNs >= frameDueNs) {
            publish(nowNs);
            frameDueNs = Math.max(frameDueNs + FRAME_MS * NS_PER_MS, nowNs);
        }
    }

    /** The dead man's handle: a page that is gone or silent holds nothing any more. */
    private void keepWatch(long nowNs) {
        helm.watch(nowNs);
        int now = helm.term();
        if (now != term) {
            boolean first = term == 0;
            term = now;
            if (!first) {
                letGo(helm.lost());
            }
        }
        Signal over = plant.device.expire(nowNs);
        if (over != null) {
            notes.add(Kind.FORCED, over.key(), FORCED_MS / 1000 + " s are over", "shows again what the wire says");
        }
    }

    /** Everything that a person held is let go. */
    private void letGo(String why) {
        List<Lever> held = plant.letGo();
        held.forEach(lever -> doings.add(new ActionLog.Moved(plant.timeMs(), lever, lever.initial)));
        List<String> words = new ArrayList<>(
                held.stream().map(lever -> lever.key() + " let go").toList());
        if (plant.device.dropAll()) {
            words.add("forced signals dropped");
        }
        if (stopPlaying()) {
            words.add("scenario stopped");
        }
        if (board != null) {
            board.disarm();
            words.add("board disarmed");
        }
        notes.add(Kind.PANEL, "control", why, words.isEmpty() ? "nothing was held" : String.join(", ", words));
    }

    private void tick() {
        plant.closed.decide();
        seen();
        plant.closed.live();
    }

    /** Everybody looks at the tick that was just decided, before the car lives through it. */
    void seen() {
        notes.at(plant.timeMs() - plant.tickMs, plant.loop.ticks() - 1);
        tellEvents();
        plant.latches.update(plant.supervisor, plant.loop.ticks() - 1);
        plant.closed.show(frame);
        recent.see(frame);
        carMs = plant.timeMs();
    }

    private void tellEvents() {
        for (Event event : plant.closed.news()) {
            if (event instanceof Event.Entered entered) {
                Transition via = entered.via();
                String stopper = entered.stopper() == null
                        ? ""
                        : " (" + entered.stopper().id() + ")";
                notes.add(Kind.STATE, via.from + " \u2192 " + via.to, via.reason + stopper, PanelWords.of(via.to));
                doings.add(new ActionLog.Entered(plant.timeMs() - plant.tickMs, via.to));
            } else if (event instanceof Event.Began began) {
                Interlock row = began.row();
                notes.add(Kind.INTERLOCK, row.id(), row.cause.toString(), PanelWords.consequence(row));
            }
        }
    }

    /** A recording that ends early is told where people look, once. */
    private void tellRecording() {
        if (!recordings.trouble().equals(recordingTold)) {
            recordingTold = recordings.trouble();
            notes.add(Kind.PANEL, "recording", recordingTold, "the car goes on without it");
        }
    }

    private void publish(long nowNs) {
        tellRecording();
        layout.set(Head.FRAME, frames++);
        layout.set(Head.SPEED, speed);
        layout.set(Head.PAUSED, paused ? 1 : 0);
        layout.set(Head.PLAYED, playing == null ? -1 : playing.share(plant.timeMs()));
        layout.set(Head.SLIPPED_S, slippedS);
        newest = layout.write(plant, nowNs);
        List<String> faults =
                plant.car.faults().present().stream().map(Object::toString).toList();
        PageState now = new PageState(
                Guidance.of(plant.supervisor),
                faults,
                playing == null ? "" : playing.name(),
                plant.device.health().reason(),
                boardLine());
        if (!now.equals(told)) {
            told = now;
        }
    }

    /** What the board is, and once a second how quick board and loop are. */
    private String boardLine() {
        if (board == null) {
            return "";
        }
        if (frames % FRAMES_PER_S == 0 || frames == 1) {
            quickness = "tick late " + plant.loop.lateness().summary() + "; " + board.figures();
        }
        return board.stage() + " " + board.identity() + " \u00b7 " + quickness;
    }

    /** A new car and a new supervisor. */
    void renew() {
        plant = new Plant(vehicle, SEED, board == null ? null : board.device(), wall);
        recordings.begin("panel", vehicle.name(), vehicle.settings(), plant.supervisor, plant.loop);
        carMs = 0;
        recent.restart(plant.tickMs);
        doings.restart();
        notes.at(0, 0);
    }

    /** Plays a scenario next, on a new car. */
    void play(Scenario scenario) {
        renew();
        playing = new ScenarioPlayback(this, scenario);
    }

    /** Ends the scenario that is played; false when none is. */
    boolean stopPlaying() {
        return playing != null && playing.stop();
    }

    void speed(double factor) {
        speed = factor;
        dueNs = wall.nowNs();
    }

    void pause(boolean on) {
        paused = on;
    }

    void singleTick() {
        singleTicks = 1;
    }

    /** The present car; only for the bench's thread. */
    Plant plant() {
        return plant;
    }

    /** The last tick; only for the bench's thread. */
    Frame lastTick() {
        return frame;
    }

    BoardLink board() {
        return board;
    }

    boolean isGoing() {
        return going;
    }

    boolean isPaused() {
        return paused;
    }

    boolean isPlaying() {
        return playing != null;
    }

    NoteBook notes() {
        return notes;
    }

    ActionLog doings() {
        return doings;
    }

    Recent recent() {
        return recent;
    }

    Vehicle vehicle() {
        return vehicle;
    }

    /** The newest frame; any thread may read it. */
    byte[] newest() {
        return newest;
    }

    /** The newest words; any thread may read them. */
    PageState told() {
        return told;
    }

    /** What was done since the car was new, as a scenario; any thread may ask. */
    String scenario() {
        return ScenarioText.of(vehicle.name(), doings, carMs);
    }
}
