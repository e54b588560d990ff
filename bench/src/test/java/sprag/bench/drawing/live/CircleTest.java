package sprag.bench.drawing.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import sprag.bench.drawing.live.element.Consumer;
import sprag.bench.review.wiring.schedule.Schedule;

/** Relays that never settle, and timers. */
class CircleTest {
    private static final String WIRES = "wire,from,to,net,class,size_mm2,colour,length_m,fuse_a,from_pin_v,to_pin_v\n"
            + "L1,battery.plus,fuse_12v.in,lv,12v,1,red,1,,32,32\n"
            + "L2,fuse_12v.out,node.1,lv,12v,1,red,1,,32,32\n"
            + "E1,battery.minus,chassis.1,ground,earth,1,black,1,,32,32\n";
    private static final String PARTS = "part,kind\nbattery,lv-battery\nfuse_12v,fuse\nnode,splice\nchassis,chassis\n";

    private static String wire(int number, String from, String to) {
        return "W" + number + "," + from + "," + to + ",n" + number + ",12v,1,red,1,,32,32\n";
    }

    /** A relay that breaks its own coil, and one that does not. */
    private static Schedule buzzer() {
        return Schedules.read(
                WIRES
                        + wire(1, "node.2", "relay_buzz.in")
                        + wire(2, "relay_buzz.rest", "relay_buzz.coil_plus")
                        + wire(3, "relay_buzz.coil_minus", "chassis.2")
                        + wire(4, "node.3", "relay_calm.coil_plus")
                        + wire(5, "relay_calm.coil_minus", "chassis.3"),
                PARTS + "relay_buzz,relay\nrelay_calm,relay\n");
    }

    @Test
    void relayThatBreaksItsOwnCoil_isToldAndNoOther() {
        BrokenPromise broken = Schedules.report(buzzer()).broken().stream()
                .filter(b -> b.promise() == LivePromise.SETTLES)
                .findFirst()
                .orElseThrow();
        assertEquals("relay_buzz never settles", broken.happens());
    }

    @Test
    void runningCircuit_relayThatBreaksItsOwnCoil_isRestless() {
        RunningCircuit circuit = new RunningCircuit(new CircuitPlan(buzzer(), 100, 230));
        circuit.settle(0);
        assertEquals(List.of("relay_buzz"), List.copyOf(circuit.restless()));
    }

    /** A timer whose contact feeds a lamp. */
    private static Schedule timer() {
        return Schedules.read(
                WIRES
                        + wire(1, "node.2", "switch_a.in")
                        + wire(2, "switch_a.out", "timer_1.coil_plus")
                        + wire(3, "timer_1.coil_minus", "chassis.2")
                        + wire(4, "node.3", "timer_1.in")
                        + wire(5, "timer_1.out", "lamp_1.plus")
                        + wire(6, "lamp_1.minus", "chassis.3"),
                PARTS + "switch_a,switch\ntimer_1,timer\nlamp_1,lamp\n");
    }

    @Test
    void runningCircuit_timerFed_closesAtItsDelayAndOpensAtOnce() {
        CircuitPlan plan = new CircuitPlan(timer(), 100, 230);
        RunningCircuit circuit = new RunningCircuit(plan);
        circuit.timers(1000);
        int lamp = number(plan);
        int key = plan.controls()
                .indexOf(plan.controls().stream()
                        .filter(c -> c.part().equals("switch_a"))
                        .findFirst()
                        .orElseThrow());
        circuit.settle(0);
        circuit.set(key, true);
        circuit.settle(10);
        circuit.settle(1000);
        assertFalse(circuit.works(lamp), "990 ms");
        circuit.settle(1010);
        assertTrue(circuit.works(lamp), "1000 ms");
        circuit.set(key, false);
        circuit.settle(1020);
        assertFalse(circuit.works(lamp));
    }

    private static int number(CircuitPlan plan) {
        return plan.consumers()
                .indexOf(plan.consumers().stream()
                        .filter(c -> c.kind() == Consumer.Kind.LAMP)
                        .findFirst()
                        .orElseThrow());
    }
}
