/**
 * A third-stage shaper, from permissions to the charge current of each charger: ceiling, voltage regulation and sharing.
 *
 * <p>It can ask for less than Logic permits, never for more.
 */
package sprag.supervisor.charge;
