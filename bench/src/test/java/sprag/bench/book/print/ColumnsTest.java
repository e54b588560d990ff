package sprag.bench.book.print;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

class ColumnsTest {
    private static final double SIZE_MM = 2.3;
    private static final double PAD_MM = 3;
    private static final double ROOM_MM = 250;

    @Test
    void headOfOneWord_whereThePageHasRoom_isNeverDivided() {
        List<String> divided = new ArrayList<>();
        for (int letters = 1; letters < 16; letters++) {
            for (String more : List.of("driving, service_switch pressed or out", "a", "")) {
                List<String> heads = List.of(
                        "parked",
                        "precharging",
                        "charging",
                        "drivelwm".repeat(2).substring(0, letters),
                        more);
                double[] widths = Columns.of(
                        new Block.Grid(heads, List.of(List.of("-", "-", "-", "-", "-")), Set.of()),
                        SIZE_MM,
                        PAD_MM,
                        ROOM_MM);
                for (int c = 0; c < 4; c++) {
                    if (TextLines.of(heads.get(c), SIZE_MM, widths[c] - PAD_MM).size() > 1) {
                        divided.add(heads.get(c) + " beside " + more);
                    }
                }
            }
        }
        assertEquals(List.of(), divided);
    }
}
