package sprag.bench.hand.commission.record;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** What the journal says: how the record began, the last result of each step, what changed between sessions. */
public record RecordState(BringUpJournal journal) {
    /**
     * The last result of a step.
     *
     * @param at when
     * @param session in which session, counted from 1
     * @param isBeforeChange whether a file that it rests on was changed afterwards
     */
    public record LastResult(String at, int session, StepResult result, boolean isBeforeChange) {
        static final LastResult NONE =
                new LastResult("", 0, StepResult.of(StepVerdict.NOT_DONE, "nobody got to it"), false);

        public boolean hasPassed() {
            return result.verdict() == StepVerdict.PASSED;
        }
    }

    private <T extends JournalEntry> Stream<T> all(Class<T> kind) {
        return journal.entries().stream().filter(kind::isInstance).map(kind::cast);
    }

    /** How it began, null when the journal is empty. */
    public JournalEntry.Begin begin() {
        return all(JournalEntry.Begin.class).findFirst().orElse(null);
    }

    /** The fingerprints in force: those of the beginning or of the last accepted change. */
    public Map<String, String> fingerprints() {
        return all(JournalEntry.Changed.class)
                .map(JournalEntry.Changed::fingerprints)
                .reduce(begin().fingerprints(), (earlier, later) -> later);
    }

    /** The names of files that changed on the way. */
    List<String> changedFiles() {
        return all(JournalEntry.Changed.class).flatMap(c -> c.what().stream()).toList();
    }

    /** The last result of each step that was done. */
    public Map<String, LastResult> results() {
        Map<String, LastResult> last = new LinkedHashMap<>();
        attempts().forEach((id, each) -> last.put(id, each.get(each.size() - 1)));
        return last;
    }

    /** Every result of each step, in the order in which they came: a failure that was mended later stays. */
    public Map<String, List<LastResult>> attempts() {
        Map<String, List<LastResult>> attempts = new LinkedHashMap<>();
        int session = 0;
        for (JournalEntry entry : journal.entries()) {
            if (entry instanceof JournalEntry.Session) {
                session++;
            } else if (entry instanceof JournalEntry.Changed) {
                attempts.values()
                        .forEach(each -> each.replaceAll(r -> new LastResult(r.at(), r.session(), r.result(), true)));
            } else if (entry instanceof JournalEntry.Step step) {
                StepResult result = new StepResult(step.verdict(), step.seen(), step.measures());
                attempts.computeIfAbsent(step.id(), id -> new ArrayList<>())
                        .add(new LastResult(step.at(), session, result, false));
            }
        }
        return attempts;
    }

    /** Sessions, notes and changes, one sentence each. */
    List<String> history() {
        List<String> history = new ArrayList<>();
        int session = 0;
        for (JournalEntry entry : journal.entries()) {
            String at = entry.at() + ": ";
            if (entry instanceof JournalEntry.Session began) {
                history.add(at + "session " + ++session + ", " + began.pins());
            } else if (entry instanceof JournalEntry.Note note) {
                history.add(at + note.text());
            } else if (entry instanceof JournalEntry.Changed changed) {
                history.add(at + "continued although these files had changed: " + String.join(", ", changed.what()));
            }
        }
        return history;
    }

    public void addBegin(
            String vehicle, boolean rehearsal, String board, Map<String, String> fingerprints, List<String> faults) {
        journal.add(new JournalEntry.Begin(BringUpJournal.now(), vehicle, rehearsal, board, fingerprints, faults));
    }

    public void addSession(String pins) {
        journal.add(new JournalEntry.Session(BringUpJournal.now(), pins));
    }

    public void addChange(List<String> files, Map<String, String> fingerprints) {
        journal.add(new JournalEntry.Changed(BringUpJournal.now(), files, fingerprints));
    }

    public void addNote(String text) {
        journal.add(new JournalEntry.Note(BringUpJournal.now(), text));
    }

    public void addStep(String id, StepResult result) {
        journal.add(
                new JournalEntry.Step(BringUpJournal.now(), id, result.verdict(), result.seen(), result.measures()));
    }
}
