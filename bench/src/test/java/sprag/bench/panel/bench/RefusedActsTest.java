package sprag.bench.panel.bench;

import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.car.Lever;
import sprag.bench.panel.PanelBench;

/** Twenty acts of a driver that come to nothing: each leaves an event that names what is missing and leads to what changes it. */
final class RefusedActsTest {
    private static final int SETTLES_MS = 300;

    @ParameterizedTest(name = "{0}{1}: {2}")
    @CsvSource(quoteCharacter = '"', textBlock = """
        # where   | then                              | event             | names                              | leads to
        cold,      start=1,                            start refused,     Turn the key on,                     key
        cold,      pedal=0.5,                          pedal refused,     Turn the key on,                     key
        cold,      key=1 start=1,                      start refused,     Press the brake.,                    brake
        cold,      key=1 brake=0.5 pedal=0.5 start=1,  start refused,     Release the pedal.,                  pedal
        cold,      key=1 brake=0.5 pedal=0.5,          pedal refused,     Release the pedal.,                  pedal
        cold,      key=1 brake=0.5 plug=1 start=1,     start refused,     Unplug.,                             plug
        cold,      plug=1 pedal=0.5,                   pedal refused,     Unplug.,                             plug
        cold,      cut_loop=0 key=1 brake=0.5 start=1, start refused,     emergency cut-off or service switch, cut_loop_closed
        cold,      cover_loop=0 key=1 brake=0.5 start=1, start refused,   connector or lid,                    cover_loop_closed
        cold,      crash_loop=0 key=1 brake=0.5 start=1, start refused,   crash,                               crash_loop_closed
        cold,      discharge_permit=0 key=1 brake=0.5 start=1, start refused, does not allow current out,      discharge_permit
        ready,     brake=0 pedal=0.5,                  pedal refused,     Choose a direction.,                 direction
        ready,     direction=1 pedal=0.5,              pedal refused,     Release the pedal.,                  pedal
        driving,   direction=-1,                       direction refused, Come to a standstill.,               brake
        driving,   plug=1,                             pedal refused,     Unplug.,                             plug
        driving,   cut_loop=0,                         pedal refused,     cut-loop-open latched,               key
        driving,   cover_loop=0,                       pedal refused,     connector or lid,                    cover_loop_closed
        driving,   crash_loop=0,                       pedal refused,     crash-seen latched,                  key
        driving,   discharge_permit=0,                 pedal refused,     does not allow current out,          discharge_permit
        driving,   cut_loop=0 cut_loop=1 pedal=0 brake=0.5 start=1, start refused, Turn the key off,           key
        """)
    void act_thatComesToNothing_leavesAnEventWithTheReason_thatLeadsToTheLever(
            String where, String then, String event, String names, String leadsTo) throws Exception {
        PanelBench panel = at(where);
        for (String move : then.split(" ")) {
            String[] parts = move.split("=");
            panel.move(Lever.of(parts[0]).orElseThrow(), Double.parseDouble(parts[1]))
                    .run(SETTLES_MS);
        }
        panel.run(SETTLES_MS);
        Note note = panel.note(event);
        assertNotNull(note, () -> "no " + event + "; " + panel.guidance());
        assertTrue(note.cause().contains(names), note.toString());
        List<String> led = leads(panel, note.cause());
        assertTrue(led.contains(leadsTo), led + " of " + note);
    }

    private static PanelBench at(String where) {
        PanelBench panel = new PanelBench();
        return switch (where) {
            case "cold" -> panel.run(SETTLES_MS);
            case "driving" -> panel.drive();
            case "ready" -> {
                panel.run(100).move(Lever.KEY, 1).move(Lever.BRAKE, 0.5).run(SETTLES_MS);
                yield panel.move(Lever.START, 1)
                        .run(SETTLES_MS)
                        .move(Lever.START, 0)
                        .run(3000);
            }
            default -> throw new IllegalArgumentException(where);
        };
    }

    /** What the page marks for these sentences: levers of acts that they ask for, and readings of causes that they name. */
    private static List<String> leads(PanelBench panel, String sentences) throws Exception {
        List<String> all = new ArrayList<>();
        String said = sentences.toLowerCase(Locale.ROOT);
        for (JsonNode pointer :
                new ObjectMapper().readTree(panel.panel.description()).get("pointers")) {
            String words = pointer.get("words").asText().toLowerCase(Locale.ROOT);
            if (pointer.has("lever") && said.contains(words.replaceAll("\\.$", ""))) {
                all.add(pointer.get("lever").asText());
            } else if (pointer.has("reads") && said.contains(words)) {
                pointer.get("reads").forEach(signal -> all.add(signal.asText()));
            }
        }
        return all;
    }
}
