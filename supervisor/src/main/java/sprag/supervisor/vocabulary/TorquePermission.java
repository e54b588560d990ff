package sprag.supervisor.vocabulary;

/** What the drive may do now. */
public enum TorquePermission {
    /** No torque, at once. */
    NONE,
    /** What torque there is goes to zero, no faster than the drive line likes; no new torque. */
    RAMP_TO_ZERO,
    /** Torque follows the pedal in the engaged direction. */
    FOLLOW_PEDAL
}
