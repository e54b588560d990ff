package sprag.bench.panel.bench;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.panel.bench.Note.Kind;
import sprag.bench.panel.guide.Guidance;
import sprag.bench.panel.guide.Guide;
import sprag.bench.panel.session.CarSession;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Facts;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.TorquePermission;

/** Notes each act of a driver that comes to nothing, once, with the reason: a start, a pedal, a direction. */
final class Refusals {
    /** A pedal pressed by less is a foot that rests on it. */
    private static final double PRESSED_SHARE = 0.1;
    /** A supervisor that does what it is asked does it within so many ticks. */
    private static final int PATIENCE_TICKS = 20;

    private final NoteBook notes;
    private boolean startAsked;
    private int pedalTicks;
    private int directionTicks;
    private Direction asked = Direction.NEUTRAL;

    Refusals(NoteBook notes) {
        this.notes = notes;
    }

    /** Looks at the tick that was just decided. */
    void look(CarSession session) {
        Facts facts = session.loop.supervisor().facts();
        State state = session.loop.state();
        boolean start = facts.is(Fact.START_REQUESTED);
        if (start && !startAsked && state != State.PRECHARGE && state != State.DRIVE_ENABLE) {
            note(session, "start refused");
        }
        startAsked = start;
        boolean pressed = session.loop.supervisor().conditioned().travel > PRESSED_SHARE;
        boolean follows = session.loop.supervisor().permissions().torque == TorquePermission.FOLLOW_PEDAL;
        pedalTicks = pressed && !follows ? pedalTicks + 1 : 0;
        if (pedalTicks == PATIENCE_TICKS) {
            note(session, "pedal refused");
        }
        direction(session, facts.direction());
    }

    private void direction(CarSession session, Direction now) {
        boolean refused =
                now != Direction.NEUTRAL && now != session.loop.supervisor().permissions().engaged;
        directionTicks = refused && now == asked ? directionTicks + 1 : 0;
        asked = now;
        if (directionTicks == PATIENCE_TICKS && session.loop.state() == State.DRIVE_ENABLE) {
            note(session, "direction refused");
        }
    }

    private void note(CarSession session, String what) {
        Guidance guide = Guide.of(session);
        List<String> reasons = new ArrayList<>(guide.missing());
        reasons.add(guide.next());
        String why = String.join(" ", reasons).strip();
        notes.add(Kind.REFUSED, what, why.isEmpty() ? guide.now() : why, "");
    }
}
