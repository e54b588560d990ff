package sprag.bench.drawing.live;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;
import sprag.bench.review.wiring.schedule.Schedule;

/**
 * Everything that is known of a schedule's circuit.
 *
 * @param table what each net carries in each situation
 * @param kept the promises that hold in every combination
 * @param broken the promises that do not
 * @param combinations how many positions of all outputs and switches that covers
 * @param tried how many had to be told apart
 * @param faultsTried how many single faults were tried; 0 when they were not
 * @param faults those after which a promise no longer holds that held before
 */
public record LiveReport(
        LiveTable.Table table,
        List<LivePromise> kept,
        List<BrokenPromise> broken,
        double combinations,
        long tried,
        int faultsTried,
        List<FaultResult> faults) {

    /** Ways that are followed, over all combinations and faults: about a minute on a laptop. */
    private static final double MOST_STEPS = 2e8;

    /** Why a schedule is refused; empty when it is not.
     *
     * @param schedule the schedule that it was read from
     * @param withFaults whether each single fault is to be tried as well
     * @return what is too much, with the limit
     */
    public static String refusal(SwitchCircuit circuit, Schedule schedule, boolean withFaults) {
        Proof proof = new Proof(circuit);
        int controls = proof.controlsToTry();
        if (controls > Proof.MOST_CONTROLS) {
            return "has " + controls + " outputs and switches that depend on each other; at most " + Proof.MOST_CONTROLS
                    + " can be tried in every combination";
        }
        double steps =
                proof.steps() * (withFaults ? Fault.all(circuit, schedule).size() : 1);
        return steps <= MOST_STEPS
                ? ""
                : String.format(
                        Locale.ROOT,
                        "needs %.1e steps through %d wires in every combination%s; at most %.1e are done in a minute",
                        steps,
                        circuit.wires.size(),
                        withFaults ? " and after every single fault" : "",
                        MOST_STEPS);
    }

    /** Judges a circuit.
     *
     * @param schedule from which the circuit was read
     * @param withFaults whether each single fault is tried as well
     * @param each called after each of them, by any thread
     * @return what holds
     */
    public static LiveReport of(SwitchCircuit circuit, Schedule schedule, boolean withFaults, Runnable each) {
        Proof proof = new Proof(circuit);
        Proof.Result sound = proof.of(Fault.NOTHING);
        List<BrokenPromise> broken = explained(circuit, Fault.NOTHING, sound, Set.of());
        for (LivePromise promise : LivePromise.values()) {
            String missing = promise.missing(circuit);
            if (!missing.isEmpty()) {
                broken.removeIf(b -> b.promise() == promise);
                broken.add(new BrokenPromise(promise, List.of(), missing, List.of()));
            }
        }
        Set<LivePromise> gone = broken.stream().map(BrokenPromise::promise).collect(Collectors.toSet());
        List<LivePromise> kept = new ArrayList<>(List.of(LivePromise.values()));
        kept.removeAll(gone);
        kept.removeIf(promise -> !promise.concerns(circuit));
        // A short that is there already would blow its fuse under every fault and hide what the fault does.
        boolean useful = withFaults && !gone.contains(LivePromise.NO_SHORT);
        List<Fault> faults = useful ? Fault.all(circuit, schedule) : List.of();
        Map<Netlist.Shape, Map<LivePromise, Proof.Break>> known = new ConcurrentHashMap<>();
        // On every core; a proof remembers where it is, so each fault has its own.
        List<FaultResult> results = faults.parallelStream()
                .map(fault -> result(circuit, new Proof(circuit, known), fault, gone))
                .peek(result -> each.run())
                .filter(r -> !r.broken().isEmpty())
                .toList();
        return new LiveReport(
                LiveTable.of(circuit), kept, broken, sound.combinations(), sound.tried(), faults.size(), results);
    }

    private static FaultResult result(SwitchCircuit circuit, Proof proof, Fault fault, Set<LivePromise> gone) {
        Proof.Result result = proof.of(fault);
        List<String> fuses = result.blown().stream()
                .mapToObj(l -> circuit.links.get(l).part())
                .toList();
        return new FaultResult(fault.words(), fuses, explained(circuit, fault, result, gone));
    }

    private static List<BrokenPromise> explained(
            SwitchCircuit circuit, Fault fault, Proof.Result result, Set<LivePromise> beside) {
        BitSet blown = result.blown();
        List<BrokenPromise> broken = new ArrayList<>();
        result.breaks().forEach((promise, how) -> {
            if (!beside.contains(promise)) {
                broken.add(new Explanation(circuit, fault, blown).of(promise, how));
            }
        });
        return broken;
    }
}
