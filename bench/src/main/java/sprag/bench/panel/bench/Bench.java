package sprag.bench.panel.bench;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.car.Lever;
import sprag.bench.loop.ClosedLoop;
import sprag.bench.loop.Event;
import sprag.bench.loop.FrameColumns;
import sprag.bench.loop.TakenOut;
import sprag.bench.loop.record.Recordings;
import sprag.bench.loop.trace.Frame;
import sprag.bench.panel.bench.Note.Kind;
import sprag.bench.panel.guide.Guide;
import sprag.bench.panel.guide.PanelWords;
import sprag.bench.panel.session.BoardLink;
import sprag.bench.panel.session.CarSession;
import sprag.bench.panel.session.ForcedDevice;
import sprag.bench.panel.session.Subject;
import sprag.bench.port.chip.ChipSeat;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.wired.LiveSheets;
import sprag.hal.Clock;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.Transition;

/**
 * What stands on the bench: the present car, what happened to it, and the scenario that plays. Only the bench's thread may change
 * it; notes, actions and recent frames may be read by any thread.
 */
public final class Bench {
    private static final Fact[] FACTS = Fact.values();

    private final Subject subject;
    private final Clock wall;
    private final Recordings recordings;
    private final ChipSeat seat;
    private final NoteBook notes = new NoteBook();
    private final ActionLog actions = new ActionLog();
    private final Recent recent = new Recent();
    private final History history = new History();
    private final FrameLayout layout = new FrameLayout();
    private final Frame frame = FrameColumns.CHANNELS.newFrame();

    private final LiveSheets sheets;
    private CarSession session;
    private ChipSeat.Running chip = () -> {};
    private Scenario playing;
    private boolean stopAsked;
    private String recordingTrouble = "";
    private Refusals refusals;
    private volatile long carMs;
    private long notesSeen;

    /** A bench with a car at rest.
     *
     * @param recordings where every tick of every car goes
     * @param seat who decides
     */
    public Bench(Subject subject, Clock wall, Recordings recordings, ChipSeat seat) {
        this.subject = subject;
        this.seat = seat;
        this.wall = wall;
        this.recordings = recordings;
        sheets = subject.wires() == null ? null : new LiveSheets(subject.wires());
        renew();
    }

    /** Puts a new car and a new supervisor in the place of the old. */
    public void renew() {
        session = new CarSession(subject, wall);
        ClosedLoop loop = session.loop;
        chip.close();
        chip = seat.beside(loop);
        recordings.begin(
                "panel",
                vehicle().name() + TakenOut.words(subject.without()),
                vehicle().settings(),
                loop.supervisor(),
                loop.loop());
        loop.listenToBus(recordings);
        carMs = 0;
        recent.restart(loop.tickMs());
        history.restart();
        actions.restart();
        notes.newCar();
        notesSeen = notes.count();
        refusals = new Refusals(notes);
    }

    /** Runs one tick at once. */
    public void tick() {
        session.loop.decide();
        seen();
        session.loop.live();
    }

    /** Looks at the tick that was just decided, before the car lives through it. */
    public void seen() {
        ClosedLoop loop = session.loop;
        long tick = loop.loop().ticks() - 1;
        notes.at(tick * loop.tickMs(), tick);
        for (Event event : loop.news()) {
            note(event, tick * loop.tickMs());
        }
        session.latches.update(loop.supervisor(), tick);
        refusals.look(session);
        keep(tick, notes.count() > notesSeen); // what a person did since the last tick counts too
        notesSeen = notes.count();
        loop.show(frame);
        recent.see(frame);
        carMs = loop.timeMs();
    }

    private void keep(long tick, boolean isEvent) {
        byte[] facts = new byte[Fact.COUNT];
        for (Fact fact : FACTS) {
            facts[fact.ordinal()] = (byte) session.loop.supervisor().facts().value(fact);
        }
        List<String> faults = session.loop.car().faults().present().stream()
                .map(Object::toString)
                .toList();
        float[] numbers = layout.keep(session, wall.nowNs(), tick);
        history.add(new History.Moment(tick, numbers, facts, Guide.of(session), faults), isEvent);
    }

    private void note(Event event, long timeMs) {
        if (event instanceof Event.Entered entered) {
            Transition via = entered.via();
            String stopper =
                    entered.stopper() == null ? "" : " (" + entered.stopper().id() + ")";
            notes.add(Kind.STATE, via.from + " \u2192 " + via.to, via.reason + stopper, PanelWords.of(via.to));
            actions.add(new ActionLog.Entered(timeMs, via.to));
        } else if (event instanceof Event.Began began) {
            Interlock row = began.row();
            notes.add(Kind.INTERLOCK, row.id(), row.cause.toString(), PanelWords.consequence(row));
        }
    }

    /** Sets the moment of the notes to come to the present. */
    public void beginNotes() {
        notes.at(session.loop.timeMs(), session.loop.loop().ticks());
    }

    /** Lets go of everything that a person held. */
    public void letGo(String why) {
        List<Lever> held = session.letGo();
        held.forEach(lever -> actions.add(new ActionLog.Moved(session.loop.timeMs(), lever, lever.initial)));
        List<String> words = new ArrayList<>(
                held.stream().map(lever -> lever.key() + " let go").toList());
        if (session.device.dropAll()) {
            words.add("forced signals dropped");
        }
        if (stopPlaying()) {
            words.add("scenario stopped");
        }
        if (board() != null) {
            board().disarm();
            words.add("board disarmed");
        }
        notes.add(Kind.PANEL, "control", why, words.isEmpty() ? "nothing was held" : String.join(", ", words));
    }

    /** Lets go of a forced signal whose time is over. */
    public void expireForced(long nowNs) {
        Signal over = session.device.expire(nowNs);
        if (over != null) {
            String cause = ForcedDevice.HELD_MS / 1000 + " s are over";
            notes.add(Kind.FORCED, over.key(), cause, "shows again what the wire says");
        }
    }

    /** Notes, once, that a recording has ended early. */
    public void noteRecordingTrouble() {
        if (!recordings.trouble().equals(recordingTrouble)) {
            recordingTrouble = recordings.trouble();
            notes.add(Kind.PANEL, "recording", recordingTrouble, "the car goes on without it");
        }
    }

    /** Takes a new car, on which a scenario is to be played next. */
    public void play(Scenario scenario) {
        renew();
        playing = scenario;
        stopAsked = false;
    }

    /** Asks for the end of the scenario that plays. Returns false when none plays, or when it was asked before. */
    public boolean stopPlaying() {
        boolean first = playing != null && !stopAsked;
        stopAsked = true;
        return first;
    }

    /** The scenario has come to its end, or was stopped. */
    public void played() {
        playing = null;
    }

    /** The scenario that plays, null for none. */
    public Scenario playing() {
        return playing;
    }

    public boolean isStopAsked() {
        return stopAsked;
    }

    /** Releases every output and ends the recording, and the chip when there is one. */
    public void close() {
        session.device.release();
        if (board() != null) {
            board().device().close(); // its last frames belong into the recording
        }
        recordings.close();
        chip.close();
    }

    /** The present car. */
    public CarSession session() {
        return session;
    }

    /** What the last tick showed. */
    public Frame lastTick() {
        return frame;
    }

    public Vehicle vehicle() {
        return subject.vehicle();
    }

    /** The board, null for none. */
    public BoardLink board() {
        return subject.board();
    }

    /** The sheets of the drawn circuit, null without one. */
    public LiveSheets sheets() {
        return sheets;
    }

    public NoteBook notes() {
        return notes;
    }

    public ActionLog actions() {
        return actions;
    }

    /** What was so in single ticks. */
    public History history() {
        return history;
    }

    public Recent recent() {
        return recent;
    }

    /** What was done since the car was new, as a scenario; any thread may ask. */
    public String scenario() {
        return ScenarioText.of(subject, actions, carMs);
    }
}
