/** A scenario: what is done to a car, and what must come of it. */
package sprag.bench.scenario;
