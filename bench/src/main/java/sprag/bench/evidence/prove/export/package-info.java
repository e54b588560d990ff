/** What other tools read of a proof: the reachable graph of Logic, and Logic with its promises as a model for SPIN. */
package sprag.bench.evidence.prove.export;
