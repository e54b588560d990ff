package sprag.bench.port.equal;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.Supplier;
import java.util.stream.Stream;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.Trouble;
import sprag.bench.scenario.Scenario;

/** Plants mistakes in the C, one at a time, and looks whether the comparison finds them. The code is the same for all vehicles. */
final class MutantHunt {
    private static final int GATE_TIMES = 32;

    private final List<Suspect> suspects = new ArrayList<>();

    /** One vehicle and what is decided again with each mistake. */
    private record Suspect(Twin twin, List<Batch> tape, List<Cases> cases, Wakes wakes, List<GateOrders> gate) {}

    /** What became of planted mistakes, in words.
     *
     * @param found those that made a difference somewhere
     * @param undetected those that nothing has found
     */
    record Hunted(List<String> found, List<String> undetected) {}

    /** Adds a vehicle.
     *
     * @param equality its C, compiled
     * @param scenarios to be played, each also with disturbed readings
     * @param cases how many ticks from made-up memories
     */
    void add(Equality equality, List<Scenario> scenarios, int cases) throws IOException {
        add(equality.twin(), equality.tape(scenarios), cases);
    }

    /** Adds values that no vehicle has. Their memories are made up from what the first vehicle has left behind. */
    void add(Twin twin, int cases) {
        List<Cases> made = twin.cases(suspects.get(0).tape, cases);
        suspects.add(new Suspect(twin, List.of(), made, Wakes.of(twin.settings(), 17), orders(twin)));
    }

    private void add(Twin twin, List<Batch> tape, int cases) {
        suspects.add(new Suspect(twin, tape, twin.cases(tape, cases), Wakes.of(twin.settings(), 17), orders(twin)));
    }

    /** How many vehicles were added. */
    int vehicles() {
        return suspects.size();
    }

    private static List<GateOrders> orders(Twin twin) {
        return GateOrders.of(twin.settings(), GATE_TIMES, 17);
    }

    /** Adds ticks in which comparisons meet equal numbers, for all vehicles that were added.
     *
     * @param folder where to search
     * @return each comparison, with what was reached by any vehicle
     */
    EdgeSearch.Coverage meetEdges(Path folder) throws IOException {
        EdgeSearch.Coverage coverage = new EdgeSearch.Coverage();
        for (Suspect suspect : suspects) {
            Path own = folder.resolve("" + coverage.vehicles());
            List<Batch> tape = suspect.tape.isEmpty() ? suspects.get(0).tape : suspect.tape;
            EdgeSearch.Found found = EdgeSearch.search(
                    suspect.twin,
                    tape.stream()
                            .filter(batch -> !batch.name().contains("disturbed"))
                            .toList(),
                    suspect.cases,
                    coverage.enough(),
                    own);
            coverage.add(found.rows());
            suspect.cases.addAll(found.cases());
        }
        return coverage;
    }

    /** The first difference without any mistake planted; there must be none. */
    Optional<String> sound() {
        return suspects.stream()
                .flatMap(suspect -> Stream.of(ticks(suspect), logic(suspect)).flatMap(Optional::stream))
                .findFirst();
    }

    /** Plants mistakes.
     *
     * @param most how many
     * @param seed where chance starts
     * @param these which of them, by their words
     * @param told what became of each, as soon as it is known
     * @return what became of each
     */
    Hunted plant(int most, long seed, Predicate<String> these, Consumer<String> told) throws IOException {
        Twin first = suspects.get(0).twin;
        Map<String, String> code = new LinkedHashMap<>(first.files());
        code.keySet().removeAll(List.of("vehicle.c", "fields.c"));
        Hunted hunted = new Hunted(new ArrayList<>(), new ArrayList<>());
        for (Mutants.Mutant mutant : Mutants.some(code, most, seed)) {
            if (!these.test(mutant.words())) {
                continue;
            }
            Path object = first.folder().resolve(Compiled.objectOf(mutant.file()));
            byte[] sound = Files.readAllBytes(object);
            OutFolder.write(first.folder().resolve(mutant.file()), mutant.text());
            HostProgram.compileAgain(first.folder(), mutant.file());
            byte[] planted = Files.readAllBytes(object);
            // ticks first, for all vehicles: the whole of Logic takes longer than all of them
            boolean found = suspects.stream().anyMatch(suspect -> isDetected(suspect, object.getFileName(), planted))
                    || suspects.stream().anyMatch(suspect -> logic(suspect).isPresent());
            (found ? hunted.found : hunted.undetected).add(mutant.words());
            told.accept((found ? "found: " : "not found: ") + mutant.words());
            OutFolder.write(first.folder().resolve(mutant.file()), first.files().get(mutant.file()));
            for (Suspect suspect : suspects) {
                Files.write(suspect.twin.folder().resolve(object.getFileName()), sound);
            }
        }
        suspects.forEach(suspect ->
                HostProgram.link(suspect.twin.folder(), suspect.twin.files().keySet()));
        return hunted;
    }

    private static boolean isDetected(Suspect suspect, Path object, byte[] planted) {
        Twin twin = suspect.twin;
        try {
            Files.write(twin.folder().resolve(object), planted);
        } catch (IOException e) {
            throw new Trouble("cannot write", twin.folder().resolve(object), e);
        }
        HostProgram.link(twin.folder(), twin.files().keySet());
        return ticks(suspect).isPresent();
    }

    private static Optional<String> logic(Suspect suspect) {
        Twin twin = suspect.twin;
        try (HostProgram program = HostProgram.start(twin.folder())) {
            return new WholeLogic(program, twin.settings()).differs();
        }
    }

    private static Optional<String> ticks(Suspect suspect) {
        Twin twin = suspect.twin;
        try (HostProgram program = HostProgram.start(twin.folder())) {
            Comparison comparison = new Comparison(program, twin.cells());
            return Stream.<Supplier<Optional<String>>>of(
                            () -> comparison.differs(suspect.wakes),
                            () -> comparison.gate(suspect.gate),
                            () -> first(suspect.cases, comparison::differs),
                            () -> first(suspect.tape, comparison::differs))
                    .map(Supplier::get)
                    .flatMap(Optional::stream)
                    .findFirst();
        }
    }

    private static <T> Optional<String> first(List<T> all, Function<T, Optional<String>> differs) {
        return all.stream().map(differs).flatMap(Optional::stream).findFirst();
    }
}
