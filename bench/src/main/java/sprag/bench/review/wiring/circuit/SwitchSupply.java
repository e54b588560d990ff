package sprag.bench.review.wiring.circuit;

import java.util.BitSet;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.Wire;

/** What a closed switch joins an input of the supervisor to. */
public enum SwitchSupply {
    /** The 12 V supply. */
    TWELVE_VOLT("the 12 V supply"),
    /** The supervisor's supply for sensors. */
    SENSOR_SUPPLY("the sensor supply of 5 V"),
    /** The ground. */
    GROUND("the ground"),
    /** The schedule does not show it: no wire, several answers, or a part whose inside it does not show. */
    UNKNOWN("nothing that the schedule shows");

    /** For a sentence. */
    public final String words;

    SwitchSupply(String words) {
        this.words = words;
    }

    /** Follows the wires and closed contacts from a terminal of the supervisor. */
    public static SwitchSupply of(Schedule schedule, String pin) {
        DrawnCircuit circuit = new DrawnCircuit(schedule);
        Sides sides = new Sides(circuit);
        BitSet start = circuit.nets(t -> circuit.part(t).kind() == PartKind.SUPERVISOR
                && Wire.pinOf(circuit.terminal(t)).equals(pin));
        BitSet reached = circuit.reach(start, link -> link.kind() != DrawnCircuit.LinkKind.RESISTOR);
        boolean supply = reached.intersects(sides.lowVoltageSources);
        boolean sensor = reached.intersects(circuit.nets(PartKind.SUPERVISOR, "sensor_supply"));
        boolean ground = reached.intersects(sides.ground);
        if ((supply ? 1 : 0) + (sensor ? 1 : 0) + (ground ? 1 : 0) != 1) {
            return UNKNOWN;
        }
        return supply ? TWELVE_VOLT : sensor ? SENSOR_SUPPLY : GROUND;
    }
}
