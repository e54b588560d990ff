/** Which pins the wires of a vehicle need, and what the schedule says about each. */
package sprag.bench.review.pins;
