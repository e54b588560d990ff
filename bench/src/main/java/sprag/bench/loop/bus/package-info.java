/** A simulated data bus between the simulated car and the supervisor, with its faults. */
package sprag.bench.loop.bus;
