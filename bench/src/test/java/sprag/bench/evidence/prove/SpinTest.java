package sprag.bench.evidence.prove;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.Path;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.evidence.prove.export.PromelaModel;
import sprag.bench.evidence.prove.promise.HistoryPromise;
import sprag.bench.evidence.prove.promise.Promise;
import sprag.bench.evidence.prove.toy.Spin;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Settings;

/**
 * SPIN judges the promises on the model of Logic, and must judge as {@code prove} does. More mutants, and others:
 * {@code -Dspin.mutants=200 -Dspin.first=1000}.
 */
@Tag("long")
@Execution(ExecutionMode.CONCURRENT)
class SpinTest {
    private static final Set<String> SINGLE =
            Stream.of(Promise.values()).map(Enum::name).collect(Collectors.toSet());
    private static final Set<String> HISTORIES =
            Stream.of(HistoryPromise.values()).map(Enum::name).collect(Collectors.toSet());

    /** The mutants of a thread follow one another among the same classes. */
    private static final ThreadLocal<Class<?>> APART = ThreadLocal.withInitial(SpinTest::apart);

    private static Class<?> apart() {
        try {
            return new ApartLoader().loadClass(Mutant.class.getName());
        } catch (ClassNotFoundException e) {
            throw new IllegalStateException(e);
        }
    }

    @BeforeAll
    static void spinIsThere() throws Exception {
        assumeTrue(Spin.installed(), "spin and gcc are not installed");
    }

    private static Set<String> broken(Proof proof) {
        return stated(proof.broken().stream().map(Proof.Verdict::id).collect(Collectors.toSet()));
    }

    private static Set<String> stated(Set<String> promises) {
        Set<String> stated = new TreeSet<>(promises);
        stated.removeAll(PromelaModel.NOT_STATED.keySet());
        return stated;
    }

    @ParameterizedTest(name = "{0}")
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void shippedVehicle_judgedBySpin_everyPromiseHoldsAndTheSameHaveNothingToSay(String name, @TempDir Path folder)
            throws Exception {
        Settings settings = Shipped.vehicle(name);
        Proof proof = new Prover(settings).prove();
        Pan pan = Pan.explore(folder, PromelaModel.of(name, settings, settings, Set.of()));

        assertEquals(Set.of(), broken(proof));
        assertEquals(Set.of(), pan.broken());
        Set<String> idle = proof.idle().stream().map(Proof.Verdict::id).collect(Collectors.toSet());
        idle.removeAll(HISTORIES);
        Set<String> silent = new TreeSet<>(pan.silent());
        silent.removeAll(HISTORIES);
        assertEquals(stated(idle), silent, "promises that no tick concerns");
    }

    /** Without a promise about several ticks, a state of the model is a state of Logic. */
    @ParameterizedTest(name = "{0}, {1}")
    @CsvSource({"parcel-van, 10", "coupe, 10", "yard-cart, 10"})
    void logicAlone_countedBySpin_hasAsManyStates(String name, double tickMs, @TempDir Path folder) throws Exception {
        Settings settings = Shipped.vehicle(name).with(Parameter.LOOP_TICK_MS, tickMs);
        Proof proof = new Prover(settings).ignoring(HISTORIES).prove();
        Pan pan = Pan.explore(folder, PromelaModel.of(name, settings, settings, Set.of()), "-DWATCHED=0");

        assertEquals(proof.states(), pan.states());
    }

    /** Short waits, for a small machine. */
    private static double[] small() throws Exception {
        Settings settings = ExportTest.cart()
                .with(Parameter.RUNDOWN_SPIN_MS, 700)
                .with(Parameter.RUNDOWN_WAIT_MS, 400)
                .with(Parameter.PRECHARGE_TIMEOUT_MS, 1000);
        return Stream.of(Parameter.values()).mapToDouble(settings::get).toArray();
    }

    static LongStream mutants() {
        long first = Long.getLong("spin.first", 1);
        return LongStream.range(first, first + Long.getLong("spin.mutants", 20));
    }

    @ParameterizedTest(name = "mutant {0}")
    @MethodSource("mutants")
    void mutant_judgedBySpin_theSamePromisesAreBroken(long seed, @TempDir Path folder) throws Exception {
        Object[] proved = (Object[])
                APART.get().getMethod("prove", long.class, double[].class).invoke(null, seed, small());
        @SuppressWarnings("unchecked")
        Set<String> broken = stated((Set<String>) proved[2]);
        Pan pan = Pan.explore(folder, (String) proved[1]);

        assertEquals(broken, pan.broken(), (String) proved[0]);
    }

    /** A changed row is changed for the mutant alone, and only until it has been proved. */
    @Test
    void mutantOfARow_proved_rowIsHereAsItWasAndThereAsItWas() throws Exception {
        Object[] changed = (Object[])
                apart().getMethod("prove", long.class, double[].class).invoke(null, 17L, small());

        assertEquals("CUT_LOOP_OPEN with response LIMIT", changed[0]);
        assertEquals(Response.OPEN_NOW, Interlock.CUT_LOOP_OPEN.response);
        assertNotEquals(Mutant.class, apart());
    }
}
