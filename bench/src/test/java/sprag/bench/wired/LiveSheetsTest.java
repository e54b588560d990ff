package sprag.bench.wired;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import sprag.bench.car.Lever;
import sprag.bench.drawing.live.Schedules;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** What the panel's sheets show is what the circuit does. */
class LiveSheetsTest {
    private static WiredRigs rigs;
    private static LiveSheets sheets;
    private static LiveSheets.State atRest;
    private static LiveSheets.State driving;

    @BeforeAll
    static void drive() throws Exception {
        Vehicle vehicle = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
        WiredPlan plan = new WiredPlan(Schedules.of("parcel-van"), vehicle);
        rigs = WiredRigs.of(plan, vehicle, null, 1, Set.of());
        sheets = new LiveSheets(plan);
        run(50);
        atRest = sheets.of(rigs.wires());
        rigs.loop().car().levers().set(Lever.KEY, 1);
        rigs.loop().car().levers().set(Lever.BRAKE, 0.4);
        run(50);
        rigs.loop().car().levers().set(Lever.START, 1);
        run(30);
        rigs.loop().car().levers().set(Lever.START, 0);
        run(300);
        driving = sheets.of(rigs.wires());
    }

    private static void run(int ticks) {
        for (int tick = 0; tick < ticks; tick++) {
            rigs.loop().tick();
        }
    }

    private static String carries(LiveSheets.State state, String net) {
        Map<Integer, String> names = sheets.netNames();
        return names.entrySet().stream()
                .filter(e -> e.getValue().equals(net))
                .map(e -> state.nets().get(e.getKey()))
                .collect(Collectors.joining(" "));
    }

    @Test
    void nets_atRestAndDriving_carryWhatTheContactsLetThrough() {
        assertEquals("P+", carries(atRest, "pack_fused"));
        assertEquals("-", carries(atRest, "bus_plus"));
        assertEquals("P+", carries(driving, "bus_plus"));
        assertEquals("P-", carries(driving, "bus_minus"));
        assertEquals("12", carries(driving, "lv_inverter"));
    }

    @Test
    void contactsAndCoils_atRestAndDriving_standWhereTheCarHasThem() {
        assertEquals(false, atRest.contacts().get("contactor_positive.out"));
        assertEquals(true, driving.contacts().get("contactor_positive.out"));
        assertEquals(false, driving.contacts().get("relay_precharge.out"), "precharge is over");
        assertEquals(true, driving.contacts().get("fuse_main.out"));
        assertEquals("pulled", driving.parts().get("contactor_positive"));
        assertEquals("", atRest.parts().get("contactor_positive"));
        assertEquals("lit", driving.parts().get("brake_lamps"));
        assertFalse(driving.contacts().containsKey("direction_lever.in"), "two contacts share it");
    }

    @Test
    void nothingMoves_circuitIsNotReadAgain() {
        long before = rigs.wires().changes();
        run(20);
        assertEquals(before, rigs.wires().changes());
        assertEquals(driving, sheets.of(rigs.wires()));
        assertNotEquals(atRest, driving);
    }

    @Test
    void everyNetOnASheet_hasAStateAndAName() {
        for (int net : sheets.netNames().keySet()) {
            assertTrue(driving.nets().containsKey(net), sheets.netNames().get(net));
        }
    }
}
