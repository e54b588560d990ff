/**
 * The first stage, from readings to facts: raw to physical, validity, debouncing, thresholds, and every time or quantity that
 * adds up over more than a few seconds.
 *
 * <p>It reads the readings of this tick and the commands of the tick before. Nothing after it looks at a threshold.
 */
package sprag.supervisor.input;
