/** What a scenario is played on when it may be a car without a supervisor. */
package sprag.bench.loop.relay;
