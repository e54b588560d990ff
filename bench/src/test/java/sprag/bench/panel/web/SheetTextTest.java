package sprag.bench.panel.web;

import static org.junit.jupiter.api.Assertions.assertEquals;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Map;
import org.junit.jupiter.api.Test;
import sprag.bench.wired.LiveSheets;

class SheetTextTest {
    private static final LiveSheets.State OPEN =
            new LiveSheets.State(Map.of(1, "P+", 2, "-"), Map.of("relay.out", false), Map.of("relay", ""));
    private static final LiveSheets.State CLOSED =
            new LiveSheets.State(Map.of(1, "P+", 2, "P+"), Map.of("relay.out", true), Map.of("relay", "pulled"));

    @Test
    void firstState_isToldWhole() {
        ObjectNode told = SheetText.changes(null, OPEN);
        assertEquals(true, told.get("all").asBoolean());
        assertEquals(2, told.get("nets").size());
    }

    @Test
    void laterState_tellsOnlyWhatHasChanged() {
        String told = SheetText.changes(OPEN, CLOSED).toString();
        assertEquals(
                "{\"t\":\"circuit\",\"all\":false,\"nets\":{\"2\":\"P+\"},\"contacts\":{\"relay.out\":true},"
                        + "\"parts\":{\"relay\":\"pulled\"}}",
                told);
    }

    @Test
    void sameState_tellsNothing() {
        ObjectNode told = SheetText.changes(OPEN, OPEN);
        assertEquals(
                0,
                told.get("nets").size()
                        + told.get("contacts").size()
                        + told.get("parts").size());
    }
}
