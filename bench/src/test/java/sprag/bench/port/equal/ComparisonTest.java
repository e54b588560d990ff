package sprag.bench.port.equal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.cli.Trouble;
import sprag.bench.port.tool.Tool;
import sprag.bench.run.ScenarioFiles;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Output;

/** One number that the Java would have decided otherwise, of whatever kind and in whatever place, is told. */
class ComparisonTest {
    private static Twin twin;
    private static Batch drive;

    @BeforeAll
    static void play(@TempDir Path folder) throws Exception {
        assumeTrue(Tool.GCC.find().isPresent(), Tool.GCC.missing());
        Catalogue catalogue = Catalogue.installed();
        Vehicle vehicle = VehicleReader.read(catalogue.vehicle("parcel-van"));
        twin = SharedTwin.of(vehicle, folder);
        List<Batch> tape = new ArrayList<>();
        new Material(vehicle, twin.cells(), tape::add)
                .play(
                        new ScenarioFiles(catalogue, vehicle)
                                .take(List.of("drive-and-stop"))
                                .get(0),
                        0);
        drive = tape.get(0);
    }

    /** The first ticks of a drive, with some of the numbers that the Java has decided. */
    private static Batch with(double[] outputs, long[] states, long[] remembered) {
        return new Batch(
                drive.name(),
                true,
                drive.firstTick(),
                drive.ticks(),
                drive.readings(),
                new Batch.Decided(outputs, states),
                remembered);
    }

    /** Another number, which no rounding makes of it. */
    private static long other(int cell, long number) {
        return twin.cells().get(cell).isQuantity()
                ? Double.doubleToLongBits(Math.nextUp(
                        Double.isNaN(Double.longBitsToDouble(number)) ? 0 : Double.longBitsToDouble(number)))
                : number + 1;
    }

    @Test
    void ticksInARow_withAnyNumberOtherwise_areToldWithItsPlace() {
        double[] outputs = drive.decided().outputs();
        long[] states = drive.decided().states();
        long[] remembered = drive.remembered();
        try (HostProgram program = HostProgram.start(twin.folder())) {
            Comparison comparison = new Comparison(program, twin.cells());
            assertEquals(Optional.empty(), comparison.differs(drive));
            for (Output output : Output.values()) {
                double[] changed = outputs.clone();
                int at = 40 * Output.COUNT + output.ordinal();
                changed[at] = Math.nextUp(changed[at]);
                String told =
                        comparison.differs(with(changed, states, remembered)).orElse("nothing");
                assertTrue(told.contains("tick 40: " + output.key() + " is "), told);
            }
            for (int tick = 0; tick < states.length; tick++) {
                long[] changed = states.clone();
                changed[tick] ^= 1;
                String told =
                        comparison.differs(with(outputs, changed, remembered)).orElse("nothing");
                assertTrue(told.contains("tick " + tick + ": the packed state"), told);
            }
            for (int cell = 0; cell < remembered.length; cell++) {
                long[] changed = remembered.clone();
                changed[cell] = other(cell, changed[cell]);
                String told = comparison.differs(with(outputs, states, changed)).orElse("nothing");
                assertTrue(told.contains(twin.cells().get(cell).place() + " is "), told);
            }
        }
    }

    @Test
    void ticksByThemselves_withAnyNumberOtherwise_areTold() {
        Cases cases = twin.cases(List.of(drive), 8).get(0);
        int possible = 0;
        while (!cases.result().possible()[possible]) {
            possible++;
        }
        try (HostProgram program = HostProgram.start(twin.folder())) {
            Comparison comparison = new Comparison(program, twin.cells());
            assertEquals(Optional.empty(), comparison.differs(cases));
            Cases.Result result = cases.result();
            for (int cell = 0; cell < twin.cells().size(); cell++) {
                int at = possible * twin.cells().size() + cell;
                long before = result.after()[at];
                result.after()[at] = other(cell, before);
                String told = comparison.differs(cases).orElse("nothing");
                assertTrue(told.contains(twin.cells().get(cell).place() + " is "), told);
                result.after()[at] = before;
            }
            for (Output output : Output.values()) {
                int at = possible * Output.COUNT + output.ordinal();
                double before = result.decided().outputs()[at];
                result.decided().outputs()[at] = Math.nextUp(before);
                assertTrue(comparison.differs(cases).orElse("nothing").contains(output.key() + " is "));
                result.decided().outputs()[at] = before;
            }
            result.decided().states()[possible] ^= 1;
            assertTrue(comparison.differs(cases).orElse("nothing").contains("the packed state"));
            result.decided().states()[possible] ^= 1;
            result.possible()[possible] = false;
            assertTrue(comparison.differs(cases).orElse("nothing").contains("impossible in Java"));
            result.possible()[possible] = true;
            assertEquals(Optional.empty(), comparison.differs(cases));
        }
    }

    @Test
    void wakingUpAndTheGate_withOneNumberOtherwise_areTold() {
        try (HostProgram program = HostProgram.start(twin.folder())) {
            Comparison comparison = new Comparison(program, twin.cells());
            Wakes wakes = Wakes.of(twin.settings(), 1);
            assertEquals(Optional.empty(), comparison.differs(wakes));
            wakes.states()[wakes.states().length - 1] ^= 1;
            assertTrue(comparison.differs(wakes).orElse("nothing").contains("woken up with"));
            List<GateOrders> orders = GateOrders.of(twin.settings(), 2, 1);
            assertEquals(Optional.empty(), comparison.gate(orders));
            boolean[] vetoed = orders.get(1).vetoed();
            vetoed[GateOrders.TICKS - 1] = !vetoed[GateOrders.TICKS - 1];
            assertTrue(comparison.gate(orders).orElse("nothing").contains("veto"));
            vetoed[GateOrders.TICKS - 1] = !vetoed[GateOrders.TICKS - 1];
            double[] left = orders.get(1).left();
            left[left.length - 1] = Math.nextUp(left[left.length - 1]);
            assertTrue(comparison.gate(orders).orElse("nothing").contains(Output.values()[Output.COUNT - 1].key()));
        }
    }

    @Test
    void programInC_thatHasEnded_isADifference() throws Exception {
        HostProgram program = HostProgram.start(twin.folder());
        Comparison comparison = new Comparison(program, twin.cells());
        program.end();
        assertTrue(comparison.differs(drive).orElse("nothing").contains("the C has "));
        assertTrue(comparison.gate(GateOrders.of(twin.settings(), 1, 1)).isPresent());
        assertTrue(comparison.differs(Wakes.of(twin.settings(), 1)).isPresent());
        assertTrue(comparison.differs(twin.cases(List.of(drive), 8).get(0)).isPresent());
        assertThrows(Trouble.class, () -> comparison.must(drive));
    }

    @Test
    void sourceInC_thatDoesNotCompile_isTrouble(@TempDir Path folder) {
        assertThrows(
                Trouble.class,
                () -> HostProgram.compile(
                        folder, Map.of("faulty.c", "int faulty(void) { return; }\n"), Compiled.NOTHING));
    }

    /** The bounds that the page on porting states. */
    @Test
    void quantityInSinglePrecision_beyondTheStatedBound_isToldAndAtItIsNot() throws Exception {
        String page = Files.readString(Catalogue.installed().home().resolve("docs/porting.md"));
        assertTrue(page.replace('\n', ' ').contains("more than 0.05 Nm, A or V away, or a gauge more than 0.02 away"));
        for (Output output : Output.values()) {
            double bound = output == Output.GAUGE_FRACTION ? 0.02 : 0.05;
            assertEquals(List.of(), new Equality.Rounded(1, List.of(), 0, Map.of(output, bound)).beyond());
            assertEquals(
                    List.of(output),
                    new Equality.Rounded(1, List.of(), 0, Map.of(output, Math.nextUp(bound))).beyond());
        }
    }
}
