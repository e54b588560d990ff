/** The circuit that a wiring schedule draws: nets, ways, sides, fuses, and the joints that must not be. */
package sprag.bench.review.wiring.circuit;
