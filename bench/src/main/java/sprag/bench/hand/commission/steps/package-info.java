/** The steps of a commissioning: what a person does, what must be seen. */
package sprag.bench.hand.commission.steps;
