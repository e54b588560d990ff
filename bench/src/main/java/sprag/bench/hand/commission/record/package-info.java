/** What is kept of a commissioning: the journal, the verdicts, the record to print. */
package sprag.bench.hand.commission.record;
