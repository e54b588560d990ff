package sprag.bench.review.pins;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import sprag.bench.review.wiring.circuit.SwitchSupply;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Problems;
import sprag.bench.vehicle.Section;
import sprag.bench.vehicle.TomlFile;
import sprag.supervisor.vocabulary.Signal;

/**
 * Compares what a board's inputs expect with what the loom's switches give: 12 V on a pin made for a contact to ground kills it.
 *
 * @param contradictions inputs whose circuit does not fit, in the order of the file
 * @param unsaid inputs of a microcontroller's board at which 12 V arrives and whose circuit the file does not say
 */
public record BoardInputs(List<Input> contradictions, List<Input> unsaid) {
    /**
     * An input of a board.
     *
     * @param line where the board's file tells of it
     * @param circuit what that file says; null when it does not say
     * @param given what the schedule's switch closes to
     */
    public record Input(int line, Signal signal, InputCircuit circuit, SwitchSupply given) {
        /** What is wrong, as the end of a sentence about the input. */
        public String words() {
            return circuit == null
                    ? "has no circuit, and the schedule's switch closes to " + given.words
                    : "has circuit = \"" + circuit.word() + "\", made for a switch to " + circuit.supply.words
                            + ", but the schedule's switch closes to " + given.words;
        }
    }

    private static final List<String> SIGNALS =
            Arrays.stream(Signal.values()).map(Signal::key).toList();

    /** A module on a rail has its own circuits; its data sheet says for which voltage. */
    private static final String BARE_PINS = "firmata";

    /**
     * Reads a board's file. A switch whose supply the schedule does not show contradicts nothing.
     *
     * @throws BadInput when the file cannot be read, or says a circuit or a signal that is not known
     */
    public static BoardInputs read(Path board, Drawing drawing) throws BadInput {
        Problems problems = new Problems();
        Section root = TomlFile.read(board, problems);
        boolean bare = BARE_PINS.equals(root.plainValue("board.protocol"));
        BoardInputs found = new BoardInputs(new ArrayList<>(), new ArrayList<>());
        for (Section entry : root.list("input")) {
            int signal = entry.choice("signal", -1, SIGNALS);
            boolean said = entry.has("circuit");
            int circuit = said ? entry.choice("circuit", -1, InputCircuit.WORDS) : -1;
            if (signal >= 0 && (said ? circuit >= 0 : bare)) {
                found.compare(entry, Signal.values()[signal], said ? InputCircuit.values()[circuit] : null, drawing);
            }
        }
        problems.throwIfAny();
        return found;
    }

    private void compare(Section entry, Signal signal, InputCircuit circuit, Drawing drawing) {
        SwitchSupply given = signal.isSwitch() ? drawing.supplyOf(signal.key()) : SwitchSupply.UNKNOWN;
        Input input = new Input(entry.line(circuit == null ? "signal" : "circuit"), signal, circuit, given);
        if (circuit == null && given == SwitchSupply.TWELVE_VOLT) {
            unsaid.add(input);
        } else if (circuit != null && given != SwitchSupply.UNKNOWN && given != circuit.supply) {
            contradictions.add(input);
        }
    }

    /** For people, before anything is joined to the board. */
    public Optional<String> caution() {
        return unsaid.isEmpty()
                ? Optional.empty()
                : Optional.of(
                        "The board's file does not say which circuit lies before "
                                + unsaid.stream()
                                        .map(input -> input.signal().key())
                                        .collect(Collectors.joining(", "))
                                + ". The schedule's switches give 12 V there, and 12 V destroys a bare pin: see docs/boards.md.");
    }
}
