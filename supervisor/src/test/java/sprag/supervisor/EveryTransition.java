package sprag.supervisor;

import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** A long day on which every transition is taken, beginning and ending in OFF with the key off. Allocates nothing. */
public final class EveryTransition {
    private EveryTransition() {}

    /** A rig whose resistor bears so many starts. */
    public static Rig rig() {
        return new Rig(TestVehicle.full().with(Parameter.PRECHARGE_ENERGY_J, 100_000));
    }

    public static void day(Rig rig) {
        keyAndPlug(rig);
        starts(rig);
        drives(rig);
        service(rig);
    }

    private static void keyAndPlug(Rig rig) {
        rig.ignition().given(Signal.KEY_ON, 0).until(State.OFF, 2);
        plugIn(rig);
        plugOut(rig);
        rig.ignition();
        plugIn(rig);
        plugOut(rig);
        rig.given(Signal.KEY_ON, 0).until(State.OFF, 4);
    }

    private static void starts(Rig rig) {
        rig.precharging().given(Signal.KEY_ON, 0).until(State.RUNDOWN, 2).until(State.OFF, 1000);
        rig.precharging();
        cut(rig);
        reset(rig);
    }

    private static void drives(Rig rig) {
        drive(rig).given(Signal.KEY_ON, 0).until(State.RUNDOWN, 2);
        rig.given(Signal.KEY_ON, 1).until(State.IGNITION, 1000);
        drive(rig).given(Signal.COVER_LOOP_CLOSED, 0).until(State.RUNDOWN, 20);
        rig.given(Signal.COVER_LOOP_CLOSED, 1).until(State.FAULT, 1000);
        reset(rig);
        drive(rig).given(Signal.PLUG_PRESENT, 1).until(State.CHARGE_LOCKOUT, 1000);
        plugOut(rig);
        rig.given(Signal.KEY_ON, 0).until(State.OFF, 4);
        drive(rig);
        cut(rig);
        reset(rig);
        drive(rig).given(Signal.KEY_ON, 0).until(State.RUNDOWN, 2);
        cut(rig);
        reset(rig);
    }

    private static void service(Rig rig) {
        crash(rig);
        rig.ignition();
        crash(rig);
        plugIn(rig);
        crash(rig);
        plugIn(rig);
        rig.given(Signal.ISOLATION_KOHM, 10).until(State.FAULT, 300).given(Signal.ISOLATION_KOHM, 5000);
        plugOutInFault(rig);
        rig.runMs(5000).given(Signal.SERVICE_RESET, 1).until(State.OFF, 3).given(Signal.SERVICE_RESET, 0);
    }

    private static Rig drive(Rig rig) {
        rig.driving().pedal(0.5).run(30);
        return rig.pedal(0).run(30);
    }

    private static void plugIn(Rig rig) {
        rig.given(Signal.PLUG_PRESENT, 1).until(State.CHARGE_LOCKOUT, 3);
    }

    private static void plugOut(Rig rig) {
        rig.given(Signal.PLUG_PRESENT, 0).run(3).until(State.OFF, 100);
    }

    private static void plugOutInFault(Rig rig) {
        rig.given(Signal.PLUG_PRESENT, 0).run(100);
    }

    private static void cut(Rig rig) {
        rig.given(Signal.CUT_LOOP_CLOSED, 0).until(State.FAULT, 1).given(Signal.CUT_LOOP_CLOSED, 1);
    }

    private static void crash(Rig rig) {
        rig.given(Signal.CRASH_LOOP_CLOSED, 0).until(State.FAULT, 1).given(Signal.CRASH_LOOP_CLOSED, 1);
        rig.given(Signal.KEY_ON, 0);
        plugOutInFault(rig);
        rig.given(Signal.SERVICE_RESET, 1).until(State.OFF, 3).given(Signal.SERVICE_RESET, 0);
    }

    private static void reset(Rig rig) {
        rig.runMs(3000).given(Signal.KEY_ON, 0).run(2);
        rig.given(Signal.KEY_ON, 1).run(2);
        rig.given(Signal.KEY_ON, 0).until(State.OFF, 3);
    }
}
