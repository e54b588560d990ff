package sprag.bench.evidence.prove.promise;

import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Permissions;
import sprag.supervisor.vocabulary.TorquePermission;

/** What the car is there for. A supervisor that never lets any of these happen would keep every promise. */
public enum Goal {
    /** Torque follows the pedal, forward. */
    DRIVES_FORWARD,
    /** Torque follows the pedal, backward. */
    DRIVES_BACKWARD,
    /** Torque follows the pedal, within limits that something asks for. */
    DRIVES_LIMITED,
    /** Torque ramps out after the key was turned off. */
    RAMPS_OUT,
    /** The chargers deliver. */
    CHARGES,
    /** The chargers deliver, within limits that something asks for. */
    CHARGES_LIMITED;

    /** What is permitted, as one of these.
     *
     * @param may permissions under which torque or charge may flow
     */
    static Goal of(Permissions may) {
        if (may.charging) {
            return may.limited ? CHARGES_LIMITED : CHARGES;
        }
        if (may.torque == TorquePermission.RAMP_TO_ZERO) {
            return RAMPS_OUT;
        }
        if (may.limited) {
            return DRIVES_LIMITED;
        }
        return may.engaged == Direction.REVERSE ? DRIVES_BACKWARD : DRIVES_FORWARD;
    }
}
