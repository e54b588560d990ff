package sprag.bench.port.equal;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Queue;
import java.util.Set;
import java.util.SplittableRandom;
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

/** Goes through every state that Logic can reach and every branch it takes there, as in {@code prove}. */
final class LogicWalk {
    private final Logic logic;
    private final Told told = new Told();
    private final SplittableRandom chance = new SplittableRandom(1);
    private final BranchingFacts facts = new BranchingFacts();
    private final Choices choices = new Choices(BranchingFacts.KEYS);
    private final Set<Long> seen = new HashSet<>();
    private final Queue<Long> waiting = new ArrayDeque<>();

    LogicWalk(Settings settings) {
        logic = new Logic(settings, EnumSet.noneOf(Interlock.class), told);
    }

    /** One branch. It is valid until the next.
     *
     * @param before the packed state before the tick
     * @param facts a byte for each fact; what Logic did not ask is anything, so that a port that asks it is found
     * @param after the packed state after it
     * @param permitted what is permitted, as bits
     * @param told what was told, as one number
     * @param crossed the transitions and interlocks that were told
     */
    record Row(long before, byte[] facts, long after, long permitted, long told, List<Enum<?>> crossed) {}

    /** Gets every branch. */
    interface Visitor {
        /** One branch. Returns whether to go on. */
        boolean visit(Row row) throws IOException;
    }

    /** What was told, as one number that depends on all of it and on its order; the same is computed in C. */
    private static final class Told implements Journal {
        private long sum;
        private final List<Enum<?>> crossed = new ArrayList<>();

        private void note(long what, Enum<?> row) {
            sum = sum * 31 + what + 1;
            crossed.add(row);
        }

        @Override
        public void entered(Transition via) {
            note(via.ordinal() + 1000L, via);
        }

        @Override
        public void acted(Interlock row) {
            note(row.ordinal(), row);
        }
    }

    /** How many states were visited so far. */
    int states() {
        return seen.size();
    }

    /** Goes through all, or until the visitor has enough. */
    void walk(Visitor visitor) throws IOException {
        reach(new LogicState().pack());
        LogicState latched = new LogicState();
        logic.wake(-1);
        latched.copyFrom(logic.state());
        reach(latched.pack());
        boolean goOn = true;
        while (goOn && !waiting.isEmpty()) {
            goOn = expand(waiting.remove(), visitor);
        }
    }

    private void reach(long state) {
        if (seen.add(state)) {
            waiting.add(state);
        }
    }

    private boolean expand(long before, Visitor visitor) throws IOException {
        choices.begin();
        do {
            logic.state().unpack(before);
            told.sum = 0;
            told.crossed.clear();
            facts.begin(choices, logic.state().state().ordinal());
            logic.step(facts);
            byte[] known = new byte[Fact.COUNT];
            for (Fact fact : Fact.values()) {
                known[fact.ordinal()] =
                        (byte) (facts.hasValue(fact) ? facts.value(fact) : chance.nextInt(fact.labels.size()));
            }
            long after = logic.state().pack();
            reach(after);
            if (!visitor.visit(new Row(before, known, after, allowed(logic.permissions()), told.sum, told.crossed))) {
                return false;
            }
        } while (choices.next());
        return true;
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
}
