package sprag.bench.evidence.prove;

import java.util.Locale;
import java.util.Map;
import java.util.StringJoiner;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.TorquePermission;

/** Proofs and stories in words. */
final class ProofWords {
    private ProofWords() {}

    /** Facts that changed, e.g. {@code KEY_ON, BUS_LEVEL CHARGED, not PLUG_SEEN}. */
    static String facts(Map<Fact, Integer> changed) {
        StringJoiner words = new StringJoiner(", ");
        changed.forEach((fact, value) -> words.add(fact(fact, value)));
        return words.toString();
    }

    static String fact(Fact fact, int value) {
        if (fact.labels.size() > 2) {
            return fact + " " + fact.labels.get(value);
        }
        return value == 1 ? fact.name() : "not " + fact;
    }

    /** What Logic did in a chapter. */
    static String result(Counterexample.Tock shown) {
        StringJoiner words = new StringJoiner(", ");
        if (shown.via() != null) {
            words.add(shown.state() + ": " + shown.via().reason);
        } else {
            words.add(shown.state().name());
        }
        words.add("step " + shown.step() + " (" + closed(shown) + ")");
        if (shown.torque() != TorquePermission.NONE) {
            String way = shown.engaged() == Direction.NEUTRAL
                    ? ""
                    : " " + shown.engaged().name().toLowerCase(Locale.ROOT);
            words.add(
                    shown.torque() == TorquePermission.FOLLOW_PEDAL
                            ? "torque follows the pedal" + way
                            : "torque ramps out");
        }
        if (shown.charging()) {
            words.add("chargers may deliver");
        }
        return words.toString();
    }

    private static String closed(Counterexample.Tock shown) {
        StringJoiner words = new StringJoiner(" and ", "", " closed").setEmptyValue("all open");
        if (shown.step().negativeClosed) {
            words.add("negative");
        }
        if (shown.step().prechargeClosed) {
            words.add("precharge");
        }
        if (shown.step().positiveClosed) {
            words.add("positive");
        }
        return words.toString();
    }

    static String ticks(Counterexample.Chapter chapter) {
        return chapter.count() == 1
                ? "tick " + chapter.from()
                : "ticks " + chapter.from() + " to " + (chapter.from() + chapter.count() - 1);
    }

    /** What is wrong with a promise that never applied. */
    static String vacuous(boolean complete) {
        return complete ? " proves nothing: no tick that it speaks of can happen" : " has had nothing to say so far";
    }

    static String count(long number, String one, String many) {
        return String.format(Locale.ROOT, "%,d %s", number, number == 1 ? one : many);
    }
}
