package sprag.bench.run;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.TypingTest;
import sprag.bench.car.Quantity;
import sprag.bench.loop.Rig;
import sprag.bench.loop.relay.Rigs;
import sprag.bench.loop.trace.Channel.Source;
import sprag.bench.loop.trace.Frame;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;

/** A car that timer relays switch: it is wired with care, and no board is ever armed for it. */
class RelayCarTest extends TypingTest {
    @TempDir
    Path folder;

    @BeforeEach
    void writeCar() throws Exception {
        Path van = Catalogue.installed().vehicle("parcel-van");
        String text = Files.readString(van.resolve("vehicle.toml"));
        Files.writeString(folder.resolve("vehicle.toml"), text + "\n[car.relays]\ntimers = \"one\"\n");
    }

    private static Vehicle van(String timers) throws Exception {
        Vehicle van = VehicleReader.read(Catalogue.installed().vehicle("parcel-van"));
        return van.with(
                CarParameter.RELAYS_TIMERS, CarParameter.RELAYS_TIMERS.choices().indexOf(timers));
    }

    /** Ticks until a time, then gives the last tick. */
    private static Frame until(Rig rig, double seconds) {
        Frame frame = rig.channels().newFrame();
        do {
            rig.tick(frame);
        } while (frame.timeMs < Math.round(seconds * 1000));
        return frame;
    }

    private static double truth(Rig rig, Frame frame, Quantity quantity) {
        return frame.value[rig.channels().indexOf(Source.QUANTITY, quantity.key())];
    }

    private static Rig started(Vehicle vehicle, String fault) {
        Rig rig = Rigs.of(vehicle, null, 1, Set.of());
        if (!fault.isEmpty()) {
            rig.inject(fault);
        }
        rig.move("key", 1);
        rig.move("brake", 0.3);
        rig.move("direction", 1);
        until(rig, 0.5);
        rig.move("start", 1);
        until(rig, 0.7);
        rig.move("start", 0);
        return rig;
    }

    @ParameterizedTest(name = "{0} {1}")
    @CsvSource(delimiter = '|', textBlock = """
        one      |                      | 1 | 0.1 | the bus is charged when the timer ends
        one      | timer_1.stuck_closed | 1 | 20  | closes onto an empty bus
        one      | timer_1.stuck_open   | 0 | 0.1 | never closes
        parallel | timer_1.stuck_closed | 1 | 20  | either of the two closes it
        parallel | timer_2.stuck_closed | 1 | 20  | either of the two closes it
        parallel | timer_1.stuck_open   | 1 | 0.1 | the other one closes it
        series   | timer_1.stuck_closed | 1 | 0.1 | the other one waits
        series   | timer_2.stuck_closed | 1 | 0.1 | the other one waits
        series   | timer_2.stuck_open   | 0 | 0.1 | both are needed
        """)
    void timers_broken_closeAsTheirWiringSays(String timers, String fault, double closed, double mostJ, String because)
            throws Exception {
        Rig rig = started(van(timers), fault == null ? "" : fault);
        Frame end = until(rig, 2.5);
        assertEquals(closed, truth(rig, end, Quantity.POSITIVE_CLOSED), because);
        double inrushJ = truth(rig, end, Quantity.CONTACTOR_INRUSH_J);
        assertTrue(inrushJ <= mostJ && (mostJ < 1 || inrushJ > 10), because + ": " + inrushJ);
    }

    @ParameterizedTest
    @CsvSource({"key,0", "cut_loop,0", "cover_loop,0", "crash_loop,0", "plug,1"})
    void chain_broken_opensEverythingAndStaysOpen(String lever, double to) throws Exception {
        Rig rig = started(van("one"), "");
        assertEquals(1, truth(rig, until(rig, 2.5), Quantity.POSITIVE_CLOSED));
        double before = rig.position(lever);
        rig.move(lever, to);
        Frame open = until(rig, 3);
        assertEquals(0, truth(rig, open, Quantity.POSITIVE_CLOSED));
        assertEquals(0, truth(rig, open, Quantity.NEGATIVE_CLOSED));
        rig.move(lever, before);
        assertEquals(0, truth(rig, until(rig, 6), Quantity.NEGATIVE_CLOSED), "it needs a new start");
    }

    @Test
    void pedal_pressedFromTheStart_givesNoTorqueUntilReleased() throws Exception {
        Rig rig = Rigs.of(van("one"), null, 1, Set.of());
        rig.move("pedal", 0.5);
        rig.move("key", 1);
        rig.move("brake", 0.3);
        rig.move("direction", 1);
        rig.move("start", 1);
        until(rig, 3);
        rig.move("brake", 0);
        assertEquals(0, truth(rig, until(rig, 5), Quantity.DISTANCE_M), 0.01);
        rig.move("pedal", 0);
        until(rig, 5.2);
        rig.move("pedal", 0.5);
        assertTrue(truth(rig, until(rig, 8), Quantity.DISTANCE_M) > 1);
    }

    @Test
    void cable_pluggedIn_chargesWithinTheOffer() throws Exception {
        Rig rig = Rigs.of(van("one"), null, 1, Set.of());
        rig.move("plug", 1);
        Frame frame = until(rig, 20);
        assertTrue(truth(rig, frame, Quantity.AC_CURRENT_A) > 5);
        assertTrue(truth(rig, frame, Quantity.AC_CURRENT_A) <= truth(rig, frame, Quantity.CABLE_LIMIT_A));
    }

    @Test
    void run_ofACarWithRelays_saysSoAndLeavesNoRecording() throws IOException {
        Path to = folder.resolve("o");
        sprag("run", folder.toString(), "drive-and-stop", "--out", to.toString());
        assertTrue(out.toString().replaceAll("\\s+", " ").contains("with timer relays, no supervisor"), out::toString);
        assertFalse(Files.exists(to.resolve("drive-and-stop").resolve("recording.sprag")));
        assertTrue(Files.exists(to.resolve("drive-and-stop").resolve("trace.csv")));
    }

    @ParameterizedTest
    @ValueSource(strings = {"loop-overruns", "data-bus-cut", "link-lost"})
    void run_ofAStoryAboutTheLoop_playsToItsEnd(String scenario) {
        int status = sprag(
                "run", folder.toString(), scenario, "--out", folder.resolve("o").toString());
        assertTrue(status <= 1, err::toString);
    }

    @ParameterizedTest
    @ValueSource(strings = {"panel", "commission", "prove", "matrix", "campaign", "port"})
    void command_thatNeedsASupervisor_refusesACarWithRelays(String command) {
        assertEquals(2, sprag(command, folder.toString()));
        assertTrue(err.toString().contains("car.relays.timers is not \"none\""), err::toString);
    }
}
