package sprag.bench.review;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import sprag.bench.Sprag;
import sprag.bench.page.PageCheck;
import sprag.bench.review.report.ShippedVehiclesTest;

class CheckCommandTest {
    private static final ObjectMapper JSON = new ObjectMapper();

    @TempDir
    private Path dir;

    private final StringWriter out = new StringWriter();
    private final StringWriter err = new StringWriter();

    private int run(String... args) {
        return Sprag.commandLineFor("check")
                .setOut(new PrintWriter(out, true))
                .setErr(new PrintWriter(err, true))
                .execute(Stream.concat(Stream.of("check"), Stream.of(args)).toArray(String[]::new));
    }

    private Path copyOf(String vehicle) throws IOException {
        Path copy = Files.createDirectories(dir.resolve(vehicle));
        try (Stream<Path> files = Files.list(ShippedVehiclesTest.VEHICLES.resolve(vehicle))) {
            for (Path file : files.toList()) {
                Files.copy(file, copy.resolve(file.getFileName()));
            }
        }
        return copy;
    }

    private static void replace(Path file, String what, String by) throws IOException {
        String text = Files.readString(file);
        assertTrue(text.contains(what), file + " has no " + what);
        Files.writeString(file, text.replace(what, by));
    }

    @Test
    void goodVehicle_exits0_andSaysWhereThePageIs() throws IOException {
        int status =
                run(copyOf("parcel-van").toString(), "--out", dir.resolve("o").toString());
        assertEquals(0, status, err::toString);
        List<String> lines = out.toString().lines().toList();
        assertEquals("Page: " + dir.resolve("o").resolve("check.html"), lines.get(lines.size() - 2));
        assertTrue(lines.get(lines.size() - 1).endsWith("Nothing here says not to build it."), out::toString);
        assertFalse(
                lines.stream().anyMatch(l -> l.startsWith("  ok")),
                "calculations that are well stand there only with --all");
        assertTrue(Files.size(dir.resolve("o").resolve("check.html")) > 10_000);
        assertTrue(out.toString().lines().filter(l -> !l.startsWith("Page: ")).allMatch(l -> l.length() <= 80));
    }

    @Test
    void flawedVehicle_showsWhatIsHeaviestLast_andAllCalculationsOnlyWhenAsked() throws IOException {
        String vehicle = copyOf("flawed-van").toString();
        assertEquals(1, run(vehicle, "--out", dir.resolve("o").toString()));
        String text = out.toString();
        assertTrue(text.strip().endsWith("Do not build it like this."), text);
        assertTrue(text.indexOf("CALCULATIONS") < text.indexOf("NOTE: "), text);
        assertTrue(text.indexOf("NOTE: ") < text.indexOf("CAUTION: "), text);
        assertTrue(text.indexOf("CAUTION: ") < text.indexOf("STOP: "), text);
        assertFalse(text.contains("\n  ok"), text);
        out.getBuffer().setLength(0);
        run(vehicle, "--all", "--out", dir.resolve("o").toString());
        assertTrue(out.toString().contains("\n  ok"), out::toString);
    }

    @Test
    void flawedVehicle_exits1_andJsonHasEveryField() throws IOException {
        int status = run(
                copyOf("flawed-van").toString(),
                "--json",
                "--out",
                dir.resolve("o").toString());
        assertEquals(1, status);
        JsonNode root = JSON.readTree(out.toString());
        assertTrue(root.get("stops").asInt() > 12);
        for (JsonNode finding : root.get("findings")) {
            for (String field : new String[] {"id", "weight", "where", "sentence", "numbers", "source"}) {
                assertTrue(finding.hasNonNull(field), field + " of " + finding);
            }
        }
        JsonNode fuse = find(root, "fuse-above-conductor");
        assertEquals(160, fuse.get("numbers").get("fuse_a").asDouble());
        assertEquals("wiring.csv", fuse.get("file").asText());
    }

    private static JsonNode find(JsonNode root, String id) {
        for (JsonNode finding : root.get("findings")) {
            if (finding.get("id").asText().equals(id)) {
                return finding;
            }
        }
        throw new AssertionError("no " + id);
    }

    @Test
    void sarif_hasRulesResultsLevelsAndPlaces() throws IOException {
        Path file = dir.resolve("r.sarif");
        run(
                copyOf("flawed-van").toString(),
                "--sarif",
                file.toString(),
                "--out",
                dir.resolve("o").toString());
        JsonNode root = JSON.readTree(Files.readString(file));
        assertEquals("2.1.0", root.get("version").asText());
        JsonNode run = root.get("runs").get(0);
        JsonNode rules = run.get("tool").get("driver").get("rules");
        for (JsonNode result : run.get("results")) {
            assertEquals(
                    result.get("ruleId").asText(),
                    rules.get(result.get("ruleIndex").asInt()).get("id").asText());
            assertTrue(result.get("level").asText().matches("error|warning|note"));
            JsonNode place = result.get("locations").get(0).get("physicalLocation");
            assertTrue(place.get("artifactLocation").get("uri").asText().matches("[a-z]+\\.(toml|csv)"));
            assertTrue(
                    !place.has("region") || place.get("region").get("startLine").asInt() > 0);
        }
        assertTrue(
                run.get("originalUriBaseIds").get("VEHICLE").get("uri").asText().endsWith("/"));
    }

    @Test
    void accepted_staysVisible_andNoLongerStops() throws IOException {
        Path vehicle = copyOf("parcel-van");
        replace(vehicle.resolve("wiring.csv"), "120,orange,0.5,500", "120,red,0.5,500");
        String out1 = dir.resolve("o").toString();
        assertEquals(1, run(vehicle.toString(), "--out", out1));
        Files.writeString(
                vehicle.resolve("accepted.toml"),
                "[[accepted]]\nfinding = \"traction-not-orange\"\nwhere = \"T001\"\n"
                        + "reason = \"runs inside the closed steel box of the pack\"\ndate = 2026-03-31\n");
        out.getBuffer().setLength(0);
        assertEquals(0, run(vehicle.toString(), "--out", out1), err::toString);
        assertTrue(out.toString().contains("ACCEPTED"));
        assertTrue(out.toString().contains("Accepted 2026-03-31: runs inside the closed steel box"), out::toString);
        assertTrue(Files.readString(dir.resolve("o").resolve("check.html")).contains("stop, accepted"));
        replace(vehicle.resolve("accepted.toml"), "\"T001\"", "\"T002\"");
        assertEquals(1, run(vehicle.toString(), "--out", out1), "accepted at another place does not count");
        assertTrue(out.toString().contains("acceptance-without-finding"));
    }

    @Test
    void acceptanceWithoutReasonOrDate_exits2() throws IOException {
        Path vehicle = copyOf("parcel-van");
        Files.writeString(
                vehicle.resolve("accepted.toml"),
                "[[accepted]]\nfinding = \"traction-not-orange\"\nwhere = \"T001\"\nreason = \"ok\"\n");
        assertEquals(2, run(vehicle.toString(), "--out", dir.resolve("o").toString()));
        assertTrue(err.toString().contains("reason") && err.toString().contains("date"), err::toString);
    }

    @Test
    void badSchedule_exits2_withFileLineColumnAndRemedy() throws IOException {
        Path vehicle = copyOf("parcel-van");
        replace(vehicle.resolve("wiring.csv"), "120,orange,0.5,500", "120 mm2,orange,0.5,500");
        assertEquals(2, run(vehicle.toString(), "--out", dir.resolve("o").toString()));
        assertTrue(err.toString().contains("wiring.csv:3: size_mm2 \"120 mm2\" is not a number"), err::toString);
        assertTrue(err.toString().contains("Write digits only"), err::toString);
        assertFalse(Files.exists(dir.resolve("o")), "nothing is written");
    }

    @Test
    void noSchedule_isSaid() throws IOException {
        Path vehicle = copyOf("parcel-van");
        Files.delete(vehicle.resolve("wiring.csv"));
        assertEquals(0, run(vehicle.toString(), "--out", dir.resolve("o").toString()));
        assertTrue(out.toString().contains("wiring-not-given"));
    }

    @Test
    void missingRating_isANote_neverASilentPass() throws IOException {
        Path vehicle = copyOf("parcel-van");
        replace(vehicle.resolve("vehicle.toml"), "pulse_j = 400", "");
        assertEquals(0, run(vehicle.toString(), "--out", dir.resolve("o").toString()));
        String flat = out.toString().replaceAll("\\s+", " ");
        assertTrue(flat.contains("because design.resistor.pulse_j is not given"), flat);
    }

    @Test
    void unknownVehicle_exits2_andAFileInTheWay_exits3() throws IOException {
        assertEquals(2, run("no-such-van"));
        Path inTheWay = Files.writeString(dir.resolve("o"), "a file");
        assertEquals(3, run(copyOf("coupe").toString(), "--out", inTheWay.toString()));
        assertTrue(err.toString().contains("cannot make the folder"), err::toString);
    }

    @Test
    void hostileNames_areEscaped() throws Exception {
        Path vehicle = copyOf("parcel-van");
        replace(
                vehicle.resolve("vehicle.toml"),
                "name = \"parcel-van\"",
                "name = \"<script>alert('x')</script>&\\\"\"");
        replace(vehicle.resolve("wiring.csv"), "crash_loop,signal", "\"<img src=x onerror=y>\",signal");
        replace(vehicle.resolve("wiring.csv"), "cover_loop,signal", "\"<img src=x onerror=z>\",signal");
        run(vehicle.toString(), "--out", dir.resolve("o").toString());
        String html = Files.readString(dir.resolve("o").resolve("check.html"));
        PageCheck.standsAlone(html);
        assertFalse(html.contains("<script") || html.contains("<img"), "names must not become tags");
        assertTrue(html.contains("&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt;&amp;&quot;"));
    }
}
