package sprag.bench.evidence.prove;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import sprag.bench.evidence.prove.explore.Exploration;
import sprag.supervisor.vocabulary.Interlock;

/**
 * What was proved of a vehicle's Logic, and what was not.
 *
 * @param verdicts one for each promise and history, in order
 * @param unreached what never happened although it is written in the code: dead logic
 */
record Proof(Set<Interlock> without, List<Verdict> verdicts, List<Unreached> unreached, List<Pass> passes) {
    /**
     * The verdict on one promise.
     *
     * @param explanation what is wrong when it is broken
     * @param story the shortest way to break it; none when it holds in every reachable state
     * @param witness the shortest run to a tick in which it has something to say, where that was asked for
     * @param applied how many ticks the shortest run takes to a tick in which it has something to say; 0 when none does
     * @param idle why this vehicle never gives it anything to say; empty when it should
     */
    record Verdict(
            String id,
            String hazard,
            String explanation,
            Optional<Counterexample> story,
            Optional<Counterexample> witness,
            int applied,
            String idle) {
        boolean holds() {
            return story.isEmpty();
        }

        /** Whether it holds only because it never has anything to say, and nobody knows why. */
        boolean vacuous() {
            return applied == 0 && idle.isEmpty();
        }
    }

    /**
     * Something that cannot happen.
     *
     * @param kind state, step, transition or interlock
     */
    record Unreached(String kind, String name) {}

    /**
     * One exploration.
     *
     * @param watches what was watched in it
     * @param complete whether every reachable state was visited
     * @param stoppedBy why it is not complete, else empty
     */
    record Pass(String watches, Exploration.Size size, boolean complete, String stoppedBy) {}

    /** Whether every reachable state was visited in every exploration. */
    boolean complete() {
        return passes.stream().allMatch(Pass::complete);
    }

    /** Why not every reachable state was visited; empty when every one was. */
    String stoppedBy() {
        return passes.stream()
                .filter(pass -> !pass.complete())
                .map(Pass::stoppedBy)
                .findFirst()
                .orElse("");
    }

    List<Verdict> broken() {
        return verdicts.stream().filter(verdict -> !verdict.holds()).toList();
    }

    /** The promises that never have anything to say although they should. */
    List<Verdict> vacuous() {
        return verdicts.stream().filter(Verdict::vacuous).toList();
    }

    /** The promises that never have anything to say on this vehicle, for a known reason. */
    List<Verdict> idle() {
        return verdicts.stream()
                .filter(verdict -> verdict.applied() == 0 && !verdict.vacuous())
                .toList();
    }

    /** Whether every promise holds and has something to say, nothing is dead, and everything was visited. */
    boolean good() {
        return complete() && broken().isEmpty() && vacuous().isEmpty() && unreached.isEmpty();
    }

    long transitions() {
        return passes.stream().mapToLong(pass -> pass.size().transitions()).sum();
    }

    /** The reachable states of Logic alone, without any watcher's memory. */
    long states() {
        return passes.get(0).size().states();
    }
}
