package sprag.bench.evidence.prove;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.evidence.prove.explore.Explorer;
import sprag.bench.evidence.prove.explore.Machine;
import sprag.bench.evidence.prove.explore.Recollection;
import sprag.bench.evidence.prove.explore.Successors;
import sprag.bench.evidence.prove.explore.Watched;
import sprag.bench.evidence.prove.promise.HistoryPromise;
import sprag.bench.evidence.prove.promise.Promise;
import sprag.bench.evidence.prove.promise.StepOrder;
import sprag.bench.evidence.prove.promise.Tick;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.input.TickFacts;
import sprag.supervisor.logic.Journal;
import sprag.supervisor.logic.Logic;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Step;
import sprag.supervisor.vocabulary.TorquePermission;

@Execution(ExecutionMode.CONCURRENT)
class ProverTest {
    private static Set<String> names(List<Proof.Verdict> verdicts) {
        return verdicts.stream().map(Proof.Verdict::id).collect(Collectors.toCollection(TreeSet::new));
    }

    private static Prover without(Interlock row) throws Exception {
        return new Prover(Shipped.vehicle("parcel-van")).without(EnumSet.of(row));
    }

    /** The van has the most states by far: {@code -Plong} explores it. */
    @ParameterizedTest(name = "{0}")
    @ValueSource(strings = {"coupe", "yard-cart"})
    void shippedVehicle_explored_everyPromiseHoldsInEveryReachableState(String vehicle) throws Exception {
        everyPromiseHolds(vehicle);
    }

    @Tag("long")
    @Test
    void van_explored_everyPromiseHoldsInEveryReachableState() throws Exception {
        everyPromiseHolds("parcel-van");
    }

    private static void everyPromiseHolds(String vehicle) throws Exception {
        Proof proof = new Prover(Shipped.vehicle(vehicle)).workers(2).prove();

        assertTrue(proof.complete());
        assertEquals(Set.of(), names(proof.broken()));
        assertEquals(List.of(), proof.unreached(), "dead logic");
        assertEquals(Set.of(), names(proof.vacuous()), "promises that prove nothing");
        Set<String> idle = vehicle.equals("coupe") ? Set.of() : Set.of("CHARGE_ENDS_IN_TIME", "CLOSING_IS_ASKED_FOR");
        assertEquals(idle, names(proof.idle()), "nothing closes for a charge where the chargers are on the pack side");
        assertEquals(
                Promise.values().length + HistoryPromise.values().length,
                proof.verdicts().size());
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2})
    void randomFacts_walked_neverLeaveWhatWasExplored(long seed) throws Exception {
        Settings settings = Shipped.vehicle(seed % 2 == 0 ? "parcel-van" : "coupe");
        Set<Long> explored = new HashSet<>();
        Explorer.of(() -> recording(settings, explored)).explore();
        Random random = new Random(seed);
        Logic logic = new Logic(settings, EnumSet.noneOf(Interlock.class), Journal.SILENT);
        TickFacts facts = new TickFacts();
        Set<Long> walked = new HashSet<>();
        for (int tick = 0; tick < 300_000; tick++) {
            wander(facts, random);
            logic.step(facts);
            long state = logic.state().pack();
            walked.add(state);
            assertTrue(explored.contains(state), "state " + state + " at tick " + tick + " was not explored");
        }
        assertTrue(walked.size() > 800, walked.size() + " of " + explored.size() + " were walked through");
    }

    private static Machine recording(Settings settings, Set<Long> into) {
        Watched<Tick> machine = new Watched<>(new Tick(settings, settings, Set.of(), false), List.of(), List.of());
        return new Machine() {
            @Override
            public long initial() {
                return machine.initial();
            }

            @Override
            public int events() {
                return machine.events();
            }

            @Override
            public void expand(long state, Successors out) {
                into.add(state);
                machine.expand(state, out);
            }
        };
    }

    /** Causes come rarely and go soon, so that the walk gets somewhere; what the driver does changes now and then. */
    private static void wander(TickFacts facts, Random random) {
        for (Fact fact : Fact.values()) {
            boolean cause = fact.ordinal() >= Fact.CUT_LOOP_OPEN.ordinal();
            if (cause ? facts.value(fact) != 0 && random.nextInt(20) == 0 : random.nextInt(60) == 0) {
                facts.set(fact, cause ? 0 : random.nextInt(fact.labels.size()));
            } else if (cause && random.nextInt(40_000) == 0) {
                facts.set(fact, 1);
            }
        }
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        TAKEN_OUT           | BREAKS                 | TICKS | BECAUSE
        PLUG_PRESENT        | NO_DRIVE_WITH_A_PLUG   | 5     | power, key on, start released, start, plug
        BRAKE_NOT_PRESSED   | START_IS_BRAKED        | 4     | power, key on, start released, start without the brake
        START_HELD          | START_RELEASED_FIRST   | 3     | power, key on, start was held all the time
        KEY_NEVER_OFF       | KEY_OFF_FIRST          | 3     | power with the key on, start released, start
        PRECHARGE_SLOW      | RISE_ENDS_IN_TIME      | 225   | weld test, then as long as the resistor's limit and one more
        """)
    void interlock_takenOut_breaksItsPromiseTheShortestWay(Interlock takenOut, String breaks, int ticks, String because)
            throws Exception {
        Proof.Verdict first = without(takenOut).firstBroken().orElseThrow();

        assertEquals(breaks, first.id(), because);
        assertEquals(ticks, first.story().orElseThrow().ticks().size(), because);
    }

    @Tag("long")
    @Test
    void interlocksAndWaits_eachTakenOutOrWeakened_somethingBreaks() throws Exception {
        Necessity necessity =
                Necessity.of(Shipped.vehicle("yard-cart"), Set.of(), new Recollection(), 2, done -> {}, () -> false);

        assertEquals(
                List.of(),
                necessity.findings().stream().map(Necessity.Row::what).toList(),
                "what is taken out and not missed");
        assertEquals(Interlock.COUNT + 18, necessity.rows().size());
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource({
        "CRASH_SEEN,            true",
        "NEGATIVE_WELDED,       true",
        "POSITIVE_WELDED,       true",
        "PRECHARGE_WELDED,      true",
        "LV_LOST,               true",
        "COVER_LOOP_OPEN,       true",
        "READINGS_LOST,         true",
        "PLUG_PRESENT,          true",
        "DISCHARGE_WITHDRAWN,   true",
        "BRAKE_NOT_PRESSED,     true",
        "CHARGE_NOT_PERMITTED,  true",
        "CHARGER_OVERHEATED,    true",
        "GATE_VETOED,           false",
        "NEGATIVE_DROPPED,      false",
        "BUS_OVERVOLTAGE,       false",
    })
    void counterexample_exported_saysWhatTheCarShows(Interlock takenOut, boolean shown) throws Exception {
        Vehicle vehicle = Shipped.whole("parcel-van");
        Set<Interlock> without = EnumSet.of(takenOut);
        String toml = ScenarioDraft.of(
                vehicle, without, without(takenOut).firstBroken().orElseThrow(), () -> false);

        assertTrue(toml.contains("#   sprag run parcel-van THIS-FILE --without " + takenOut.id()), toml);
        assertEquals(shown, toml.contains(ScenarioDraft.SHOWN), toml);
        assertEquals(!shown, toml.contains("The simulated car does not show it"), toml);
        if (shown) {
            assertFalse(CarReplay.passes(toml, vehicle, without), "taken out");
            assertTrue(CarReplay.passes(toml, vehicle, Set.of()), "in its place");
        }
    }

    @Test
    void counterexample_vehicleNotShipped_commandNamesItsPath(@TempDir Path home) throws Exception {
        Path folder = Files.createDirectory(home.resolve("my van"));
        Files.copy(Shipped.whole("parcel-van").folder().resolve("vehicle.toml"), folder.resolve("vehicle.toml"));
        Vehicle vehicle = VehicleReader.read(folder);
        Proof.Verdict broken = without(Interlock.PLUG_PRESENT).firstBroken().orElseThrow();
        String toml = ScenarioDraft.of(vehicle, EnumSet.of(Interlock.PLUG_PRESENT), broken, () -> true);
        String said = toml.lines()
                .filter(line -> line.contains("THIS-FILE"))
                .findFirst()
                .orElseThrow();

        assertEquals("#   sprag run \"" + folder + "\" THIS-FILE --without plug-present", said);
    }

    @Test
    void counterexample_interrupted_saysThatItWasNotPlayed() throws Exception {
        Vehicle vehicle = Shipped.whole("parcel-van");
        Proof.Verdict broken = without(Interlock.PLUG_PRESENT).firstBroken().orElseThrow();
        String toml = ScenarioDraft.of(vehicle, EnumSet.of(Interlock.PLUG_PRESENT), broken, () -> true);

        String words = toml.replace("\n# ", " ");
        assertTrue(words.contains(ScenarioDraft.UNPLAYED), toml);
        assertFalse(words.contains(ScenarioDraft.SHOWN), toml);
        assertFalse(CarReplay.passes(toml, vehicle, EnumSet.of(Interlock.PLUG_PRESENT)), "it is whole all the same");
    }

    @Test
    void necessity_interrupted_saysWhatIsNotKnownAndCallsNothingRedundant() throws Exception {
        AtomicInteger done = new AtomicInteger();
        Necessity necessity = Necessity.of(
                Shipped.vehicle("yard-cart"), Set.of(), new Recollection(), 1, done::set, () -> done.get() >= 3);
        StringWriter written = new StringWriter();
        new ProofText(new PrintWriter(written)).necessity(necessity, 1);
        String text = written.toString();

        long unknown = necessity.rows().stream().filter(row -> !row.isKnown()).count();
        assertTrue(unknown > 50, text);
        assertTrue(text.contains("  " + unknown + " rows are not known."), text);
        assertFalse(text.contains("NOTHING"), text);
        assertFalse(text.contains("break nothing"), text);
        assertFalse(text.contains("is needed."), text);
        assertEquals(unknown, necessity.findings().size(), "the exit status says that not all is well");
    }

    @Test
    void waitWhoseOneWayBreaks_otherWayIsUnknownUnlessItWasExplored() {
        Optional<Proof.Verdict> broken =
                Optional.of(new Proof.Verdict("SOME", "H07", "is broken", Optional.empty(), Optional.empty(), 1, ""));
        Necessity.Row shorter = new Necessity.Row("wait", "shorter", "", broken, broken, true, "");
        Necessity.Row explored = new Necessity.Row("wait", "longer", "", Optional.empty(), Optional.empty(), true, "");
        Necessity.Row given =
                new Necessity.Row("wait", "longer", "", Optional.empty(), Optional.empty(), false, "stopped");
        assertEquals(
                "only the other way matters",
                Necessity.together(List.of(shorter, explored)).get(1).note());
        assertEquals(List.of(shorter, given), Necessity.together(List.of(shorter, given)));
        assertTrue(given.finding(), "unknown calls for attention");
    }

    @Test
    void witnesses_interrupted_notSearched() throws Exception {
        AtomicInteger asked = new AtomicInteger();
        Proof proof = without(Interlock.PLUG_PRESENT)
                .witnesses(true)
                .stopWhen(() -> asked.incrementAndGet() > 200)
                .prove();

        assertTrue(proof.broken().size() > 0);
        assertTrue(proof.broken().stream().allMatch(each -> each.story().isPresent()), "what is broken is told");
        assertTrue(proof.verdicts().stream().allMatch(each -> each.witness().isEmpty()), "the rest takes too long");
    }

    @Test
    void cutLoopTakenOut_withTheGate_stillDead() throws Exception {
        Set<Interlock> out = EnumSet.of(Interlock.CUT_LOOP_OPEN, Interlock.CRASH_SEEN);
        assertEquals(Set.of("DEAD_ON_CUT_OFF"), names(deadOnCutOff(out).prove().broken()));
        assertEquals(
                Set.of("DEAD_ON_CUT_OFF"),
                names(deadOnCutOff(out).gated(true).prove().broken()),
                "the crash switch is not the Gate's business");
        Proof cutOnly =
                deadOnCutOff(EnumSet.of(Interlock.CUT_LOOP_OPEN)).gated(true).prove();
        assertEquals(Set.of(), names(cutOnly.broken()), "the cut-off loop is");
        assertEquals(List.of(), cutOnly.idle(), "a promise that never applies proves nothing");
    }

    /** One promise of the van, alone: a quarter of the work of all. */
    private static Prover deadOnCutOff(Set<Interlock> out) throws Exception {
        Set<String> others = Stream.concat(Arrays.stream(Promise.values()), Arrays.stream(HistoryPromise.values()))
                .map(Enum::name)
                .filter(name -> !name.equals("DEAD_ON_CUT_OFF"))
                .collect(Collectors.toSet());
        return new Prover(Shipped.vehicle("parcel-van")).ignoring(others).without(out);
    }

    @ParameterizedTest(name = "{0}")
    @EnumSource(Step.class)
    void anyStep_contactsStatedApart_areThoseOfItsRowAndNoOthers(Step step) {
        for (int contacts = 0; contacts < 8; contacts++) {
            boolean negative = (contacts & 1) != 0;
            boolean relay = (contacts & 2) != 0;
            boolean positive = (contacts & 4) != 0;
            boolean row =
                    negative == step.negativeClosed && relay == step.prechargeClosed && positive == step.positiveClosed;
            assertEquals(row, StepOrder.closes(step, negative, relay, positive), step + ", contacts " + contacts);
        }
    }

    @Test
    @Tag("long")
    void promise_withItsWitness_lastTickIsTheFirstItSpeaksOf() throws Exception {
        Proof proof = new Prover(Shipped.vehicle("yard-cart"))
                .witnesses(true)
                .workers(2)
                .prove();

        for (Proof.Verdict verdict : proof.verdicts()) {
            int told = verdict.witness().map(story -> story.ticks().size()).orElse(0);
            assertEquals(verdict.applied(), told, verdict.id());
        }
        Counterexample.Tock last = proof.verdicts().stream()
                .filter(verdict -> verdict.id().equals("TORQUE_NEEDS_THE_KEY"))
                .findFirst()
                .flatMap(Proof.Verdict::witness)
                .map(story -> story.ticks().get(story.ticks().size() - 1))
                .orElseThrow();
        assertEquals(TorquePermission.FOLLOW_PEDAL, last.torque());
    }

    @Test
    void promiseThatNeverApplies_withoutAReason_isNoProof() {
        Proof.Verdict silent = new Proof.Verdict("ANY", "H01", "", Optional.empty(), Optional.empty(), 0, "");
        Proof.Verdict known = new Proof.Verdict("ANY", "H01", "", Optional.empty(), Optional.empty(), 0, "no charger");

        assertFalse(new Proof(Set.of(), List.of(silent), List.of(), List.of()).good());
        assertTrue(new Proof(Set.of(), List.of(known), List.of(), List.of()).good());
    }

    @Test
    void exploration_interrupted_keepsWhatWasFoundAndIsNotComplete() throws Exception {
        AtomicInteger asked = new AtomicInteger();
        Proof proof = without(Interlock.PLUG_PRESENT)
                .stopWhen(() -> asked.incrementAndGet() > 200)
                .prove();

        assertFalse(proof.complete());
        assertTrue(proof.stoppedBy().startsWith("it was interrupted"), proof.stoppedBy());
        assertTrue(names(proof.broken()).contains("NO_DRIVE_WITH_A_PLUG"), "found before the end");
    }

    @Test
    void promiseBroken_patienceEnds_isBrokenAllTheSameAndNotComplete() throws Exception {
        Proof proof = without(Interlock.PLUG_PRESENT).patience(5000).prove();

        assertFalse(proof.complete());
        assertTrue(proof.stoppedBy().contains("after the first finding"), proof.stoppedBy());
        assertTrue(names(proof.broken()).contains("NO_DRIVE_WITH_A_PLUG"));
        assertTrue(
                new Prover(Shipped.vehicle("yard-cart")).patience(5000).prove().complete(), "sound: nothing to find");
    }

    @Test
    void nothingBroken_workEnds_isNotComplete() throws Exception {
        Proof proof =
                new Prover(Shipped.vehicle("parcel-van")).maxTransitions(5000).prove();

        assertFalse(proof.complete());
        assertFalse(proof.good(), "not broken so far is no proof");
        assertTrue(proof.stoppedBy().startsWith("the limit of 5000 transitions"), proof.stoppedBy());
    }

    @Test
    void brokenPromise_found_isToldBeforeTheEnd() throws Exception {
        StringWriter said = new StringWriter();
        without(Interlock.PLUG_PRESENT)
                .progress(new ProofProgress(new PrintWriter(said), false))
                .maxStates(2000)
                .prove();

        assertTrue(said.toString().contains("H02 NO_DRIVE_WITH_A_PLUG is broken in 5 ticks"), said.toString());
    }

    @Test
    void whatStandsOutside_pageAndDocument_nameTheSame() throws Exception {
        String document = Files.readString(Path.of("../docs/prove.md"));
        for (OutsideTheProof row : OutsideTheProof.ROWS) {
            assertTrue(document.contains("| " + row.part() + " | " + row.cover() + " |"), row.part());
        }
    }

    @Test
    void stateLimit_met_notComplete() throws Exception {
        Proof proof = new Prover(Shipped.vehicle("parcel-van")).maxStates(500).prove();

        assertFalse(proof.complete());
        assertFalse(proof.good());
        assertTrue(proof.passes().get(0).stoppedBy().startsWith("the limit of 500 states"), "and it says why");
    }

    @Test
    void wait_oneTickLonger_deadlineBreaks() throws Exception {
        Settings settings = Shipped.vehicle("yard-cart");
        double longerMs = settings.get(Parameter.RUNDOWN_SPIN_MS) + settings.get(Parameter.LOOP_TICK_MS);
        Proof.Verdict first = new Prover(settings.with(Parameter.RUNDOWN_SPIN_MS, longerMs))
                .promised(settings)
                .firstBroken()
                .orElseThrow();
        assertEquals("OPENS_IN_TIME", first.id(), "the deadline is exact to the tick");
    }
}
