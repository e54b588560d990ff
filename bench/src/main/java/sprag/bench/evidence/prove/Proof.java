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
     */
    record Verdict(String id, String hazard, String explanation, Optional<Counterexample> story) {
        boolean holds() {
            return story.isEmpty();
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

    List<Verdict> broken() {
        return verdicts.stream().filter(verdict -> !verdict.holds()).toList();
    }

    /** Whether every promise holds, nothing is dead, and everything was visited. */
    boolean good() {
        return complete() && broken().isEmpty() && unreached.isEmpty();
    }

    long transitions() {
        return passes.stream().mapToLong(pass -> pass.size().transitions()).sum();
    }

    /** The reachable states of Logic alone, without any watcher's memory. */
    long states() {
        return passes.get(0).size().states();
    }
}
