/**
 * A third-stage shaper, from permissions to the torque request: pedal map, torque limits and the rate of change.
 *
 * <p>It can ask for less than Logic permits, never for more.
 */
package sprag.supervisor.drive;
