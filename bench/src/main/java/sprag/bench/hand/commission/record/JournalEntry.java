package sprag.bench.hand.commission.record;

import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import java.util.List;
import java.util.Map;

/** One line of the journal. Each has the time at which it was written. */
@JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "kind")
@JsonSubTypes({
    @JsonSubTypes.Type(value = JournalEntry.Begin.class, name = "begin"),
    @JsonSubTypes.Type(value = JournalEntry.Session.class, name = "session"),
    @JsonSubTypes.Type(value = JournalEntry.Changed.class, name = "changed"),
    @JsonSubTypes.Type(value = JournalEntry.Note.class, name = "note"),
    @JsonSubTypes.Type(value = JournalEntry.Step.class, name = "step")
})
public sealed interface JournalEntry {
    String at();

    /**
     * How the record began.
     *
     * @param at when
     * @param rehearsal whether everything is simulated
     * @param board the board's name, empty when there is none
     * @param fingerprints of the files that the steps are made from
     */
    record Begin(
            String at,
            String vehicle,
            boolean rehearsal,
            String board,
            Map<String, String> fingerprints,
            List<String> faults)
            implements JournalEntry {}

    /**
     * A session began.
     *
     * @param at when
     */
    record Session(String at, String pins) implements JournalEntry {}

    /**
     * Files had changed, and the person went on.
     *
     * @param at when
     * @param what the names of the changed files
     * @param fingerprints of all files from then on
     */
    record Changed(String at, List<String> what, Map<String, String> fingerprints) implements JournalEntry {}

    /**
     * A remark for the record.
     *
     * @param at when
     */
    record Note(String at, String text) implements JournalEntry {}

    /**
     * A step was done.
     *
     * @param at when
     */
    record Step(String at, String id, StepVerdict verdict, String seen, List<Measure> measures)
            implements JournalEntry {}
}
