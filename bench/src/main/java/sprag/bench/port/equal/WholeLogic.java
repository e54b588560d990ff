package sprag.bench.port.equal;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.Optional;
import java.util.Queue;
import java.util.Set;
import sprag.bench.evidence.prove.explore.Choices;
import sprag.bench.evidence.prove.promise.BranchingFacts;
import sprag.supervisor.logic.Journal;
import sprag.supervisor.logic.Logic;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Permissions;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Transition;

/**
 * Every state that Logic can reach and every branch it takes there, as in {@code prove}; each decided in Java and in C. Compared are
 * the state after it, what is permitted, and what was told, in its order.
 */
final class WholeLogic {
    private static final int MOST = 1024;

    private final HostProgram program;
    private final Logic logic;
    private final Told told = new Told();
    private final BranchingFacts facts = new BranchingFacts();
    private final Choices choices = new Choices(BranchingFacts.KEYS);
    private final Set<Long> seen = new HashSet<>();
    private final Queue<Long> waiting = new ArrayDeque<>();
    private final long[] before = new long[MOST];
    private final byte[] known = new byte[MOST * Fact.COUNT];
    private final long[] expected = new long[MOST * 3];
    private int count;
    private long transitions;

    /** What was told, as one number that depends on all of it and on its order; the same is computed in C. */
    private static final class Told implements Journal {
        private long sum;

        private void note(long what) {
            sum = sum * 31 + what + 1;
        }

        @Override
        public void entered(Transition via) {
            note(via.ordinal() + 1000L);
        }

        @Override
        public void acted(Interlock row) {
            note(row.ordinal());
        }
    }

    WholeLogic(HostProgram program, Settings settings) {
        this.program = program;
        logic = new Logic(settings, EnumSet.noneOf(Interlock.class), told);
    }

    /** How many states were visited, after {@link #differs}. */
    int states() {
        return seen.size();
    }

    /** How many branches were compared, after {@link #differs}. */
    long transitions() {
        return transitions;
    }

    /** The first difference, in words; empty when there is none. */
    Optional<String> differs() throws IOException {
        visit(new LogicState().pack());
        LogicState latched = new LogicState();
        logic.wake(-1);
        latched.copyFrom(logic.state());
        visit(latched.pack());
        while (!waiting.isEmpty()) {
            Optional<String> difference = expand(waiting.remove());
            if (difference.isPresent()) {
                return difference;
            }
        }
        return compare();
    }

    private void visit(long state) {
        if (seen.add(state)) {
            waiting.add(state);
        }
    }

    private Optional<String> expand(long state) throws IOException {
        choices.begin();
        do {
            logic.state().unpack(state);
            told.sum = 0;
            facts.begin(choices, logic.state().state().ordinal());
            logic.step(facts);
            before[count] = state;
            for (Fact fact : Fact.values()) {
                known[count * Fact.COUNT + fact.ordinal()] = (byte) (facts.hasValue(fact) ? facts.value(fact) : 0);
            }
            expected[count * 3] = logic.state().pack();
            expected[count * 3 + 1] = allowed(logic.permissions());
            expected[count * 3 + 2] = told.sum;
            visit(expected[count * 3]);
            count++;
            if (count == MOST) {
                Optional<String> difference = compare();
                if (difference.isPresent()) {
                    return difference;
                }
            }
        } while (choices.next());
        return Optional.empty();
    }

    private static long allowed(Permissions may) {
        long bits = (may.negativeClosed ? 1 : 0)
                | (may.prechargeClosed ? 2 : 0)
                | (may.positiveClosed ? 4 : 0)
                | (may.inverterEnabled ? 8 : 0)
                | (may.limited ? 16 : 0)
                | (may.charging ? 32 : 0)
                | (may.busConnected ? 64 : 0);
        return bits + may.torque.ordinal() * 256L + may.engaged.ordinal() * 65536L;
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
