package sprag.bench.evidence.prove.export;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.evidence.prove.promise.BranchingFacts.Asked;
import sprag.bench.evidence.prove.promise.Tick;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Permissions;
import sprag.supervisor.vocabulary.TorquePermission;

/** One decision of Logic in words: what it asked for, an arrow, and what it made of that. */
final class Label {
    private Label() {}

    /** The label of the tick just taken. */
    static String of(Tick tick) {
        List<String> learnt = new ArrayList<>();
        tick.facts().acting().ifPresent(row -> learnt.add(row.id()));
        for (Asked each : tick.facts().asked()) {
            learnt.add(words(each.fact(), each.value()));
        }
        List<String> made = made(tick);
        return (learnt.isEmpty() ? "anything" : String.join(" & ", learnt))
                + (made.isEmpty() ? "" : " -> " + String.join(" & ", made));
    }

    private static String words(Fact fact, int value) {
        if (fact.labels.size() > 2) {
            return fact + "=" + fact.labels.get(value);
        }
        return value == 1 ? fact.name() : "not " + fact;
    }

    private static List<String> made(Tick tick) {
        List<String> made = new ArrayList<>();
        Permissions may = tick.may();
        if (tick.via() != null) {
            made.add(tick.via().name());
        }
        if (may.torque == TorquePermission.FOLLOW_PEDAL) {
            made.add("torque " + may.engaged);
        }
        if (may.torque == TorquePermission.RAMP_TO_ZERO) {
            made.add("torque ramps out");
        }
        if (may.charging) {
            made.add("charge");
        }
        if (may.limited) {
            made.add("limited");
        }
        return made;
    }
}
