package sprag.bench.review.formula;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** UN R100 (high voltage is more than 60 V d.c.), from memory. */
class DangerousVoltageTest {
    @Test
    void panelsDrawing_flashesFromTheSameVoltageOn() throws Exception {
        Matcher drawn = Pattern.compile("const DANGEROUS_V = ([0-9.]+);")
                .matcher(Files.readString(Path.of("src/main/resources/panel/diagram.js")));
        assertTrue(drawn.find(), "the panel's drawing has the limit");
        assertEquals(60, DangerousVoltage.ABOVE_V);
        assertEquals(DangerousVoltage.ABOVE_V, Double.parseDouble(drawn.group(1)));
    }
}
