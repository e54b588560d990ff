package sprag.bench.port.equal;

import java.io.IOException;
import java.util.Optional;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Settings;

/**
 * The whole of Logic, decided in Java and in C. Compared are the state after each branch, what is permitted, and what was told, in its
 * order.
 */
final class WholeLogic {
    private static final int MOST = 1024;

    private final HostProgram program;
    private final LogicWalk walk;
    private final long[] before = new long[MOST];
    private final byte[] known = new byte[MOST * Fact.COUNT];
    private final long[] expected = new long[MOST * 3];
    private Optional<String> difference = Optional.empty();
    private int count;
    private long transitions;

    WholeLogic(HostProgram program, Settings settings) {
        this.program = program;
        walk = new LogicWalk(settings);
    }

    /** How many states were visited, after {@link #differs}. */
    int states() {
        return walk.states();
    }

    /** How many branches were compared, after {@link #differs}. */
    long transitions() {
        return transitions;
    }

    /** The first difference, in words; empty when there is none. */
    Optional<String> differs() {
        try {
            walk.walk(this::take);
            return difference.isPresent() ? difference : compare();
        } catch (IOException e) {
            return Optional.of("the C has ended in the middle of Logic: " + e.getMessage());
        }
    }

    private boolean take(LogicWalk.Row row) throws IOException {
        before[count] = row.before();
        System.arraycopy(row.facts(), 0, known, count * Fact.COUNT, Fact.COUNT);
        expected[count * 3] = row.after();
        expected[count * 3 + 1] = row.permitted();
        expected[count * 3 + 2] = row.told();
        count++;
        if (count == MOST) {
            difference = compare();
        }
        return difference.isEmpty();
    }

    private Optional<String> compare() throws IOException {
        long[] answers = program.logic(before, known, count);
        transitions += count;
        int compared = count;
        count = 0;
        for (int i = 0; i < compared * 3; i++) {
            if (answers[i] != expected[i]) {
                LogicState from = new LogicState();
                from.unpack(before[i / 3]);
                String what = i % 3 == 0 ? "the next state" : i % 3 == 1 ? "what is permitted" : "what is told";
                return Optional.of("Logic in " + from.state() + "/" + from.step() + " (packed " + before[i / 3] + "): "
                        + what + " is " + expected[i] + " in Java and " + answers[i] + " in C");
            }
        }
        return Optional.empty();
    }
}
