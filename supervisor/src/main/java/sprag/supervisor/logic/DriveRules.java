package sprag.supervisor.logic;

import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Facts;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Reset;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.TorquePermission;

/** Whether torque may follow the pedal in DRIVE_ENABLE, and which way. */
final class DriveRules {
    private final Journal journal;
    private final boolean enableGuard;
    private final boolean rollingGuard;

    DriveRules(Journal journal, boolean enableGuard, boolean rollingGuard) {
        this.journal = journal;
        this.enableGuard = enableGuard;
        this.rollingGuard = rollingGuard;
    }

    /** What must happen before the first torque of a drive.
     *
     * @param s the state at the entry of DRIVE_ENABLE
     */
    void begin(LogicState s) {
        s.torqueLatched = enableGuard ? Reset.BRAKED_RELEASE : Reset.NONE;
        s.engaged = Direction.NEUTRAL;
    }

    /** Decides about torque for one tick.
     *
     * @param s the state; latches and engaged direction are kept there
     * @param f the facts of this tick
     * @param acting the interlock that acts, null for none
     * @return what the drive may do
     */
    TorquePermission decide(LogicState s, Facts f, Interlock acting) {
        boolean taken = acting != null && acting.response == Response.ZERO_TORQUE;
        if (taken) {
            s.torqueLatched = s.torqueLatched.orStronger(acting.reset);
        } else {
            release(s, f);
        }
        boolean directed = engage(s, f);
        boolean follows = directed && !taken && s.torqueLatched == Reset.NONE;
        return follows ? TorquePermission.FOLLOW_PEDAL : TorquePermission.NONE;
    }

    private void release(LogicState s, Facts f) {
        if (s.torqueLatched == Reset.BRAKED_RELEASE) {
            journal.acted(Interlock.PEDAL_AT_ENABLE);
            if (f.is(Fact.PEDAL_RELEASED) && f.is(Fact.BRAKE_PRESSED)) {
                s.torqueLatched = Reset.NONE;
            }
        } else if (s.torqueLatched == Reset.PEDAL_RELEASE && f.is(Fact.PEDAL_RELEASED)) {
            s.torqueLatched = Reset.NONE;
        }
    }

    /**
     * Follows the lever. Neutral takes torque away but remembers the direction, so that a lever knocked at speed can be put
     * back; another direction engages only near standstill with the pedal released.
     *
     * @return true when the lever stands at the engaged direction
     */
    private boolean engage(LogicState s, Facts f) {
        Direction asked = f.direction();
        if (asked == Direction.NEUTRAL) {
            s.torqueLatched = s.torqueLatched.orStronger(Reset.PEDAL_RELEASE);
            return false;
        }
        if (asked == s.engaged) {
            return true;
        }
        if (!rollingGuard || f.is(Fact.STANDSTILL) && f.is(Fact.PEDAL_RELEASED)) {
            s.engaged = asked;
            return true;
        }
        journal.acted(Interlock.DIRECTION_ROLLING);
        return false;
    }
}
