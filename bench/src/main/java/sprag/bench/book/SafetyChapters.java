package sprag.bench.book;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import sprag.bench.book.print.Chapter;
import sprag.bench.drawing.live.LivePromise;
import sprag.bench.evidence.matrix.Matrix;
import sprag.bench.review.sizing.Calculation;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Settings;

/** Sizes, interlocks, hazards with their guards, and what nothing guards. */
final class SafetyChapters {
    private final Material material;
    private final Settings settings;

    SafetyChapters(Material material) {
        this.material = material;
        settings = material.vehicle().settings();
    }

    List<Chapter> all() {
        return List.of(sizes(), matrix(), hazards(), undetected());
    }

    private Chapter sizes() {
        Chapter chapter = Chapter.wide("Sizes, with their sources");
        chapter.words(
                "Each size is worked out from vehicle.toml and held against a limit. A row in red is beyond its limit, or"
                        + " could not be judged because a value is missing. A size that is well here is only as good as the values in the"
                        + " file: they come from data sheets and measurements.");
        List<List<String>> rows = new ArrayList<>();
        Set<Integer> marked = new HashSet<>();
        for (Calculation sum : material.report().calculations()) {
            boolean bad = sum.verdict() == Calculation.Verdict.BROKEN || sum.verdict() == Calculation.Verdict.UNKNOWN;
            if (bad) {
                marked.add(rows.size());
            }
            rows.add(size(sum));
        }
        return chapter.table(List.of("size", "how", "from", "result", "limit", "source"), rows, marked);
    }

    private static List<String> size(Calculation sum) {
        String inputs =
                sum.inputs().stream().map(i -> i.name() + " " + i).distinct().collect(Collectors.joining(", "));
        String limit = sum.limit() == null
                ? "none"
                : (sum.isAtMost() ? "at most " : "at least ") + sum.limit() + " ("
                        + sum.limit().name() + ")";
        String unknown = sum.verdict() == Calculation.Verdict.UNKNOWN ? "not judged" : String.valueOf(sum.result());
        return List.of(sum.title(), sum.formula(), inputs, unknown, limit, sum.source());
    }

    private Chapter matrix() {
        Chapter chapter = Chapter.wide("Interlock matrix");
        chapter.words(
                "In each state the rows that are asked there are looked at from top to bottom, and the first one whose cause"
                        + " is present acts. The budget is the time from cause to safe state that the car can bear, as its file says. A row"
                        + " in red cannot act on this car: it lacks the signal.");
        List<List<String>> rows = Matrix.cells(settings);
        Set<Integer> marked = new HashSet<>();
        for (Interlock row : Interlock.values()) {
            if (!Matrix.canAct(row, settings)) {
                marked.add(row.ordinal());
            }
        }
        return chapter.table(Matrix.HEADS, rows, marked);
    }

    private Chapter hazards() {
        Chapter chapter = Chapter.wide("Hazards, and what guards each");
        chapter.words(
                "The guards are interlocks of the supervisor, promises that were proved of its logic, and promises about the"
                        + " wires as they are drawn. The results are in later chapters. A guard that only warns is a guard that somebody"
                        + " has to look at.");
        List<List<String>> rows = new ArrayList<>();
        Set<Integer> marked = new HashSet<>();
        for (Hazard hazard : Hazard.values()) {
            String acting = interlocks(hazard, true);
            if (acting.isEmpty()) {
                marked.add(rows.size());
            }
            rows.add(List.of(
                    hazard.name(),
                    hazard.happens,
                    hazard.toWhom,
                    acting.isEmpty() ? "NONE on this car" : acting,
                    interlocks(hazard, false),
                    promises(hazard)));
        }
        return chapter.table(
                List.of("id", "what can happen", "to whom", "interlocks", "not on this car", "promises"), rows, marked);
    }

    private String interlocks(Hazard hazard, boolean acting) {
        return Stream.of(Interlock.values())
                .filter(row -> row.hazard.equals(hazard.name()) && Matrix.canAct(row, settings) == acting)
                .map(Interlock::id)
                .collect(Collectors.joining(", "));
    }

    private String promises(Hazard hazard) {
        long proved = material.proof() == null
                ? 0
                : material.proof().rows().stream()
                        .filter(row -> row.hazard().equals(hazard.name()) && row.holds())
                        .count();
        String ofLogic = material.proof() == null ? "logic: not proved here" : "logic: " + proved + " hold";
        String ofWires = Arrays.stream(LivePromise.values())
                .filter(promise -> promise.hazard.equals(hazard.name()) && concerns(promise))
                .map(promise -> promise.words + (kept(promise) ? "" : " (DOES NOT HOLD, or was not judged)"))
                .collect(Collectors.joining("; "));
        return ofWires.isEmpty() ? ofLogic : ofLogic + "; wires: " + ofWires;
    }

    /** Where live was run, the promises that it kept or broke; it leaves out those about what the car has not. */
    private boolean concerns(LivePromise promise) {
        return material.live() == null
                ? !promise.isOfRelaysAlone()
                : kept(promise) || material.live().broken().stream().anyMatch(broken -> broken.promise() == promise);
    }

    private boolean kept(LivePromise promise) {
        return material.live() != null && material.live().kept().contains(promise);
    }

    private Chapter undetected() {
        Chapter chapter = Chapter.of("What cannot be detected");
        chapter.words(
                "No program sees more than its wires. What stands here has to be borne, looked at by hand, or built away.");
        chapter.heading("Because this car lacks a signal");
        List<List<String>> lost = new ArrayList<>();
        material.report().lostCover().forEach((signal, words) -> lost.add(List.of(signal.key(), words)));
        if (lost.isEmpty()) {
            chapter.verdict(true, "The car has every signal that the supervisor can use.");
        } else {
            chapter.table(List.of("without", "is not noticed"), lost);
        }
        chapter.heading("Single faults that nothing noticed on the simulated car");
        if (material.campaign() == null) {
            chapter.verdict(false, "Not known: no results of the fault campaign were given to this book.");
        } else {
            chapter.words("These did no harm by themselves. A second fault may find them waiting.");
            chapter.table(
                    List.of("fault", "moments", "what would notice it"),
                    material.campaign().undetected());
        }
        chapter.heading("What no supervisor can do");
        chapter.points(List.of(
                "It asks contactors to open. It does not make a pack dead: the pack is live whenever it exists.",
                "It cannot help when both main contactors are welded, a line is bridged, or the insulation fails a second time.",
                "It cannot put out a cell that burns. Against that there are fuse, enclosure, distance and trained people.",
                "A value that is wrong and agrees with everything else is believed.",
                "It does not know whether the car is wired as the schedule says."));
        chapter.heading("What the proof does not speak of");
        if (material.proof() == null) {
            chapter.verdict(false, "Nothing was proved for this book.");
        } else {
            chapter.table(
                    List.of("outside the proof", "what covers it instead"),
                    material.proof().outside());
        }
        return chapter;
    }
}
