package sprag.bench.docs;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.Sprag;
import sprag.bench.cli.ExitCode;

/** The pictures in docs are what the commands draw today. */
class PicturesTest {
    private static final String LANES = "States and contactors over time";
    private static final String PRECHARGE = "Voltages and current of the precharge over time";
    /** A page has each drawing for a wide screen and for a narrow one. */
    private static final int WIDE_OF_SECOND = 3;

    @TempDir
    Path folder;

    @Test
    void start_ofTheVan_isWhatTheReportDraws() throws Exception {
        String report = page("drive-and-stop/report.html", ExitCode.WELL, "run", "parcel-van", "drive-and-stop");
        Pictures.isCurrent("start.svg", Pictures.alone(Pictures.drawing(report, PRECHARGE, 1)));
        Pictures.isCurrent("start-lanes.svg", Pictures.alone(Pictures.drawing(report, LANES, WIDE_OF_SECOND)));
    }

    @Test
    void caughtFault_ofTheVan_isWhatTheReportDraws() throws Exception {
        String name = "positive-contactor-welded";
        String report = page(name + "/report.html", ExitCode.WELL, "run", "parcel-van", name);
        Pictures.isCurrent("caught-fault.svg", Pictures.alone(Pictures.drawing(report, LANES, 1)));
    }

    @Test
    void sheet_ofTheVan_isWhatDrawWrites() throws Exception {
        page("draw.html", ExitCode.WELL, "draw", "parcel-van");
        Pictures.isCurrent("sheet.svg", Files.readString(folder.resolve("sheet-1.svg")));
    }

    @Test
    void graphOfStates_hasEveryTransition() throws Exception {
        Pictures.isCurrent("states.svg", Pictures.alone(new StateGraph().svg()));
    }

    @Test
    @Tag("long")
    void counterexample_withoutThePlugRow_isWhatProveDraws() throws Exception {
        String page = page("proof.html", ExitCode.FINDING, "prove", "yard-cart", "--without", "plug-present");
        Pictures.isCurrent(
                "counterexample.svg", Pictures.alone(Pictures.drawing(page, "The shortest way, as lanes", 2)));
    }

    /** Runs a command. Returns a page that it wrote. */
    private String page(String file, int exit, String... command) throws Exception {
        List<String> words = new ArrayList<>(List.of(command));
        words.addAll(List.of("--out", folder.toString()));
        StringWriter out = new StringWriter();
        PrintWriter printer = new PrintWriter(out, true);
        assertEquals(
                exit,
                Sprag.commandLine().setOut(printer).setErr(printer).execute(words.toArray(new String[0])),
                out.toString());
        return Files.readString(folder.resolve(file));
    }
}
