package sprag.bench.evidence.campaign;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.util.function.Consumer;
import sprag.bench.car.Quantity;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** Every tick of one run: readings, commands, truths and state, a row each. */
final class RunTrace implements Consumer<Stage>, AutoCloseable {
    private final Writer out;

    RunTrace(Writer out) throws IOException {
        this.out = out;
        StringBuilder row = new StringBuilder("time_s,state,step");
        for (Signal signal : Signal.values()) {
            row.append(',').append(signal.key());
        }
        for (Output output : Output.values()) {
            row.append(",ask_").append(output.key());
        }
        for (Quantity quantity : Quantity.values()) {
            row.append(",true_").append(quantity.key());
        }
        out.write(row.append('\n').toString());
    }

    @Override
    public void accept(Stage stage) {
        LogicState s = stage.supervisor.state();
        StringBuilder row = new StringBuilder();
        row.append((stage.loop.ticks() - 1) * stage.tickS)
                .append(',')
                .append(s.state())
                .append(',')
                .append(s.step());
        for (Signal signal : Signal.values()) {
            row.append(',').append(stage.loop.readings().get(signal));
        }
        for (Output output : Output.values()) {
            row.append(',').append(stage.loop.commands().get(output));
        }
        for (Quantity quantity : Quantity.values()) {
            row.append(',').append(stage.car.truth(quantity));
        }
        try {
            out.write(row.append('\n').toString());
        } catch (IOException e) {
            throw new UncheckedIOException("the trace ends at " + stage.loop.ticks(), e);
        }
    }

    @Override
    public void close() throws IOException {
        out.close();
    }
}
