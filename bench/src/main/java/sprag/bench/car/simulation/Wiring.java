package sprag.bench.car.simulation;

import sprag.bench.car.electric.ContactorBox;

/** Where the wires of the car lead. As it begins, everything is wired as it should be. */
public final class Wiring {
    /** How the bus hangs on the pack in each position of the three contacts, see {@link ContactorBox#position}. */
    public final ContactorBox.Path[] ways = ContactorBox.soundWays();
    /** Whether pack or bus, and mains, reach each charger. */
    public final boolean[] charger = {true, true, true};
    /** Whether the 12 V battery reaches the loads. */
    public boolean battery = true;
    /** Whether the inverter's electronics have their supply. */
    public boolean inverterSupply = true;

    void apply(Parts p) {
        p.circuit.box.wire(ways);
        System.arraycopy(charger, 0, p.chargers.wired, 0, charger.length);
        p.lowSide.batteryWired = battery;
    }
}
