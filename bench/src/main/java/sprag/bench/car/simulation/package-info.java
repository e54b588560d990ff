/** The whole simulated car: its parts joined, its sensors and its connector. The same seed gives the same run, bit for bit. */
package sprag.bench.car.simulation;
