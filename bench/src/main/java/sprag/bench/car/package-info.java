/**
 * What can be done to a simulated car, what can break in it, and what is true about it: levers, faults, quantities. The rooms
 * below model the car with them: {@code electric} (pack, contactors, bus, 12 V side), {@code charge} (inlet, chargers, station),
 * {@code drive} (inverter, motor, road), and {@code simulation} on top, which joins the parts to a car with a connector.
 */
package sprag.bench.car;
