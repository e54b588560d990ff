/** Calculations: each with its formula in words, inputs, result, limit, margin and source. */
package sprag.bench.review.sizing;
