/** The schedule as a circuit of switches: what carries what in every position, and whether that keeps its promises. */
package sprag.bench.drawing.live;
