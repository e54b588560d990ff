package sprag.bench.review.report;

import java.util.List;
import java.util.Map;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.pins.Drawing;
import sprag.bench.review.pins.PinBudget;
import sprag.bench.review.sizing.Calculation;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Signal;

/**
 * Everything that the review of one vehicle has to say.
 *
 * @param findings heaviest first; those accepted stay in their place
 * @param calculations every calculation, kept or not
 * @param lostCover for each optional signal that is lacking, what can no longer be detected
 * @param schedule the wiring schedule; null when the vehicle has none
 */
public record CheckReport(
        Vehicle vehicle,
        List<JudgedFinding> findings,
        List<Calculation> calculations,
        Map<Signal, String> lostCover,
        Schedule schedule) {

    /** How many pins the drawn wires need and which boards have so many, to be known before anything is wired; empty without wires. */
    public String pins() {
        return schedule == null
                ? ""
                : PinBudget.of(vehicle, new Drawing(schedule)).text(null);
    }

    /** How many findings of a weight there are that nobody accepted. */
    public long count(Weight weight) {
        return findings.stream()
                .filter(j -> j.finding().weight() == weight && !j.isAccepted())
                .count();
    }

    /** How many findings are accepted. */
    public long accepted() {
        return findings.stream().filter(JudgedFinding::isAccepted).count();
    }

    /** Whether there is a stop that nobody accepted. Returns true when the vehicle should not be built like this. */
    public boolean stops() {
        return findings.stream().anyMatch(JudgedFinding::stops);
    }
}
