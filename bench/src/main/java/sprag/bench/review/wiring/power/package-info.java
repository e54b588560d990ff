/** Rules about the power side of a schedule: traction, precharge, fuses and conductors. */
package sprag.bench.review.wiring.power;
