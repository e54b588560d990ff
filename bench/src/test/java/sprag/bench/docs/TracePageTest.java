package sprag.bench.docs;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.StringWriter;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import sprag.bench.cli.Numbers;
import sprag.bench.loop.FrameColumns;
import sprag.bench.loop.trace.Channel;
import sprag.bench.loop.trace.CsvTrace;
import sprag.supervisor.vocabulary.Unit;

/** docs/traces.md names every column of a trace. */
class TracePageTest {
    private static String table() {
        StringBuilder text = new StringBuilder("| column | unit | what it is |\n|---|---|---|\n");
        text.append("| `time_s` | s | time since the start of the run |\n");
        text.append("| `state` | | the state, one of: ")
                .append(String.join(", ", FrameColumns.CHANNELS.states()))
                .append(" |\n");
        for (Channel column : FrameColumns.CHANNELS.all()) {
            text.append("| `")
                    .append(column.column())
                    .append("` | ")
                    .append(unit(column))
                    .append(" | ")
                    .append(what(column))
                    .append(" |\n");
        }
        return text.append("| `interlocks` | | the interlocks that act in this tick |\n")
                .toString();
    }

    private static String unit(Channel column) {
        return column.isSwitch() ? "0 or 1" : column.unit() == Unit.NUMBER ? "number" : Numbers.symbol(column.unit());
    }

    private static String what(Channel column) {
        return switch (column.source()) {
                    case SIGNAL -> "read: ";
                    case OUTPUT -> "commanded: ";
                    case QUANTITY -> "true in the simulated car: ";
                }
                + column.meaning();
    }

    @Test
    void columns_ofThePage_areThoseOfTheCode() throws Exception {
        MadePages.endsWith("traces.md", table());
    }

    /** The table lists what the writer of a trace writes, in its order. */
    @Test
    void columns_ofTheTable_areThoseOfTheFile() throws Exception {
        StringWriter file = new StringWriter();
        new CsvTrace(FrameColumns.CHANNELS, file).close();
        List<String> written = List.of(file.toString().strip().split(","));
        List<String> told = Arrays.stream(table().split("\n"))
                .skip(2)
                .map(row -> row.split("`")[1])
                .toList();
        assertEquals(written, told);
    }
}
