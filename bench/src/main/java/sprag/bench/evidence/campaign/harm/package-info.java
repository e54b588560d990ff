/** What hurts: each hazard's measure of harm with its limit and source, and the meter that a run carries. */
package sprag.bench.evidence.campaign.harm;
