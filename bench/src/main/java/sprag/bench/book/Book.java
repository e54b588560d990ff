package sprag.bench.book;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import sprag.bench.book.print.Block;
import sprag.bench.book.print.Chapter;
import sprag.bench.book.print.Document;
import sprag.bench.cli.Numbers;
import sprag.bench.page.Cautions;
import sprag.bench.review.page.Summary;

/** Binds everything that is known of a car into one document. */
final class Book {
    private record Result(String what, String words, boolean good) {}

    private final Material material;

    private Book(Material material) {
        this.material = material;
    }

    /** Binds a book. */
    static Document of(Material material) {
        Book book = new Book(material);
        List<Chapter> chapters = new ArrayList<>(new CarChapters(material).all());
        chapters.addAll(new SafetyChapters(material).all());
        chapters.addAll(new ResultChapters(material).all());
        chapters.addAll(new HandChapters(material).all());
        String name = material.vehicle().name();
        String foot = name + ", made " + material.day() + " by " + material.program() + ", files "
                + material.sums().together();
        return new Document("the book of " + name, "The book of " + name, foot, book.front(), chapters);
    }

    /** What was not run, or does not speak of the car as it is now. */
    static List<String> open(Material material) {
        return new Book(material)
                .results().stream()
                        .filter(r -> !r.good())
                        .map(r -> r.what() + ": " + r.words())
                        .toList();
    }

    private List<Result> results() {
        List<Result> results = new ArrayList<>();
        results.add(new Result(
                "design review (check)",
                Summary.of(material.report()),
                !material.report().stops()));
        results.add(live());
        boolean tried = material.live() != null && material.live().faultsTried() > 0;
        results.add(new Result(
                "each wire broken once (live --faults)",
                tried ? material.live().faultsTried() + " single faults tried" : "NOT RUN",
                tried));
        results.add(
                material.proof() == null
                        ? new Result("proof of the logic (prove)", "NOT RUN", false)
                        : new Result(
                                "proof of the logic (prove)",
                                material.proof().summary(),
                                material.proof().good()));
        results.add(campaign());
        results.add(record());
        return results;
    }

    private Result live() {
        String what = "what is live when (live)";
        if (material.live() == null) {
            return new Result(what, "NOT WORKED OUT: the circuit " + material.liveRefusal(), false);
        }
        int kept = material.live().kept().size();
        int all = kept + material.live().broken().size();
        return new Result(what, kept + " of " + all + " promises hold", kept == all);
    }

    private Result campaign() {
        boolean drawn = material.campaign() != null && material.campaign().wired();
        String what = "fault campaign (campaign" + (drawn ? " --wired)" : ")");
        if (material.campaign() == null) {
            return new Result(what, "NOT GIVEN to this book (--campaign)", false);
        }
        if (!material.campaign().stale().isEmpty()) {
            return new Result(what, "STALE: " + material.campaign().stale(), false);
        }
        int findings = material.campaign().findings().size();
        String words = material.campaign().partly() + (findings == 0 ? " No" : " " + Numbers.text(findings))
                + (findings == 1 ? " run" : " runs") + " with one fault hurt or were noticed late; of "
                + material.campaign().day();
        return new Result(what, words.strip(), material.campaign().isGood());
    }

    private Result record() {
        String what = "commissioning (commission)";
        if (material.record() == null) {
            return new Result(what, "NOT GIVEN to this book (--record)", false);
        }
        List<String> changed =
                ResultChapters.changed(material.record(), material.vehicle().folder());
        String kind = material.record().rehearsal() ? "REHEARSAL only: " : "";
        String stale = changed.isEmpty() ? "" : "; STALE, changed since: " + String.join(", ", changed);
        boolean good = material.record().passed() && kind.isEmpty() && changed.isEmpty();
        return new Result(what, kind + material.record().counts() + stale, good);
    }

    private Chapter front() {
        Chapter front = Chapter.of("The book of " + material.vehicle().name());
        String description = material.vehicle().description();
        if (!description.isEmpty()) {
            front.words(description + ".");
        }
        front.words("Made on " + material.day() + " by " + material.program() + ". " + Cautions.STANDING);
        front.add(new Block.Caution(Cautions.RULES));
        front.words(
                "This book shows what was worked out and what was tried, for an inspector and for the next owner. It approves"
                        + " nothing: local codes and inspectors decide. What it says of wires is what the schedule says.");
        List<Result> results = results();
        Set<Integer> marked = new HashSet<>();
        List<List<String>> rows = new ArrayList<>();
        for (Result result : results) {
            if (!result.good()) {
                marked.add(rows.size());
            }
            rows.add(List.of(result.what(), result.words()));
        }
        front.table(List.of("what was run", "result"), rows, marked);
        front.words(
                "Not run and not known here: anything on the real car that is not in the commissioning record, the road,"
                        + " crash, water, electromagnetic compatibility, the makers' own protection inside their parts.");
        front.words("A page belongs to these files. Compare their SHA-256 before you trust it; all together they are "
                + material.sums().together() + ", which stands at the foot of every page.");
        List<List<String>> sums = new ArrayList<>();
        material.sums().sums().forEach((file, sum) -> sums.add(List.of(file, sum)));
        return front.table(List.of("file", "SHA-256"), sums);
    }
}
