/** What a person reads after a run: the timeline on the terminal, the page, the result for a build server. */
package sprag.bench.run.report;
