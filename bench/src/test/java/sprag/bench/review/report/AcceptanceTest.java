package sprag.bench.review.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.vehicle.BadInput;

class AcceptanceTest {
    private static final LocalDate TODAY = LocalDate.of(2026, 5, 4);
    private static final String REASON = "the lead lies inside the pack's own box";

    @TempDir
    Path folder;

    private List<Acceptance> read(String reason, String date) throws Exception {
        Files.writeString(
                folder.resolve(Acceptance.FILE),
                "[[accepted]]\nfinding = \"fuse-differs\"\nwhere = \"T1\"\n" + "reason = \"" + reason + "\"\ndate = "
                        + date + "\n");
        return Acceptance.read(folder, TODAY);
    }

    @Test
    void reasonAndDate_areKept() throws Exception {
        Acceptance only = read(REASON, "2026-05-04").get(0);
        assertEquals(REASON, only.reason());
        assertEquals(TODAY, only.date());
    }

    @ParameterizedTest(name = "\"{0}\"")
    @ValueSource(
            strings = {
                "",
                "   ",
                "..............",
                "ok",
                "aaaaaaaa aaaaaaaaa",
                "x x x x x x x x x x x x x",
                "unnecessaryword",
                "is it fine ."
            })
    void reasonThatGivesNone_isRefused(String reason) {
        BadInput refused = assertThrows(BadInput.class, () -> read(reason, "2026-05-04"));
        assertTrue(refused.getMessage().contains("reason"), refused.getMessage());
    }

    @Test
    void dateInTheFuture_isRefused_tomorrowIsNot() throws Exception {
        assertEquals(1, read(REASON, "2026-05-05").size());
        BadInput refused = assertThrows(BadInput.class, () -> read(REASON, "2026-05-06"));
        assertTrue(refused.getMessage().contains("date"), refused.getMessage());
        assertThrows(BadInput.class, () -> read(REASON, "1999-12-31"));
        assertThrows(BadInput.class, () -> read(REASON, "\"2026-05-04\""));
    }

    @Test
    void fileThatIsALinkToNothing_isNoMissingFile() throws Exception {
        assertEquals(List.of(), Acceptance.read(folder, TODAY));
        Files.createSymbolicLink(folder.resolve(Acceptance.FILE), folder.resolve("gone.toml"));
        assertThrows(BadInput.class, () -> Acceptance.read(folder, TODAY));
    }
}
