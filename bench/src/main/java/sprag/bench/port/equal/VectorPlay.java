package sprag.bench.port.equal;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import sprag.bench.cli.Trouble;
import sprag.bench.port.chip.Chip;
import sprag.bench.port.chip.ChipProgram;
import sprag.bench.port.translate.Translation;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** Gives vectors to the supervisor in C, wherever it runs, and compares. A difference is Trouble. */
public final class VectorPlay {
    private VectorPlay() {}

    /** Plays them on an emulated chip, and the whole of Logic too.
     *
     * @param folder where to compile
     * @return what was played, in words
     */
    public static String onChip(Translation translation, Vehicle vehicle, Vectors vectors, Path folder)
            throws IOException {
        Map<String, String> files = new LinkedHashMap<>(translation.code());
        files.put("vehicle.c", translation.data(vehicle.settings()));
        files.putAll(translation.fieldFiles(vehicle.settings()));
        files.putAll(HostProgram.program());
        Path program = ChipProgram.twin(folder, files);
        try (HostProgram chip = HostProgram.start(Chip.emulator(program, ChipProgram.Line.HOST))) {
            if (!chip.selfTest()) {
                throw new Trouble("the self-test fails on the chip: its compiler does not compute as Java does");
            }
            long ticks = ticks(
                    vectors, chip, translation.stateCells(vehicle.settings()).size());
            logic(vectors, chip);
            WholeLogic whole = new WholeLogic(chip, vehicle.settings());
            whole.differs().ifPresent(difference -> {
                throw new Trouble("Java and the chip differ: " + difference);
            });
            return String.format(
                    Locale.ROOT,
                    "on an emulated Cortex-M4F: %,d ticks and %,d branches of Logic pass, and all of its %,d states and"
                            + " %,d transitions are equal",
                    ticks,
                    vectors.logicRows(),
                    whole.states(),
                    whole.transitions());
        }
    }

    /** The ticks of scenarios.
     *
     * @param memory how many numbers the C remembers
     * @return how many ticks
     */
    private static long ticks(Vectors vectors, HostProgram program, int memory) {
        Comparison comparison = new Comparison(program, List.of());
        for (Vectors.Sequence sequence : vectors.sequences()) {
            for (int from = 0; from < sequence.ticks(); from += BatchMaker.TICKS) {
                comparison.must(batch(sequence, from, Math.min(sequence.ticks(), from + BatchMaker.TICKS), memory));
            }
        }
        return comparison.ticks();
    }

    private static Batch batch(Vectors.Sequence all, int from, int to, int memory) {
        return new Batch(
                all.name(),
                from == 0,
                from,
                to - from,
                Arrays.copyOfRange(all.readings(), from * Signal.COUNT, to * Signal.COUNT),
                new Batch.Decided(
                        Arrays.copyOfRange(all.outputs(), from * Output.COUNT, to * Output.COUNT),
                        Arrays.copyOfRange(all.states(), from, to)),
                new long[memory]);
    }

    /** What belongs to Logic: what comes of each memory, and the branches. */
    static void logic(Vectors vectors, HostProgram program) throws IOException {
        new Comparison(program, List.of()).differs(vectors.wakes()).ifPresent(difference -> {
            throw new Trouble("Java and C differ: " + difference);
        });
        for (LogicWalk.Row row : vectors.logic()) {
            long[] answer = program.logic(new long[] {row.before()}, row.facts(), 1);
            if (answer[0] != row.after() || answer[1] != row.permitted()) {
                throw new Trouble("Java and C differ in a vector of Logic: packed state " + row.before());
            }
        }
    }
}
