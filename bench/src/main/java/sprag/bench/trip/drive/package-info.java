/** A drive: the driver, the ride, and the account of energy, limits and range that it leaves. */
package sprag.bench.trip.drive;
