/** The design review: sizing from the vehicle's file, the wiring schedule against rules, findings with their numbers. */
package sprag.bench.review.report;
