/** The wiring schedule: how it is read, the circuit it describes, and the rules it is reviewed by. */
package sprag.bench.review.wiring;
