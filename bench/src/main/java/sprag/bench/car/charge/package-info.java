/** Chargers of the simulated car, and the station at the other end of the cable. */
package sprag.bench.car.charge;
