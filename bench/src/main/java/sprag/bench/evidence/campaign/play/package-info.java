/** One run of a campaign: a car, its driver, a fault at a moment, and what came of it. */
package sprag.bench.evidence.campaign.play;
