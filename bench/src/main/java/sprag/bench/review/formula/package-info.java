/** Laws and published tables that sizing rests on: conductors, fuses, precharge, thermistors. */
package sprag.bench.review.formula;
