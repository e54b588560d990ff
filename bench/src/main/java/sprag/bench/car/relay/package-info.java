/** Timer relays that switch the simulated car in place of a supervisor, for lessons and comparisons. */
package sprag.bench.car.relay;
