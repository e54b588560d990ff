/** What a step and a simulated second cost, beside named baselines in the same run. */
package sprag.bench.benchmark;
