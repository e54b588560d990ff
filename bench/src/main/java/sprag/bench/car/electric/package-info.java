/** Pack, contactor box, bus and 12 V side of the simulated car. */
package sprag.bench.car.electric;
