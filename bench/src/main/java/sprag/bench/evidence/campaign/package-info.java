/**
 * Every single fault of the simulated car, at every moment of its day: what notices it, how soon, and what harm it does.
 *
 * <p>The same story is told with and without the fault, to the last lever, so that whatever differs is the fault's doing.
 */
package sprag.bench.evidence.campaign;
