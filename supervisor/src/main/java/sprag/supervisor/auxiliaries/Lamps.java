package sprag.supervisor.auxiliaries;

import java.util.ArrayList;
import java.util.List;
import sprag.supervisor.logic.Logic;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Facts;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Permissions;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Reset;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Watch;

/**
 * Lamps and buzzer. Colours by IEC 60073: green for normal, yellow for abnormal, red for danger, white for neither.
 *
 * <pre>
 *   brake lamp   red at the rear; brake pedal, or regeneration that decelerates by more than regen.lamp_on_mps2 until less than
 *                regen.lamp_off_mps2 (UN R13-H, from memory: none up to 0.7, must above 1.3 m/s2)
 *   ready lamp   green; the car can move
 *   fault lamp   steady (red): latched, needs a reset; 2 Hz (yellow): something warns or limits, or the pedal must be released
 *   charge lamp  white; steady: charging; 2 Hz: refused; 0.5 Hz: waiting or ending; dark: finished
 *   buzzer       2 s on entering DRIVE_ENABLE; 2 Hz while rolling away; three beeps at a refused or failed charge
 * </pre>
 */
final class Lamps {
    /** Ready sound: between 1 and 3 s (FSAE 2026 EV.9.7.2, FS 2024 EV 4.12.1). */
    static final double READY_SOUND_S = 2;

    private static final double ALARM_S = 1.5;
    private static final double FAST_MS = 500;
    private static final double BEATS_PER_MS = 2 / FAST_MS;
    private static final double SLOW_MS = 2000;
    /** Below this the sign of the speed says little. */
    private static final double MOVING_KPH = 0.5;

    private final Watch[] warnings = new Watch[State.values().length];
    private final double tickMs;
    private final double lampOnMps2;
    private final double lampOffMps2;
    private final double mps2PerNm;
    private final int readySoundTicks;
    private final int alarmTicks;
    private double clockMs;
    private boolean braking;
    private State before = State.OFF;
    private boolean alarmGiven;
    private int soundTicks;
    private int beepTicks;

    Lamps(Settings settings) {
        for (State state : State.values()) {
            warnings[state.ordinal()] = new Watch(warnings(state));
        }
        tickMs = settings.get(Parameter.LOOP_TICK_MS);
        lampOnMps2 = settings.get(Parameter.REGEN_LAMP_ON_MPS2);
        lampOffMps2 = settings.get(Parameter.REGEN_LAMP_OFF_MPS2);
        mps2PerNm = settings.get(Parameter.DRIVE_GEAR_RATIO)
                / settings.get(Parameter.DRIVE_WHEEL_RADIUS_M)
                / settings.get(Parameter.DRIVE_MASS_KG);
        readySoundTicks = (int) Math.ceil(READY_SOUND_S / settings.tickS());
        alarmTicks = (int) Math.ceil(ALARM_S / settings.tickS());
    }

    /** What lights the fault lamp in a state: every cause but those that are normal before a start or a charge. */
    private static List<Interlock> warnings(State state) {
        List<Interlock> rows = new ArrayList<>();
        for (Interlock row : Interlock.values()) {
            boolean normal = row.response == Response.BLOCK_START
                    || row.response == Response.BLOCK_CHARGE
                    || row == Interlock.PEDAL_WITH_BRAKE
                    || row == Interlock.GAUGE_UNSURE;
            boolean asked = row.cause.isFact() && row.cause.value() == 1 && row.where.contains(state);
            if (asked && !normal && state != State.OFF) {
                rows.add(row);
            }
        }
        return rows;
    }

    /** Sets lamps and buzzer for one tick.
     *
     * @param logic its state and what it permits
     * @param f the facts of this tick
     * @param c the quantities of this tick
     * @param in the readings
     * @param out where the commands are set; the torque is there already
     */
    void shape(Logic logic, Facts f, Conditioned c, Readings in, Commands out) {
        LogicState s = logic.state();
        clockMs = clockMs + tickMs >= SLOW_MS ? 0 : clockMs + tickMs;
        boolean fast = ((int) (clockMs * BEATS_PER_MS) & 1) == 0;
        boolean slow = clockMs < SLOW_MS / 2;
        brakes(c, out.get(Output.TORQUE_REQUEST_NM));
        out.set(Output.BRAKE_LAMP, f.is(Fact.BRAKE_PRESSED) || braking || unknownBrake(s.state, in));
        out.set(Output.READY_LAMP, s.state == State.DRIVE_ENABLE);
        boolean latched = s.state == State.FAULT || s.latched != Reset.NONE;
        out.set(Output.FAULT_LAMP, latched || fast && warns(s, f));
        out.set(Output.CHARGE_LAMP, s.state == State.CHARGE_LOCKOUT && charge(s, logic.permissions(), fast, slow));
        sounds(s);
        boolean rolls = s.state == State.DRIVE_ENABLE && f.is(Fact.ROLLING_AWAY);
        out.set(Output.BUZZER, soundTicks > 0 || fast && (rolls || beepTicks > 0));
    }

    private static boolean unknownBrake(State state, Readings in) {
        return state == State.DRIVE_ENABLE && !in.isOff(Signal.BRAKE_PRESSED);
    }

    /**
     * Regeneration decelerates when the torque points against the motion. The torque alone counts only while the car does
     * decelerate, so that holding a speed downhill lights nothing.
     */
    private void brakes(Conditioned c, double torqueNm) {
        double along = c.speedKph > MOVING_KPH ? 1 : c.speedKph < -MOVING_KPH ? -1 : 0;
        double byTorqueMps2 = -torqueNm * along * mps2PerNm;
        double measuredMps2 = -c.accelerationMps2 * along;
        boolean strong = measuredMps2 > lampOnMps2 || byTorqueMps2 > lampOnMps2 && measuredMps2 > lampOffMps2;
        boolean goesOn = braking && measuredMps2 >= lampOffMps2;
        braking = byTorqueMps2 > 0 && (strong || goesOn);
    }

    private boolean warns(LogicState s, Facts f) {
        boolean dead = s.torqueLatched.ordinal() >= Reset.KEY_CYCLE.ordinal()
                || s.torqueLatched != Reset.NONE && !f.is(Fact.PEDAL_RELEASED);
        if (s.state == State.DRIVE_ENABLE && dead) {
            return true;
        }
        return f.firstActive(warnings[s.state.ordinal()]) >= 0;
    }

    private static boolean charge(LogicState s, Permissions may, boolean fast, boolean slow) {
        return switch (s.charge) {
            case CHARGING -> may.charging || slow;
            case WAITING, ENDING -> slow;
            case REFUSED -> fast;
            case FINISHED -> false;
        };
    }

    private void sounds(LogicState s) {
        soundTicks = Math.max(soundTicks - 1, 0);
        beepTicks = Math.max(beepTicks - 1, 0);
        if (s.state == State.DRIVE_ENABLE && before != State.DRIVE_ENABLE) {
            soundTicks = readySoundTicks;
        }
        boolean failed = s.state == State.FAULT && before == State.CHARGE_LOCKOUT;
        boolean refused = s.state == State.CHARGE_LOCKOUT && s.charge == ChargePhase.REFUSED && !alarmGiven;
        if (failed || refused) {
            beepTicks = alarmTicks;
            alarmGiven = true;
        }
        alarmGiven &= s.state == State.CHARGE_LOCKOUT;
        soundTicks = s.state == State.DRIVE_ENABLE ? soundTicks : 0;
        before = s.state;
    }
}
