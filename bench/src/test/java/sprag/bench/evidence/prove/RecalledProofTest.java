package sprag.bench.evidence.prove;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.evidence.prove.explore.Recollection;
import sprag.bench.evidence.prove.explore.Recollection.Likeness;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;

/** The prover recalls what it was told of states that differ in counts alone. Here it is held against one that asks every time. */
@Execution(ExecutionMode.CONCURRENT)
class RecalledProofTest {
    private static List<String> lines(Proof proof) {
        Stream<String> verdicts = proof.verdicts().stream().map(Proof.Verdict::toString);
        Stream<String> passes = proof.passes().stream()
                .map(pass -> pass.watches() + " " + pass.size().states() + " "
                        + pass.size().transitions() + " " + pass.size().depth() + " " + pass.stoppedBy());
        return Stream.of(verdicts, passes, proof.unreached().stream().map(Proof.Unreached::toString))
                .flatMap(each -> each)
                .toList();
    }

    private static Proof prove(
            Settings settings, Settings promised, Set<Interlock> without, boolean gated, boolean asks)
            throws InterruptedException {
        return new Prover(settings)
                .promised(promised)
                .without(without)
                .gated(gated)
                .asksEveryTime(asks)
                .witnesses(true)
                .patience(300_000)
                .workers(2)
                .prove();
    }

    private static void assertSame(Settings settings, Settings promised, Set<Interlock> without, boolean gated)
            throws InterruptedException {
        assertEquals(
                lines(prove(settings, promised, without, gated, true)),
                lines(prove(settings, promised, without, gated, false)),
                () -> "without " + without + (gated ? ", with the Gate" : ""));
    }

    @ParameterizedTest(name = "{0}, gate {1}")
    @CsvSource({"yard-cart, false", "yard-cart, true"})
    void shippedVehicle_proved_asIfEveryTickWereAskedAbout(String vehicle, boolean gated) throws Exception {
        Settings settings = Shipped.vehicle(vehicle);
        assertSame(settings, settings, Set.of(), gated);
    }

    @Tag("long")
    @ParameterizedTest(name = "{0}, gate {1}")
    @CsvSource({
        "coupe, false",
        "coupe, true",
        "parcel-van, false",
        "parcel-van, true",
        "flawed-van, false",
        "flawed-van, true"
    })
    void otherVehicle_proved_asIfEveryTickWereAskedAbout(String vehicle, boolean gated) throws Exception {
        Settings settings = Shipped.vehicle(vehicle);
        assertSame(settings, settings, Set.of(), gated);
    }

    @Test
    void waitsOneTickShort_proved_asIfEveryTickWereAskedAbout() throws Exception {
        Settings cart = Shipped.vehicle("yard-cart");
        Settings shorter = cart;
        for (Parameter wait :
                List.of(Parameter.CONTACTOR_RELEASE_MS, Parameter.PRECHARGE_MIN_MS, Parameter.RUNDOWN_WAIT_MS)) {
            shorter = shorter.with(wait, shorter.get(wait) - shorter.get(Parameter.LOOP_TICK_MS));
        }
        assertSame(shorter, cart, Set.of(), false);
        assertTrue(prove(shorter, cart, Set.of(), false, false).broken().size() > 1, "waits that matter");
    }

    @Tag("long")
    @Test
    void eachInterlock_takenOut_asIfEveryTickWereAskedAbout() throws Exception {
        Settings cart = Shipped.vehicle("yard-cart");
        for (Interlock row : Interlock.values()) {
            assertSame(cart, cart, EnumSet.of(row), false);
            assertSame(cart, cart, EnumSet.of(row), true);
        }
    }

    /** Proves with what is known of the whole Logic, and with nothing known. */
    private static void assertSame(
            Settings whole, Settings weak, Set<Interlock> without, Likeness likeness, Recollection known, boolean gated)
            throws InterruptedException {
        Prover knowing = new Prover(weak).promised(whole).without(without).gated(gated);
        assertEquals(
                lines(prove(weak, whole, without, gated, false)),
                lines(knowing.knowing(known.of(likeness))
                        .witnesses(true)
                        .patience(300_000)
                        .workers(2)
                        .prove()),
                () -> "without " + without + (gated ? ", with the Gate" : ""));
    }

    private static Recollection known(Settings whole, boolean gated) throws InterruptedException {
        Prover prover = new Prover(whole).gated(gated).workers(2);
        prover.prove();
        return prover.known();
    }

    private static void assertSameOfRows(Settings whole, Set<Interlock> rows, boolean gated)
            throws InterruptedException {
        Recollection known = known(whole, gated);
        for (Interlock row : rows) {
            assertSame(whole, whole, EnumSet.of(row), Unchanged.without(row), known, gated);
        }
    }

    private static void assertSameOfWaits(Settings whole) throws InterruptedException {
        Recollection known = known(whole, false);
        for (Parameter wait : Necessity.WAITS) {
            for (int ticks : new int[] {-1, 1}) {
                Settings weak = whole.with(wait, whole.get(wait) + ticks * whole.get(Parameter.LOOP_TICK_MS));
                assertSame(whole, weak, Set.of(), Unchanged.weakened(whole, weak, wait), known, false);
            }
        }
    }

    @Test
    void knownLogic_rowTakenOut_asIfNothingWereKnown() throws Exception {
        Set<Interlock> rows = EnumSet.of(
                Interlock.PEDAL_AT_ENABLE,
                Interlock.PRECHARGE_SLOW,
                Interlock.PLUG_PULLED,
                Interlock.PLUG_UNLOCKED,
                Interlock.MOTOR_WARM);
        assertSameOfRows(Shipped.vehicle("yard-cart"), rows, false);
    }

    @Test
    void knownLogic_waitsOneTickOff_asIfNothingWereKnown() throws Exception {
        assertSameOfWaits(Shipped.vehicle("yard-cart"));
    }

    @Tag("long")
    @ParameterizedTest(name = "{0}")
    @CsvSource({"coupe", "yard-cart"})
    void knownLogic_anyRowTakenOutOrWaitOff_asIfNothingWereKnown(String vehicle) throws Exception {
        Settings whole = Shipped.vehicle(vehicle);
        assertSameOfRows(whole, EnumSet.allOf(Interlock.class), false);
        assertSameOfRows(whole, EnumSet.allOf(Interlock.class), true);
        assertSameOfWaits(whole);
    }
}
