package sprag.bench.hand.commission;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import sprag.bench.hand.board.BoardReader;
import sprag.bench.hand.board.InputCircuit;
import sprag.bench.review.pins.Drawing;
import sprag.bench.review.wiring.circuit.SwitchSupply;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Problem;

/** Compares what a board's inputs expect with what the loom's switches give: 12 V on a pin made for a contact to ground kills it. */
final class BoardCircuits {
    private BoardCircuits() {}

    /**
     * Refuses a board that does not fit the loom.
     *
     * @throws BadInput with every input whose circuit contradicts the schedule
     */
    static void check(Path board, Drawing drawing) throws BadInput {
        List<Problem> problems = new ArrayList<>();
        new TreeMap<>(BoardReader.circuits(board)).forEach((signal, circuit) -> {
            SwitchSupply given = drawing.supplyOf(signal.key());
            if (signal.isSwitch() && given != SwitchSupply.UNKNOWN && given != circuit.supply) {
                problems.add(problem(board, signal.key(), circuit, given));
            }
        });
        if (!problems.isEmpty()) {
            throw new BadInput(problems);
        }
    }

    private static Problem problem(Path board, String signal, InputCircuit circuit, SwitchSupply given) {
        String found = "has circuit = \"" + circuit.word() + "\", made for a switch to " + circuit.supply.words
                + ", but the schedule's switch closes to " + given.words;
        return new Problem(
                board,
                0,
                1,
                "the input of " + signal,
                found,
                "",
                "",
                "Build the circuit that fits the loom (docs/boards.md) and write it in the board's file.");
    }
}
