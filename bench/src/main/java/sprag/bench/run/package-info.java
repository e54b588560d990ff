/** The commands that play scenarios on the simulated car, and what they need. */
package sprag.bench.run;
