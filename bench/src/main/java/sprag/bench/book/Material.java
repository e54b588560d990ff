package sprag.bench.book;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import sprag.bench.drawing.Drawing;
import sprag.bench.drawing.live.LiveReport;
import sprag.bench.evidence.campaign.CampaignResult;
import sprag.bench.evidence.prove.ProofResult;
import sprag.bench.hand.commission.record.RecordSummary;
import sprag.bench.review.report.CheckReport;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.VoltageClass;
import sprag.bench.review.wiring.schedule.Wire;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/**
 * Everything that a book is made from.
 *
 * @param live what is live when; null when it was not worked out
 * @param liveRefusal why it was not; empty when it was
 * @param proof null when nothing was proved
 * @param campaign null when none was given
 * @param record null when none was given
 * @param ways the places and passages on the way of a wire, by its number; empty when no passage was described
 * @param day on which the book is made
 * @param program name and version of the program
 */
record Material(
        CheckReport report,
        Drawing drawing,
        LiveReport live,
        String liveRefusal,
        ProofResult proof,
        CampaignResult campaign,
        RecordSummary record,
        InputSums sums,
        Map<String, String> ways,
        LocalDate day,
        String program) {

    Vehicle vehicle() {
        return report.vehicle();
    }

    double get(Parameter parameter) {
        return vehicle().get(parameter);
    }

    Schedule schedule() {
        return report.schedule();
    }

    /** The parts of some kind, in the order of the list. */
    List<Part> parts(PartKind kind) {
        return schedule().parts().values().stream()
                .filter(p -> p.kind() == kind)
                .toList();
    }

    /** The switches that cut off by hand.
     *
     * @param traction whether they break the traction circuit itself, as a service switch does; else they break the supply of
     *     coils
     */
    List<Part> cutOffs(boolean traction) {
        return parts(PartKind.CUT_OFF).stream()
                .filter(part -> breaksTraction(part) == traction)
                .toList();
    }

    private boolean breaksTraction(Part part) {
        return schedule().wires().stream()
                .filter(w -> w.voltageClass() == VoltageClass.TRACTION)
                .anyMatch(w -> Wire.partOf(w.from()).equals(part.name())
                        || Wire.partOf(w.to()).equals(part.name()));
    }
}
