package sprag.bench.evidence.prove.promise;

import sprag.supervisor.vocabulary.BusLevel;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Permissions;
import sprag.supervisor.vocabulary.TorquePermission;

/**
 * The rules of the Gate as far as facts can express them: which permissions of a tick it would take back.
 *
 * <p>The Gate itself looks at volts and amperes. Here it is assumed to see the same cut-off loop, plug, bus and key as
 * the facts. The assumption is printed with every result that rests on it. How long the Gate tolerates the precharge
 * relay is left out.
 */
public final class GateView {
    /** The assumption under which results with the Gate hold. */
    public static final String ASSUMPTION =
            "the Gate sees the same cut-off loop, plug, bus voltage and key that the facts show (SAME_EYES)";

    /** What the Gate can see of one tick. */
    public interface Sight {
        /** The permissions that Logic gave, live. */
        Permissions may();

        /** Whether a fact is true. */
        boolean is(Fact fact);

        /** How far the bus is charged. */
        BusLevel bus();

        /** Whether anything is closed or alive. */
        boolean live();

        /** Whether torque is permitted. */
        boolean torque();

        /** Whether torque follows the pedal. */
        boolean follows();

        /** Whether the positive contactor goes from open to closed. */
        boolean positiveCloses();
    }

    private GateView() {}

    /** Takes back what the Gate would take back.
     *
     * @param tick what is seen of the tick just taken; its permissions are changed
     */
    static void apply(Sight tick) {
        Permissions may = tick.may();
        if (tick.live() && tick.is(Fact.CUT_LOOP_OPEN)) {
            openContactors(may);
            endTorque(may);
            may.inverterEnabled = false;
            may.charging = false;
        }
        if (tick.torque() && !torqueAllowed(tick)) {
            endTorque(may);
        }
        if (tick.positiveCloses() && tick.bus() != BusLevel.CHARGED) {
            may.positiveClosed = false;
        }
        if (may.charging && (may.inverterEnabled || !tick.is(Fact.PLUG_SEEN) || !tick.is(Fact.PLUG_HELD))) {
            may.charging = false;
        }
    }

    private static boolean torqueAllowed(Sight tick) {
        Permissions may = tick.may();
        boolean connected = may.negativeClosed && may.positiveClosed && may.inverterEnabled;
        return connected && !tick.is(Fact.PLUG_SEEN) && (!tick.follows() || tick.is(Fact.KEY_ON));
    }

    private static void openContactors(Permissions may) {
        may.negativeClosed = false;
        may.prechargeClosed = false;
        may.positiveClosed = false;
        may.busConnected = false;
    }

    private static void endTorque(Permissions may) {
        may.torque = TorquePermission.NONE;
        may.engaged = Direction.NEUTRAL;
    }
}
