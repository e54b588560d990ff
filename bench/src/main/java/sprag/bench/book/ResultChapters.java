package sprag.bench.book;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import sprag.bench.book.print.Chapter;
import sprag.bench.drawing.LivePage;
import sprag.bench.drawing.live.BrokenPromise;
import sprag.bench.drawing.live.FaultResult;
import sprag.bench.drawing.live.LiveReport;
import sprag.bench.drawing.live.LiveTable;
import sprag.bench.drawing.live.Situation;
import sprag.bench.evidence.campaign.CampaignResult;
import sprag.bench.evidence.prove.ProofResult;
import sprag.bench.hand.commission.record.Fingerprints;
import sprag.bench.hand.commission.record.RecordSummary;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.page.Summary;
import sprag.bench.review.report.JudgedFinding;

/** What check, live, prove, campaign and commission have found, and what nobody ran. */
final class ResultChapters {
    /** Situations beside one another on a page. Those with a fuse out are many, and each is one finger on the table above. */
    private static final int MOST_SITUATIONS = 9;

    private final Material material;

    ResultChapters(Material material) {
        this.material = material;
    }

    List<Chapter> all() {
        List<Chapter> chapters = new ArrayList<>(List.of(check(), live()));
        if (material.live() != null && material.live().faultsTried() > 0) {
            chapters.add(faults());
        }
        chapters.addAll(List.of(prove(), campaign(), commissioning()));
        return chapters;
    }

    private Chapter check() {
        Chapter chapter = Chapter.of("Design review");
        chapter.verdict(!material.report().stops(), Summary.of(material.report()));
        chapter.words(
                "Made with this book by: sprag check. Its rules and calculations know what is written in the files, no more.");
        List<List<String>> rows = new ArrayList<>();
        Set<Integer> marked = new HashSet<>();
        for (JudgedFinding judged : material.report().findings()) {
            Finding finding = judged.finding();
            if (finding.weight() == Weight.STOP && !judged.isAccepted()) {
                marked.add(rows.size());
            }
            String accepted = judged.isAccepted()
                    ? " Accepted " + judged.acceptance().date() + ": "
                            + judged.acceptance().reason()
                    : "";
            rows.add(List.of(
                    String.valueOf(rows.size() + 1),
                    finding.weight().word(),
                    finding.id(),
                    finding.where(),
                    finding.sentence() + accepted,
                    finding.source()));
        }
        return rows.isEmpty()
                ? chapter
                : chapter.table(List.of("no.", "weight", "finding", "where", "what", "source"), rows, marked);
    }

    private Chapter live() {
        Chapter chapter = Chapter.wide("What is live when");
        LiveReport live = material.live();
        if (live == null) {
            return chapter.verdict(false, "Not worked out: the circuit " + material.liveRefusal() + ".");
        }
        chapter.verdict(live.broken().isEmpty(), LivePage.covered(live));
        chapter.caution(
                "This follows what the schedule says. Capacitors keep their voltage after every contact is open. Measure.");
        for (BrokenPromise broken : live.broken()) {
            chapter.verdict(false, broken.promise().words + " (" + broken.promise().hazard + "): " + told(broken));
        }
        live.kept().forEach(kept -> chapter.verdict(true, "Holds: " + kept.words + " (" + kept.hazard + ")."));
        chapter.heading("Every net in each situation");
        chapter.words(LivePage.LEGEND + " The situations with one fuse out are on the page that sprag live writes.");
        int shown = Math.min(MOST_SITUATIONS, shown(live.table()));
        List<String> heads = new ArrayList<>(List.of("net"));
        heads.addAll(live.table().titles().subList(0, shown));
        List<List<String>> rows = new ArrayList<>();
        for (LiveTable.Row row : live.table().rows()) {
            List<String> cells = new ArrayList<>(List.of(row.net()));
            row.cells().subList(0, shown).forEach(cell -> cells.add(cell.text()));
            rows.add(cells);
        }
        return chapter.table(heads, rows);
    }

    /** How many situations come before the first with a fuse out. */
    private static int shown(LiveTable.Table table) {
        int fuse = table.first(Situation.Sort.FUSE_OUT);
        return fuse < 0 ? table.situations().size() : fuse;
    }

    private static String told(BrokenPromise broken) {
        return broken.set().isEmpty() && broken.ways().isEmpty()
                ? broken.happens() + "."
                : broken.when() + ", " + broken.happens() + ".";
    }

    private Chapter faults() {
        Chapter chapter = Chapter.wide("Each wire, contact and terminal broken once");
        LiveReport live = material.live();
        chapter.words(LivePage.faultSummary(live));
        chapter.words(
                "A row in red is a fault after which a promise that guards against harm no longer holds. It needs one"
                        + " more thing to go wrong, or a hand in the wrong place. These wires deserve the best protection.");
        Map<List<String>, List<String>> alike = new LinkedHashMap<>();
        Set<List<String>> harmful = new HashSet<>();
        for (FaultResult fault : live.faults()) {
            List<String> effect = List.of(
                    String.join(", ", fault.fuses()),
                    fault.broken().stream()
                            .map(b -> b.promise().hazard + " " + b.promise().words)
                            .collect(Collectors.joining("; ")));
            alike.computeIfAbsent(effect, e -> new ArrayList<>()).add(fault.fault());
            if (fault.harms()) {
                harmful.add(effect);
            }
        }
        List<List<String>> rows = new ArrayList<>();
        Set<Integer> marked = new HashSet<>();
        alike.forEach((effect, faults) -> {
            if (harmful.contains(effect)) {
                marked.add(rows.size());
            }
            rows.add(List.of(String.join(", ", faults), effect.get(0), effect.get(1)));
        });
        return chapter.table(List.of("after any one of these faults", "blows", "no longer holds"), rows, marked);
    }

    private Chapter prove() {
        Chapter chapter = Chapter.of("Proof of the logic");
        ProofResult proof = material.proof();
        if (proof == null) {
            return chapter.verdict(false, "Not run for this book. Run it by: sprag prove " + argument());
        }
        chapter.verdict(proof.good(), proof.summary());
        chapter.words(
                "Every reachable state of the supervisor's logic was visited, with every order of facts. What must never be"
                        + " was looked for in each. The chapter on what cannot be detected says what stands outside.");
        List<List<String>> rows = new ArrayList<>();
        Set<Integer> marked = new HashSet<>();
        for (ProofResult.Row row : proof.rows()) {
            if (!row.holds()) {
                marked.add(rows.size());
            }
            rows.add(List.of(row.hazard(), row.name(), row.never(), row.verdict()));
        }
        return chapter.table(List.of("hazard", "promise", "what must never be", "result"), rows, marked);
    }

    private Chapter campaign() {
        Chapter chapter = Chapter.of("Fault campaign");
        CampaignResult campaign = material.campaign();
        if (campaign == null) {
            return chapter.verdict(
                    false,
                    "No results were given. Play it by: sprag campaign " + argument()
                            + " --out faults, then make this book again with: --campaign faults");
        }
        if (!campaign.stale().isEmpty()) {
            chapter.caution("STALE: these results are not about the car as it is now: " + campaign.stale() + ".");
        }
        chapter.words("Played by " + campaign.program() + ", last written on " + campaign.day()
                + ". One drive and one charge of the simulated car, with every single fault "
                + (campaign.wired() ? "of the drawn circuit " : "") + "at every moment of them.");
        if (!campaign.partly().isEmpty()) {
            chapter.verdict(false, campaign.partly());
        }
        chapter.table(List.of("verdict", "runs", "meaning"), campaign.counts());
        chapter.heading("Single faults that hurt, or were noticed late");
        return campaign.findings().isEmpty()
                ? chapter.verdict(true, "None in the runs that were played.")
                : chapter.table(List.of("fault", "moment", "noticed by", "what happened"), campaign.findings());
    }

    private Chapter commissioning() {
        Chapter chapter = Chapter.of("Commissioning record");
        RecordSummary record = material.record();
        if (record == null) {
            return chapter.verdict(
                    false,
                    "No record was given. Nothing here says that anything was connected or measured. Make one by: sprag"
                            + " commission " + argument()
                            + " --board BOARD --out first-bring-up, then make this book again with:"
                            + " --record first-bring-up");
        }
        String kind = record.rehearsal()
                ? "A REHEARSAL: nothing real was touched."
                : "On real inputs and outputs (board " + record.board() + "), traction battery absent.";
        chapter.verdict(!record.rehearsal(), kind);
        chapter.words("Begun " + record.begun() + ", for " + record.vehicle() + ". Steps: " + record.counts() + ".");
        chapter.verdict(record.passed(), record.passed() ? "Every step passed." : "Not every step passed.");
        List<String> changed = changed(record, material.vehicle().folder());
        if (!changed.isEmpty()) {
            chapter.caution("STALE: since this record these files were changed: " + String.join(", ", changed) + ".");
        }
        chapter.table(List.of("part", "step", "verdict", "seen", "when"), record.steps(), open(record));
        if (!record.notCovered().isEmpty()) {
            chapter.heading("Not commissioned");
            chapter.table(List.of("what", "why"), record.notCovered());
        }
        return chapter;
    }

    private static Set<Integer> open(RecordSummary record) {
        Set<Integer> open = new HashSet<>();
        for (int i = 0; i < record.steps().size(); i++) {
            if (!record.steps().get(i).get(2).equals("passed")) {
                open.add(i);
            }
        }
        return open;
    }

    /** Files of a vehicle that differ from those of a record; the board's file is not known here. */
    static List<String> changed(RecordSummary record, Path vehicleFolder) {
        return Fingerprints.changed(record.fingerprints(), Fingerprints.of(vehicleFolder, null, null)).stream()
                .filter(name -> name.contains("."))
                .toList();
    }

    private String argument() {
        return material.vehicle().argument();
    }
}
