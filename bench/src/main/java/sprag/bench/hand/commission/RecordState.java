package sprag.bench.hand.commission;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** What the journal says: how it began, what came of each step, what changed on the way. */
final class RecordState {
    /**
     * The last thing that came of a step.
     *
     * @param at when
     * @param session in which session, from 1
     * @param outcome what
     * @param isBeforeChange whether a file it rests on was changed afterwards
     */
    record Done(String at, int session, StepResult outcome, boolean isBeforeChange) {}

    /**
     * How the work began.
     *
     * @param at when
     * @param vehicle whose car
     * @param rehearsal whether everything is simulated
     * @param board the board's name, empty for none
     * @param prints the files' fingerprints then
     * @param faults what was planted in a rehearsal
     */
    record Beginning(
            String at,
            String vehicle,
            boolean rehearsal,
            String board,
            Map<String, String> prints,
            List<String> faults) {}

    private final BringUpJournal journal;

    RecordState(BringUpJournal journal) {
        this.journal = journal;
    }

    /** How it began, null when nothing is there yet. */
    Beginning beginning() {
        for (JsonNode line : journal.lines()) {
            if (is(line, "begin")) {
                return new Beginning(
                        line.path("at").asText(),
                        line.path("vehicle").asText(),
                        line.path("rehearsal").asBoolean(),
                        line.path("board").asText(),
                        prints(line),
                        texts(line.path("faults")));
            }
        }
        return null;
    }

    /** The fingerprints in force: those of the beginning or of the last accepted change. */
    Map<String, String> prints() {
        Map<String, String> last = Map.of();
        for (JsonNode line : journal.lines()) {
            if (is(line, "begin") || is(line, "changed")) {
                last = prints(line);
            }
        }
        return last;
    }

    /** The last thing that came of each step. */
    Map<String, Done> done() {
        Map<String, Done> done = new LinkedHashMap<>();
        int session = 0;
        for (JsonNode line : journal.lines()) {
            if (is(line, "session")) {
                session++;
            } else if (is(line, "changed")) {
                done.replaceAll((id, d) -> new Done(d.at(), d.session(), d.outcome(), true));
            } else if (is(line, "step")) {
                String id = line.path("id").asText();
                done.put(id, new Done(line.path("at").asText(), session, outcome(line), false));
            }
        }
        return done;
    }

    /** Sessions, notes and changes, in words. */
    List<String> notes() {
        List<String> notes = new ArrayList<>();
        int session = 0;
        for (JsonNode line : journal.lines()) {
            String at = line.path("at").asText() + ": ";
            if (is(line, "session")) {
                notes.add(at + "session " + ++session + ", " + line.path("pins").asText());
            } else if (is(line, "note")) {
                notes.add(at + line.path("text").asText());
            } else if (is(line, "changed")) {
                notes.add(at + "went on though changed: " + String.join(", ", texts(line.path("what"))));
            }
        }
        return notes;
    }

    /** The names of files that changed on the way. */
    List<String> changes() {
        List<String> all = new ArrayList<>();
        for (JsonNode line : journal.lines()) {
            if (is(line, "changed")) {
                all.addAll(texts(line.path("what")));
            }
        }
        return all;
    }

    void begin(Beginning how) {
        ObjectNode line = BringUpJournal.line("begin");
        line.put("vehicle", how.vehicle()).put("rehearsal", how.rehearsal()).put("board", how.board());
        put(line, how.prints());
        how.faults().forEach(line.putArray("faults")::add);
        journal.add(line);
    }

    void session(String pins) {
        journal.add(BringUpJournal.line("session").put("pins", pins));
    }

    void changed(List<String> what, Map<String, String> prints) {
        ObjectNode line = BringUpJournal.line("changed");
        what.forEach(line.putArray("what")::add);
        put(line, prints);
        journal.add(line);
    }

    void note(String text) {
        journal.add(BringUpJournal.line("note").put("text", text));
    }

    void step(String id, StepResult outcome) {
        ObjectNode line = BringUpJournal.line("step");
        line.put("id", id).put("verdict", outcome.verdict().word()).put("seen", outcome.seen());
        write(line.putArray("measures"), outcome.measures());
        journal.add(line);
    }

    /** Measures as JSON; a number that JSON cannot say is left out. */
    static void write(ArrayNode array, List<Measure> measures) {
        for (Measure m : measures) {
            ObjectNode node = array.addObject();
            node.put("name", m.name()).put("unit", m.unit());
            put(node, "value", m.value());
            put(node, "min", m.min());
            put(node, "max", m.max());
            node.put("within", m.isWithin());
        }
    }

    private static void put(ObjectNode node, String key, double value) {
        if (Double.isFinite(value)) {
            node.put(key, value);
        }
    }

    private static StepResult outcome(JsonNode line) {
        List<Measure> measures = new ArrayList<>();
        for (JsonNode m : line.path("measures")) {
            measures.add(new Measure(
                    m.path("name").asText(),
                    m.path("value").asDouble(Double.NaN),
                    m.path("unit").asText(),
                    m.path("min").asDouble(Double.NEGATIVE_INFINITY),
                    m.path("max").asDouble(Double.POSITIVE_INFINITY)));
        }
        return new StepResult(
                StepVerdict.of(line.path("verdict").asText()), line.path("seen").asText(), measures);
    }

    private static boolean is(JsonNode line, String kind) {
        return kind.equals(line.path("kind").asText());
    }

    private static Map<String, String> prints(JsonNode line) {
        Map<String, String> prints = new LinkedHashMap<>();
        for (Map.Entry<String, JsonNode> print : line.path("fingerprints").properties()) {
            prints.put(print.getKey(), print.getValue().asText());
        }
        return prints;
    }

    private static void put(ObjectNode line, Map<String, String> prints) {
        ObjectNode node = line.putObject("fingerprints");
        prints.forEach(node::put);
    }

    private static List<String> texts(JsonNode array) {
        List<String> texts = new ArrayList<>();
        array.forEach(node -> texts.add(node.asText()));
        return texts;
    }
}
