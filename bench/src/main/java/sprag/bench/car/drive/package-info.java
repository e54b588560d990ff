/** Inverter, motor and road of the simulated car. */
package sprag.bench.car.drive;
