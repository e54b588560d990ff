package sprag.bench.hand.commission;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import sprag.bench.review.pins.BoardInputs;
import sprag.bench.review.pins.Drawing;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Problem;

/** No step is done with a board whose inputs are made for another loom. */
final class BoardCircuits {
    private BoardCircuits() {}

    /**
     * Refuses a board that does not fit the loom.
     *
     * @return what a person must know before joining the two; empty when there is nothing
     * @throws BadInput with every input whose circuit contradicts the schedule
     */
    static Optional<String> check(Path board, Drawing drawing) throws BadInput {
        BoardInputs inputs = BoardInputs.read(board, drawing);
        List<Problem> problems = inputs.contradictions().stream()
                .map(c -> new Problem(
                        board,
                        c.line(),
                        1,
                        "the input of " + c.signal().key(),
                        c.words(),
                        "",
                        "",
                        "Build the circuit that fits the loom (docs/boards.md) and write it in the board's file."))
                .toList();
        if (!problems.isEmpty()) {
            throw new BadInput(problems);
        }
        return inputs.caution();
    }
}
