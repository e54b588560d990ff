/** What is driven: a speed trace from a table or a recorded track. */
package sprag.bench.trip.trace;
