package sprag.bench.explain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import sprag.bench.explain.KeyTexts.KeyText;
import sprag.supervisor.vocabulary.Row;

class KeyTextsTest {
    @Test
    void everyKey_hasAText_andNoTextIsLeftOver_inTheOrderOfTheTables() {
        assertEquals(
                KeyEntries.rows().stream().map(Row::key).toList(),
                List.copyOf(KeyTexts.all().keySet()));
    }

    @Test
    void everyText_saysWhatAndHow_andNeitherRepeatsTheKey() {
        for (Map.Entry<String, KeyText> entry : KeyTexts.all().entrySet()) {
            String name = entry.getKey().substring(entry.getKey().lastIndexOf(".") + 1);
            assertTrue(entry.getValue().meaning().length() > 10, entry.getKey());
            assertFalse(entry.getValue().howToFind().isBlank(), entry.getKey());
            assertFalse(entry.getValue().meaning().equals(name), entry.getKey() + " is explained by itself");
        }
    }
}
