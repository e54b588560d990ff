/** A finding of the review, its weight, and the numbers that it carries. */
package sprag.bench.review.finding;
