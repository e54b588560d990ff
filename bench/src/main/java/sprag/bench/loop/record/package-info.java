/**
 * Recordings of every tick, and deciding it all again.
 *
 * <p>A recording holds what {@code replay} needs and nothing else has to be kept: the vehicle's values, and every tick's
 * readings, commands and state, to the last bit.
 */
package sprag.bench.loop.record;
