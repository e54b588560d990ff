package sprag.bench.hand.board;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Problem;
import sprag.hal.board.BoardMap;
import sprag.hal.board.InputPin;
import sprag.hal.board.OutputPin;
import sprag.supervisor.vocabulary.Signal;

/** A board and a data bus side by side: one signal must not come from both. */
public final class BothMaps {
    private BothMaps() {}

    /**
     * Joins two maps.
     *
     * @param board the board's
     * @param bus the bus's
     * @param busFile the bus's file, for messages
     * @return the inputs and outputs of both; an output of both is driven on both
     * @throws BadInput when a signal comes from both, for which nobody could say which one counts
     */
    public static BoardMap join(BoardMap board, BoardMap bus, Path busFile) throws BadInput {
        Set<Signal> both = EnumSet.noneOf(Signal.class);
        both.addAll(board.signals());
        both.retainAll(bus.signals());
        List<Problem> problems = both.stream()
                .map(signal -> new Problem(
                        busFile,
                        0,
                        0,
                        signal.key(),
                        "comes from the board too",
                        "one source",
                        "",
                        "Take it out of the board's file or of the bus's."))
                .toList();
        if (!problems.isEmpty()) {
            throw new BadInput(problems);
        }
        List<InputPin> inputs = new ArrayList<>(board.inputs());
        inputs.addAll(bus.inputs());
        List<OutputPin> outputs = new ArrayList<>(board.outputs());
        bus.outputs().stream()
                .filter(pin -> !board.driven().contains(pin.output()))
                .forEach(outputs::add);
        return new BoardMap(inputs, outputs);
    }
}
