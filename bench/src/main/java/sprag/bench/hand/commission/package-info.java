/** Guided bring-up of the low-voltage side with the traction battery absent: steps, answers, a journal, a dated record. */
package sprag.bench.hand.commission;
