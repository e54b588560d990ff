package sprag.bench.evidence.prove;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import sprag.bench.evidence.prove.explore.Trace;
import sprag.bench.evidence.prove.explore.Watched;
import sprag.bench.evidence.prove.promise.Tick;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;
import sprag.supervisor.vocabulary.TorquePermission;
import sprag.supervisor.vocabulary.Transition;

/**
 * A shortest way to an event, tick by tick: what was true, and what Logic did. A fact that Logic did not ask for is not
 * shown, because it may have had any value.
 */
record Counterexample(List<Tock> ticks) {
    /**
     * One tick of it.
     *
     * @param stateBefore the state before
     * @param state the state after
     * @param step the contactor step after
     * @param via the transition taken, null for none
     * @param torque what the drive may do
     * @param engaged the direction in which torque drives
     * @param charging whether the chargers may deliver
     */
    record Tock(
            Map<Fact, Integer> facts,
            State stateBefore,
            State state,
            Step step,
            Transition via,
            TorquePermission torque,
            Direction engaged,
            boolean charging) {
        static Tock of(Tick tick) {
            Map<Fact, Integer> facts = new EnumMap<>(Fact.class);
            for (Fact fact : Fact.values()) {
                if (tick.facts().hasValue(fact)) {
                    facts.put(fact, tick.facts().value(fact));
                }
            }
            return new Tock(
                    facts,
                    tick.before().state(),
                    tick.after().state(),
                    tick.after().step(),
                    tick.via(),
                    tick.may().torque,
                    tick.may().engaged,
                    tick.may().charging);
        }

        /** Whether this tick shows nothing new compared with the one before. */
        boolean repeats(Tock before, Map<Fact, Integer> known) {
            return via == null
                    && step == before.step
                    && torque == before.torque
                    && engaged == before.engaged
                    && charging == before.charging
                    && changes(known).isEmpty();
        }

        /** The facts whose value differs from the last known one. At first all are taken to be 0. */
        Map<Fact, Integer> changes(Map<Fact, Integer> known) {
            Map<Fact, Integer> changed = new EnumMap<>(Fact.class);
            facts.forEach((fact, value) -> {
                if (!known.getOrDefault(fact, 0).equals(value)) {
                    changed.put(fact, value);
                }
            });
            return changed;
        }
    }

    /**
     * Several ticks that are shown together.
     *
     * @param from the number of the first, counted from 1
     */
    record Chapter(int from, int count, Map<Fact, Integer> changed, Tock shown) {}

    static Counterexample tell(Trace trace, Watched<Tick> machine) {
        List<Tock> ticks = new ArrayList<>();
        for (Trace.Step step : trace.steps()) {
            ticks.add(Tock.of(machine.show(step)));
        }
        return new Counterexample(List.copyOf(ticks));
    }

    /** The same, with ticks in which nothing changes shown together. */
    List<Chapter> chapters() {
        List<Chapter> chapters = new ArrayList<>();
        Map<Fact, Integer> known = new EnumMap<>(Fact.class);
        Tock before = null;
        for (int i = 0; i < ticks.size(); i++) {
            Tock tock = ticks.get(i);
            Chapter last = chapters.isEmpty() ? null : chapters.get(chapters.size() - 1);
            if (last != null && i < ticks.size() - 1 && tock.repeats(before, known)) {
                chapters.set(
                        chapters.size() - 1, new Chapter(last.from(), last.count() + 1, last.changed(), last.shown()));
            } else {
                chapters.add(new Chapter(i + 1, 1, tock.changes(known), tock));
            }
            known.putAll(tock.facts());
            before = tock;
        }
        return chapters;
    }

    /** The facts that change in it, in the order of the changes. */
    Set<Fact> facts() {
        Set<Fact> facts = new LinkedHashSet<>();
        chapters().forEach(chapter -> facts.addAll(chapter.changed().keySet()));
        return facts;
    }
}
