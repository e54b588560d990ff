package sprag.bench.drawing;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import sprag.bench.drawing.sheet.Marks;
import sprag.bench.drawing.sheet.ScheduleChanges;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.page.Spot;
import sprag.bench.review.report.CheckReport;
import sprag.bench.review.report.JudgedFinding;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.Wire;
import sprag.bench.vehicle.Catalogue;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** Puts each stop and each caution of the review at what it is about. */
final class FindingMarks {
    /** A signal or output without a wire is missing at the supervisor. */
    private static final Set<String> SIGNALS = Stream.concat(
                    Arrays.stream(Signal.values()).map(Signal::key),
                    Arrays.stream(Output.values()).map(Output::key))
            .collect(Collectors.toSet());

    private final Schedule schedule;
    private final Set<String> wires = new HashSet<>();
    private final Set<String> terminals = new LinkedHashSet<>();
    private final Map<String, String> firstOfNet = new LinkedHashMap<>();
    private final Map<String, List<Marks.Mark>> onWires = new HashMap<>();
    private final Map<String, List<Marks.Mark>> onTerminals = new HashMap<>();
    private final Map<String, List<Marks.Mark>> onParts = new HashMap<>();

    private FindingMarks(Schedule schedule) {
        this.schedule = schedule;
        for (Wire wire : schedule.wires()) {
            wires.add(wire.id());
            terminals.add(wire.from());
            terminals.add(wire.to());
            firstOfNet.putIfAbsent(wire.net(), wire.id());
        }
    }

    static Marks of(CheckReport report, ScheduleChanges changes) {
        FindingMarks marks = new FindingMarks(changes.both());
        List<JudgedFinding> findings = report.findings();
        for (int i = 0; i < findings.size(); i++) {
            Finding finding = findings.get(i).finding();
            if (finding.weight() != Weight.NOTE) {
                marks.put(finding, new Marks.Mark(i + 1, finding.weight()));
            }
        }
        return new Marks(marks.onWires, marks.onTerminals, marks.onParts, changes.wires());
    }

    private void put(Finding finding, Marks.Mark mark) {
        String where = finding.where();
        String part = Wire.partOf(where);
        if (wires.contains(where)) {
            add(onWires, where, mark);
        } else if (terminals.contains(where)) {
            add(onTerminals, where, mark);
        } else if (schedule.parts().containsKey(part)) {
            addToPart(part, mark);
        } else if (firstOfNet.containsKey(where)) {
            add(onWires, firstOfNet.get(where), mark);
        } else if (finding.place().file().equals(Catalogue.VEHICLE_FILE)) {
            Spot.partOf(where, schedule).ifPresent(name -> addToPart(name, mark));
        } else if (SIGNALS.contains(where)) {
            schedule.parts().values().stream()
                    .filter(p -> p.kind() == PartKind.SUPERVISOR)
                    .map(Part::name)
                    .findFirst()
                    .ifPresent(name -> addToPart(name, mark));
        }
    }

    /** The body of the car is drawn terminal by terminal, without a head. */
    private void addToPart(String part, Marks.Mark mark) {
        boolean isBody = schedule.parts().get(part).kind() == PartKind.CHASSIS;
        if (isBody) {
            terminals.stream()
                    .filter(t -> Wire.partOf(t).equals(part))
                    .findFirst()
                    .ifPresent(t -> add(onTerminals, t, mark));
        } else {
            add(onParts, part, mark);
        }
    }

    private static void add(Map<String, List<Marks.Mark>> to, String name, Marks.Mark mark) {
        to.computeIfAbsent(name, n -> new ArrayList<>()).add(mark);
    }
}
