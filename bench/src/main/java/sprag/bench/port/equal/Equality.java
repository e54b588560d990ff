package sprag.bench.port.equal;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Predicate;
import sprag.bench.cli.OutFolder;
import sprag.bench.cli.Trouble;
import sprag.bench.port.translate.StateCell;
import sprag.bench.port.translate.Translation;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.Vehicle;

/** Shows that the C of a vehicle decides as its Java does, and that a mistake in the C would be found. */
public final class Equality {
    private final Vehicle vehicle;
    private final List<StateCell> cells;
    private final Map<String, String> files;
    private final Path folder;

    /** Compiles the C of a vehicle for this machine.
     *
     * @param translation the sources in C, in double precision
     * @param vehicle which one
     * @param folder where to compile
     */
    public Equality(Translation translation, Vehicle vehicle, Path folder) {
        this.vehicle = vehicle;
        this.folder = folder;
        cells = translation.stateCells(vehicle.settings());
        files = new LinkedHashMap<>(translation.code());
        files.put("vehicle.c", translation.data(vehicle.settings()));
        files.putAll(translation.fieldFiles(vehicle.settings()));
        HostProgram.compile(folder, files);
    }

    /** How much was compared.
     *
     * @param ticks in the closed loop
     * @param states of Logic
     * @param transitions of Logic
     * @param remembered how many numbers of memory were compared
     */
    public record Compared(long ticks, int states, long transitions, int remembered) {}

    /** Compares. Trouble when something differs, with the first tick or state and the field.
     *
     * @param scenarios to be played as they are
     * @param disturbed how often each is played again with disturbed readings
     * @param progress who is told what comes next
     */
    public Compared compare(List<Scenario> scenarios, int disturbed, Consumer<String> progress) throws IOException {
        try (HostProgram program = HostProgram.start(folder)) {
            if (!program.selfTest()) {
                throw new Trouble("the self-test fails: this compiler does not compute as Java does");
            }
            Comparison comparison = new Comparison(program, cells);
            Material material = new Material(vehicle, cells, comparison::must);
            for (Scenario scenario : scenarios) {
                progress.accept(scenario.name());
                for (int i = 0; i <= disturbed; i++) {
                    material.play(scenario, i == 0 ? 0 : scenario.seed() * 1000 + i);
                }
            }
            progress.accept("every state of Logic");
            WholeLogic logic = new WholeLogic(program, vehicle.settings());
            logic.differs().ifPresent(difference -> {
                throw new Trouble("Java and C differ: " + difference);
            });
            return new Compared(comparison.ticks(), logic.states(), logic.transitions(), cells.size());
        }
    }

    /** Plants mistakes in the C, one at a time, and looks whether the comparison finds them.
     *
     * @param scenarios to be played, each also with disturbed readings
     * @param most how many mistakes
     * @param seed where chance starts
     * @return those that nothing has found, in words
     */
    public List<String> undetected(List<Scenario> scenarios, int most, long seed) throws IOException {
        List<Batch> tape = new ArrayList<>();
        Material material = new Material(vehicle, cells, tape::add);
        for (Scenario scenario : scenarios) {
            material.play(scenario, 0);
            material.play(scenario, seed);
            material.play(scenario, seed + 1);
        }
        Map<String, String> code = new LinkedHashMap<>(files);
        code.keySet().removeAll(List.of("vehicle.c", "fields.c"));
        List<String> undetected = new ArrayList<>();
        for (Mutants.Mutant mutant : Mutants.some(code, most, seed)) {
            plant(mutant.file(), mutant.text());
            if (detected(tape).isEmpty()) {
                undetected.add(mutant.words());
            }
            plant(mutant.file(), files.get(mutant.file()));
        }
        return undetected;
    }

    private void plant(String file, String text) {
        OutFolder.write(folder.resolve(file), text);
        HostProgram.compileAgain(folder, file, files);
    }

    private Optional<String> detected(List<Batch> tape) throws IOException {
        try (HostProgram program = HostProgram.start(folder)) {
            Comparison comparison = new Comparison(program, cells);
            Predicate<Optional<String>> found = Optional::isPresent;
            Optional<String> difference = tape.stream()
                    .map(comparison::differs)
                    .filter(found)
                    .findFirst()
                    .flatMap(d -> d);
            return difference.isPresent() ? difference : new WholeLogic(program, vehicle.settings()).differs();
        }
    }
}
