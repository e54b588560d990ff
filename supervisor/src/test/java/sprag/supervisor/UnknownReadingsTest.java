package sprag.supervisor;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import sprag.supervisor.vocabulary.Signal;

/** H14: what a reading counts as when nobody knows it. Each row is tried on a running supervisor, once sound and once unknown. */
class UnknownReadingsTest {
    private static final Path PAGE = Path.of("../docs/unknown.md");
    /** Long enough for the slowest detection, and for a charge to be offered and locked. */
    private static final int TICKS = 350;

    @ParameterizedTest
    @EnumSource(UnknownReading.class)
    void reading_unknown_countsAsTheTableSays(UnknownReading row) {
        Rig rig = row.ready();
        rig.meddle(row.signal, Double.NaN).run(TICKS);
        assertTrue(row.shows(rig), row.assumed);
    }

    @ParameterizedTest
    @EnumSource(UnknownReading.class)
    void reading_sound_doesNot(UnknownReading row) {
        assertFalse(row.shows(row.ready().run(TICKS)), "what the row asks for must come from the lost reading alone");
    }

    @Test
    void everySignal_hasARow() {
        assertEquals(
                Arrays.stream(Signal.values()).map(Enum::name).collect(Collectors.toSet()),
                Arrays.stream(UnknownReading.values())
                        .map(row -> row.signal.name())
                        .collect(Collectors.toSet()));
    }

    @Test
    void page_isTheOneInTheCode() throws IOException {
        String made = Arrays.stream(UnknownReading.values())
                .map(row -> "| `" + row.signal.key() + "` | "
                        + row.state.name().toLowerCase(Locale.ROOT).replace('_', '-') + " | " + row.assumed + " | "
                        + row.because + " |\n")
                .collect(Collectors.joining());
        String page = """
            # Unknown readings

            A reading is unknown when its sample is too old, out of range or not a number. What it counts as then is never the good case.
            A test loses each signal in turn in the state that is named, and looks for what the third column says. It also looks that this
            does not happen with the sound reading. What stays on the wire while it is wrong is another matter: see [hazards.md](hazards.md).

            Made from the code.

            | signal | tried in | an unknown reading counts as | why that is the safe side |
            |---|---|---|---|
            """ + made;
        if (Boolean.getBoolean("docs.update")) {
            Files.writeString(PAGE, page);
        }
        assertEquals(
                page, Files.readString(PAGE), PAGE + " is stale; if the change is meant: mvn test -Ddocs.update=true");
    }
}
