/** The pins that are commissioned, real or simulated, and what the drawing says about them. */
package sprag.bench.hand.commission.pins;
