/** {@code margin}: many cars that are built from one drawing, and what their tolerances do to each expectation. */
package sprag.bench.evidence.margin;
