package sprag.supervisor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** What must hold in every tick whatever the sensors say, judged from the outside: readings and commands alone. */
final class Absolutes {
    private final Rig rig;
    private final String who;
    private boolean positiveWas;
    /** Long enough for every ramp of the torque to end. */
    private static final int SETTLED_TICKS = 100;

    private boolean pedalLatched;
    private int stillTicks;

    Absolutes(Rig rig, String who) {
        this.rig = rig;
        this.who = who;
        positiveWas = rig.out.isOn(Output.POSITIVE_CONTACTOR);
    }

    /** Checks the readings and commands of the last tick. */
    void check() {
        Readings in = rig.in;
        double torqueNm = rig.torqueNm();
        for (Output output : Output.values()) {
            assertTrue(Double.isFinite(rig.out.get(output)), () -> at(output + " = " + rig.out.get(output)));
        }
        assertFalse(rig.supervisor.vetoed(), () -> at("the gate had to veto"));
        assertTrue(torqueNm <= rig.settings.get(Parameter.DRIVE_TORQUE_NM), () -> at("drive " + torqueNm));
        assertTrue(Math.abs(torqueNm) <= 200, () -> at("torque " + torqueNm));
        if (!in.isOff(Signal.PLUG_PRESENT)) {
            assertEquals(0, torqueNm, () -> at("torque with a plug"));
        }
        if (!in.isOn(Signal.CUT_LOOP_CLOSED)) {
            assertFalse(rig.anyContactor(), () -> at("closed with the cut-off loop open"));
            assertEquals(0, torqueNm, () -> at("torque with the cut-off loop open"));
        }
        contactors(in, torqueNm);
        pedal(in, torqueNm);
        standing(in, torqueNm);
    }

    /** The car stands and nobody touches the pedal, for a second, as every track and the speed say: then it does not push. */
    private void standing(Readings in, double torqueNm) {
        boolean still = in.get(Signal.MOTOR_SPEED_RPM) == 0
                && in.get(Signal.PEDAL_A_V) == rig.settings.get(Parameter.PEDAL_A_RELEASED_V)
                && in.get(Signal.PEDAL_B_V) == rig.settings.get(Parameter.PEDAL_B_RELEASED_V);
        stillTicks = still ? stillTicks + 1 : 0;
        if (stillTicks > SETTLED_TICKS) {
            assertTrue(torqueNm == 0, () -> at("torque at rest with a released pedal"));
        }
    }

    private void contactors(Readings in, double torqueNm) {
        boolean positive = rig.out.isOn(Output.POSITIVE_CONTACTOR);
        if (positive && !positiveWas) {
            double least = rig.settings.get(Parameter.PRECHARGE_DONE_FRACTION) * in.get(Signal.PACK_VOLTAGE_V);
            assertTrue(in.get(Signal.BUS_VOLTAGE_V) >= least, () -> at("closed onto an uncharged bus"));
        }
        positiveWas = positive;
        State state = rig.state();
        if (state == State.OFF || state == State.IGNITION || state == State.FAULT) {
            assertFalse(rig.anyContactor(), () -> at("closed in " + state));
        }
        if (torqueNm != 0) {
            assertTrue(state == State.DRIVE_ENABLE || state == State.RUNDOWN, () -> at("torque in " + state));
            assertTrue(positive && rig.out.isOn(Output.NEGATIVE_CONTACTOR), () -> at("torque without contactors"));
            assertTrue(rig.out.isOn(Output.INVERTER_ENABLE), () -> at("torque without enable"));
        }
    }

    /** After a latched pedal fault there is no torque until the key has been seen off. */
    private void pedal(Readings in, double torqueNm) {
        boolean acts = rig.acts(Interlock.PEDAL_OUT_OF_RANGE)
                || rig.acts(Interlock.PEDAL_SHORTED)
                || rig.acts(Interlock.PEDAL_DISAGREES)
                || rig.acts(Interlock.PEDAL_REFERENCE_WRONG);
        if (acts && rig.state() == State.DRIVE_ENABLE) {
            pedalLatched = true;
        } else if (in.isOff(Signal.KEY_ON)) {
            pedalLatched = false;
        }
        if (pedalLatched) {
            assertEquals(0, torqueNm, () -> at("torque after a pedal fault"));
        }
    }

    private String at(String what) {
        return who + ", tick " + (rig.tick - 1) + " " + rig.state() + "/" + rig.step() + ": " + what;
    }
}
