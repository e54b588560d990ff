package sprag.bench.panel.bench;

import sprag.bench.bus.BusFile;
import sprag.bench.vehicle.Vehicle;

/**
 * What the panel shows: a simulated car, and what stands between it and the supervisor.
 *
 * @param vehicle which car
 * @param bus a simulated data bus before a part of its signals and outputs, null for none
 * @param board real pins that come before the car's, null for none
 */
public record Subject(Vehicle vehicle, BusFile bus, BoardLink board) {}
