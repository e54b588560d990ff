package sprag.bench.explain;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.tomlj.Toml;
import org.tomlj.TomlArray;
import org.tomlj.TomlTable;
import sprag.bench.Sprag;
import sprag.bench.explain.Entry.Kind;
import sprag.bench.vehicle.Catalogue;

/** Whoever opens a shipped file must be able to ask what each key and each column of it is. */
class EditedFilesTest {
    private static final Lexicon LEXICON = new Lexicon(Sprag.commandLine().getCommandSpec());
    private static final Path CONFIG = Catalogue.installed().home().resolve("config");

    /** Every shipped file with what its keys are. */
    private static Kind kindOf(Path file) {
        String name = file.getFileName().toString();
        return switch (file.getParent().getFileName().toString()) {
            case "boards" -> Kind.BOARD_KEY;
            case "buses" -> Kind.BUS_KEY;
            case "scenarios" -> Kind.SCENARIO_KEY;
            case "trips" -> Kind.TRIP_COLUMN;
            default ->
                switch (name) {
                    case "vehicle.toml" -> Kind.KEY;
                    case "wiring.csv" -> Kind.WIRING_COLUMN;
                    case "parts.csv" -> Kind.PARTS_COLUMN;
                    case "accepted.toml" -> Kind.ACCEPTED_KEY;
                    case "draft.toml" -> Kind.DRAFT_KEY;
                    case "board.toml" -> Kind.BOARD_KEY;
                    case "bus.toml" -> Kind.BUS_KEY;
                    default -> throw new IllegalStateException("nothing explains the keys of " + file);
                };
        };
    }

    @TestFactory
    Stream<DynamicTest> everyKeyOfEveryShippedFile_isExplained() throws Exception {
        try (Stream<Path> all = Files.walk(CONFIG)) {
            List<Path> files = all.filter(Files::isRegularFile).sorted().toList();
            assertTrue(files.size() > 150, "only " + files.size());
            return files.stream()
                    .map(file -> dynamicTest(
                            CONFIG.relativize(file).toString(), () -> assertEquals(List.of(), unexplained(file))));
        }
    }

    private static List<String> unexplained(Path file) throws Exception {
        Kind kind = kindOf(file);
        List<String> names = file.toString().endsWith(".csv") ? columns(file) : keys(file);
        assertTrue(!names.isEmpty(), file + " says nothing");
        return names.stream().filter(name -> !isExplained(name, kind)).toList();
    }

    /** A lever or a figure of one's own stands for a key; its own name must then be known. */
    private static boolean isExplained(String name, Kind kind) {
        String last = name.substring(name.lastIndexOf('.') + 1);
        String section = name.substring(0, Math.max(0, name.lastIndexOf('.')));
        if (kind == Kind.SCENARIO_KEY && Set.of("start", "do.set").contains(section)) {
            return has(section + ".LEVER", kind) && has(last, Kind.LEVER);
        }
        if (kind == Kind.SCENARIO_KEY && section.startsWith("car.")) {
            return has(name, Kind.KEY);
        }
        if (kind == Kind.SCENARIO_KEY && section.equals("figures")) {
            return has("figures.NAME", kind);
        }
        return has(section.equals("message.field.texts") ? section : name, kind);
    }

    private static boolean has(String name, Kind kind) {
        return LEXICON.find(name).stream()
                .anyMatch(entry -> entry.kind() == kind && !entry.meaning().isBlank());
    }

    private static List<String> columns(Path file) throws Exception {
        try (Stream<String> lines = Files.lines(file)) {
            return List.of(lines.filter(line -> !line.startsWith("#"))
                    .findFirst()
                    .orElseThrow()
                    .split(","));
        }
    }

    private static List<String> keys(Path file) throws Exception {
        Set<String> keys = new TreeSet<>();
        collect(Toml.parse(file), "", keys);
        return new ArrayList<>(keys);
    }

    private static void collect(TomlTable table, String path, Set<String> keys) {
        for (String name : table.keySet()) {
            String key = path.isEmpty() ? name : path + "." + name;
            Object value = table.get(List.of(name));
            if (value instanceof TomlTable inner) {
                collect(inner, key, keys);
            } else if (value instanceof TomlArray list && !list.isEmpty() && list.get(0) instanceof TomlTable) {
                for (int i = 0; i < list.size(); i++) {
                    collect(list.getTable(i), key, keys);
                }
            } else {
                keys.add(key);
            }
        }
    }

    @Test
    void keyThatNobodyExplains_inAScenario_isNoticed() throws Exception {
        Path folder = Files.createTempDirectory("scenarios-of-a-test");
        Path file = Files.createDirectories(folder.resolve("scenarios")).resolve("one.toml");
        Files.writeString(file, "[about]\ntitle = \"x\"\nmoon = 1\n[start]\nsoc = 1\nmoon = 2\n");
        assertEquals(List.of("about.moon", "start.moon"), unexplained(file));
        Files.delete(file);
        Files.delete(file.getParent());
        Files.delete(folder);
    }
}
