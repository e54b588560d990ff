package sprag.supervisor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.Set;
import org.junit.jupiter.api.Test;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** A normal day: key, start, drive, key off, charge. */
class DriveTest {
    @Test
    void drivingFromKeyToTorque_pedalHalf_torqueFollows() {
        Rig rig = new Rig().driving();
        assertEquals(0, rig.torqueNm());
        rig.pedal(0.5).runMs(2000);
        assertTrue(rig.torqueNm() > 50, "torque " + rig.torqueNm());
        assertFalse(rig.supervisor.vetoed());
    }

    @Test
    void driving_keyOff_opensAndComesToRest() {
        Rig rig = new Rig().driving().pedal(0.5).runMs(1000);
        rig.given(Signal.KEY_ON, 0).until(State.OFF, 1000);
        assertFalse(rig.anyContactor());
    }

    @Test
    void driving_plugSeen_torqueIsZeroInTheSameTick() {
        Rig rig = new Rig().driving().pedal(0.5).runMs(1000);
        rig.given(Signal.PLUG_PRESENT, 1).run(1);
        assertEquals(0, rig.torqueNm());
        rig.until(State.CHARGE_LOCKOUT, 1000);
        assertFalse(rig.supervisor.vetoed());
    }

    @Test
    void supervisor_withAnInterlockTakenOut_saysWhich() {
        Set<Interlock> without = EnumSet.of(Interlock.PLUG_PRESENT);
        assertEquals(without, new Supervisor(TestVehicle.full(), without).without());
        assertEquals(Set.of(), new Supervisor(TestVehicle.full()).without());
    }
}
