package sprag.bench.evidence.campaign.play;

import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;

/** When in a run a fault comes. One row each; together they cover every state. */
public enum FaultMoment {
    // @formatter:off
    /** Key off, nothing connected. */
    AT_REST           (false, State.OFF,            null,               20),
    /** Key on, before the start. */
    AWAKE             (false, State.IGNITION,       null,               20),
    /** The first weld test. */
    WELD_TEST         (false, State.PRECHARGE,      Step.TEST_NEGATIVE,  5),
    /** The second weld test. */
    WELD_TEST_AGAIN   (false, State.PRECHARGE,      Step.TEST_POSITIVE,  5),
    /** The bus has just begun to rise. */
    BUS_RISING        (false, State.PRECHARGE,      Step.RAISE_BUS,      4),
    /** The bus is nearly there. */
    BUS_NEARLY_CHARGED(false, State.PRECHARGE,      Step.RAISE_BUS,     20),
    /** The positive contactor is closing. */
    MAIN_CLOSING      (false, State.PRECHARGE,      Step.OVERLAP,        2),
    /** Ready to drive, standing, pedal released. */
    READY             (false, State.DRIVE_ENABLE,   Step.HOLD,          20),
    /** Pulling away. */
    PULLING_AWAY      (false, State.DRIVE_ENABLE,   Step.HOLD,         150),
    /** Rolling with part load. */
    CRUISING          (false, State.DRIVE_ENABLE,   Step.HOLD,         500),
    /** The pedal was lifted: regeneration. */
    REGENERATING      (false, State.DRIVE_ENABLE,   Step.HOLD,         630),
    /** Torque goes to zero after the key was turned off. */
    RUNNING_DOWN      (false, State.RUNDOWN,        null,                2),
    /** The contactors are open and the bus bleeds. */
    BLEEDING          (false, State.RUNDOWN,        Step.BLEED,         10),
    /** Plugged in, before the current. */
    PLUGGED_IN        (true,  State.CHARGE_LOCKOUT, null,               10),
    /** Charge current flows. */
    CHARGING          (true,  State.CHARGE_LOCKOUT, null,              600),
    /** The pack is nearly full. */
    NEARLY_FULL       (true,  State.CHARGE_LOCKOUT, null,             1200);
    // @formatter:on

    /** True in the run that charges, false in the run that drives. */
    public final boolean charging;

    private final State state;
    private final Step step;
    private final int ticks;

    FaultMoment(boolean charging, State state, Step step, int ticks) {
        this.charging = charging;
        this.state = state;
        this.step = step;
        this.ticks = ticks;
    }

    /** Whether the supervisor is where this moment is counted from. */
    boolean isCounting(FaultRig s) {
        boolean atPlug = this != CHARGING && this != NEARLY_FULL || s.charge() == ChargePhase.CHARGING;
        return s.state() == state && (step == null || s.step() == step) && atPlug;
    }

    /** How many ticks after that the fault comes. */
    int ticks() {
        return ticks;
    }

    /** The name for people and files, e.g. {@code bus_rising}. */
    public String key() {
        return name().toLowerCase(java.util.Locale.ROOT);
    }
}
