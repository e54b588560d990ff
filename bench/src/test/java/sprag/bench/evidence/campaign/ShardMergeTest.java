package sprag.bench.evidence.campaign;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;
import sprag.bench.Sprag;
import sprag.bench.cli.ExitCode;

/** Shares of a campaign say that they are shares, and are joined only when all are there, once, whole, and of one campaign. */
class ShardMergeTest {
    private static final String RUNS = "cruising pedal_a_v";

    @TempDir
    static Path shares;

    @TempDir
    Path folder;

    private static String said;

    private static int sprag(Object... args) {
        StringWriter out = new StringWriter();
        CommandLine line =
                Sprag.commandLineFor("campaign").setOut(new PrintWriter(out)).setErr(new PrintWriter(out));
        int status =
                line.execute(java.util.Arrays.stream(args).map(String::valueOf).toArray(String[]::new));
        said = out.toString().replaceAll("\\s+", " ");
        return status;
    }

    @BeforeAll
    static void play() {
        for (int part = 1; part <= 3; part++) {
            sprag("campaign", "yard-cart", "--only", RUNS, "--shard", part + "/3", "--out", shares.resolve("s" + part));
            assertTrue(said.contains("This is share " + part + " of 3: "), said);
        }
    }

    private static Path share(int part) {
        return shares.resolve("s" + part);
    }

    private int merge(Path... folders) {
        List<Object> args = new ArrayList<>(List.of("campaign", "yard-cart", "--only", RUNS, "--merge"));
        args.addAll(List.of(folders));
        args.addAll(List.of("--out", folder.resolve("whole")));
        return sprag(args.toArray());
    }

    @Test
    void allShares_merged_areTheWholeCampaign() throws Exception {
        int merged = merge(share(2), share(1), share(3));
        assertFalse(said.contains("This is share"), said);
        int whole = sprag("campaign", "yard-cart", "--only", RUNS, "--out", folder.resolve("alone"));
        assertEquals(whole, merged);
        for (String file : List.of("baseline.txt", "campaign.html", "junit.xml")) {
            assertEquals(
                    Files.readString(folder.resolve("alone").resolve(file)),
                    Files.readString(folder.resolve("whole").resolve(file)),
                    file);
        }
    }

    @Test
    void pageOfAShare_saysWhichShareItIs() throws Exception {
        assertTrue(Files.readString(share(2).resolve("campaign.html")).contains("This is share 2 of 3: "));
    }

    @Test
    void missingAndDoubledShares_areNamed() {
        assertEquals(ExitCode.USAGE, merge(share(1), share(1)));
        assertTrue(said.contains("share 1/3 is there twice"), said);
        assertTrue(said.contains("share 2/3 is missing") && said.contains("share 3/3 is missing"), said);
        assertFalse(Files.exists(folder.resolve("whole")), "nothing is written");
    }

    @Test
    void shareThatWasStopped_isNamed() throws Exception {
        Path cut = Files.createDirectory(folder.resolve("cut"));
        List<String> lines = Files.readAllLines(share(3).resolve("campaign.csv"));
        Files.write(cut.resolve("campaign.csv"), lines.subList(0, lines.size() - 1));
        assertEquals(ExitCode.USAGE, merge(share(1), share(2), cut));
        assertTrue(said.contains("of share 3/3; play it to its end"), said);
    }

    @Test
    void shareOfAnotherSeedVehicleOrVersion_isRefused() throws Exception {
        Path other = Files.createDirectory(folder.resolve("other"));
        String text = Files.readString(share(3).resolve("campaign.csv"));
        Files.writeString(other.resolve("campaign.csv"), text.replace("seed=1;", "seed=2;"));
        assertEquals(ExitCode.USAGE, merge(share(1), share(2), other));
        assertTrue(said.contains("seed is \"2\", not \"1\"") && said.contains("share 3/3 is missing"), said);
        Files.writeString(other.resolve("campaign.csv"), text.replace("program=sprag ", "program=sprag 9."));
        assertEquals(ExitCode.USAGE, merge(share(1), share(2), other));
        assertTrue(said.contains("program is "), said);
        Files.writeString(other.resolve("campaign.csv"), text.replace("vehicle file=", "vehicle file=0"));
        assertEquals(ExitCode.USAGE, merge(share(1), share(2), other));
        assertTrue(said.contains("vehicle file is "), said);
    }

    @Test
    void folderWithoutAShare_isNamed() throws Exception {
        assertEquals(ExitCode.USAGE, merge(folder.resolve("nowhere")));
        assertTrue(said.contains("nowhere") && said.contains("campaign --shard"), said);
        Files.writeString(folder.resolve("campaign.csv"), "");
        assertEquals(ExitCode.USAGE, merge(folder));
        assertTrue(said.contains("campaign.csv:1"), said);
    }

    @Test
    void campaignComparedWithItself_isWell_andAnyChangedRowIsShown() throws Exception {
        Path base = folder.resolve("base");
        sprag("campaign", "yard-cart", "--only", RUNS, "--out", base);
        Path accepted = base.resolve("baseline.txt");
        assertEquals(
                ExitCode.WELL,
                sprag("campaign", "yard-cart", "--only", RUNS, "--compare", accepted, "--out", folder.resolve("b")),
                said);
        String text = Files.readString(accepted);
        Files.writeString(accepted, text.replaceFirst("(pedal_a_v.open: cruising) \\S+", "$1 dormant"));
        assertEquals(
                ExitCode.FINDING,
                sprag("campaign", "yard-cart", "--only", RUNS, "--compare", accepted, "--out", folder.resolve("c")));
        assertTrue(said.contains("cruising pedal_a_v.open: was dormant, is "), said);
        Files.writeString(accepted, "nonsense\n");
        assertEquals(
                ExitCode.USAGE,
                sprag("campaign", "yard-cart", "--only", RUNS, "--compare", accepted, "--out", folder.resolve("d")));
        assertTrue(said.contains("line 1 is no line of a baseline: nonsense"), said);
    }
}
