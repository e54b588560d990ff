/**
 * A third-stage shaper, from permissions to everything that is neither contactor, torque nor charge current: cooling, heater,
 * lamps, buzzer, DC-DC converter and gauge.
 *
 * <p>It runs after the torque shaper, because the brake lamp follows the torque request.
 */
package sprag.supervisor.auxiliaries;
