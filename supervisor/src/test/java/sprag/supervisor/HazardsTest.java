package sprag.supervisor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;

/** The page of hazards and the table of interlocks point at each other, and neither dangles. */
class HazardsTest {
    private static final Path PAGE = Path.of("../docs/hazards.md");
    private static final Pattern ROW = Pattern.compile("(?m)^\\| (H\\d{2}) \\|[^|]*\\|[^|]*\\| ([^|]*) \\|$");

    private static Map<String, String> inTheCode() {
        Map<String, TreeSet<String>> guards = new TreeMap<>();
        for (Interlock row : Interlock.values()) {
            guards.computeIfAbsent(row.hazard, id -> new TreeSet<>()).add("`" + row.id() + "`");
        }
        Map<String, String> lists = new TreeMap<>();
        guards.forEach((id, ids) -> lists.put(id, String.join(", ", ids)));
        return lists;
    }

    private static Map<String, String> onThePage() throws IOException {
        Map<String, String> guards = new TreeMap<>();
        Matcher m = ROW.matcher(Files.readString(PAGE));
        while (m.find()) {
            assertEquals(null, guards.put(m.group(1), m.group(2)), m.group(1) + " stands there twice");
        }
        return guards;
    }

    @Test
    void everyHazard_hasItsInterlocksAndTheReverse() throws IOException {
        Map<String, String> code = inTheCode();
        Map<String, String> page = onThePage();
        assertEquals(code.keySet(), page.keySet(), "hazards of the interlocks against those of " + PAGE);
        code.forEach((id, guards) -> assertEquals(guards, page.get(id), "last column of " + id + " in " + PAGE));
        assertEquals(18, page.size());
    }

    @Test
    void everyInterlock_saysWhy() {
        for (Interlock row : Interlock.values()) {
            assertTrue(row.why.length() > 10, row.id());
            assertTrue(row.cause.toString().length() > 10, row.id());
            assertTrue(!row.where.isEmpty(), row.id());
            assertTrue(row.id().matches("[a-z]+(-[a-z]+)*"), row.id());
        }
    }

    @Test
    void causes_sayTheirFactOrTheirSequence() {
        assertEquals("the brake pedal is not pressed", Interlock.BRAKE_NOT_PRESSED.cause.toString());
        assertEquals(0, Interlock.BRAKE_NOT_PRESSED.cause.value());
        assertEquals(1, Interlock.CUT_LOOP_OPEN.cause.value());
        assertEquals(Parameter.LV_LOST_MS, Interlock.LV_LOST.cause.detection());
        assertEquals(null, Interlock.CUT_LOOP_OPEN.cause.detection());
        assertEquals(null, Interlock.PRECHARGE_SLOW.cause.detection());
        assertEquals(null, Interlock.PRECHARGE_SLOW.cause.fact());
    }
}
