/**
 * The simulated car that the supervisor is tried against: pack, contactor box, bus, machine, road, heat, 12 V side, inlet and
 * station, each with its faults. Same seed, same run, bit for bit.
 */
package sprag.bench.car;
