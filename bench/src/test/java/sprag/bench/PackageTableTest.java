package sprag.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The table of packages in DEVELOPERS.md is true: a package imports only from its own row and from rows above. */
class PackageTableTest {
    private static final Path SOURCES = Path.of("src/main/java/sprag/bench");
    private static final Pattern NAME = Pattern.compile("`([a-z]+(?:\\.[a-z]+)*)`");
    private static final Pattern IMPORT = Pattern.compile("(?m)^import (?:static )?sprag\\.bench\\.([a-z.]+)\\.[A-Z]");

    private static Map<String, Integer> rows() throws IOException {
        String page = Files.readString(Path.of("../DEVELOPERS.md"));
        String table = page.substring(page.indexOf("| package of `bench` |"));
        List<String> lines =
                table.lines().takeWhile(line -> line.startsWith("|")).skip(2).toList();
        Map<String, Integer> rows = new HashMap<>();
        for (int row = 0; row < lines.size(); row++) {
            String[] cells = lines.get(row).split("\\|");
            for (String cell : List.of(cells[1], cells[2])) {
                Matcher name = NAME.matcher(cell);
                while (name.find()) {
                    // the second cell also names commands: only a package within another one counts there
                    if (cell.equals(cells[1]) || name.group(1).contains(".")) {
                        rows.putIfAbsent(name.group(1), row);
                    }
                }
            }
        }
        return rows;
    }

    private static int row(Map<String, Integer> rows, String room) {
        for (String name = room; !name.isEmpty(); name = name.substring(0, Math.max(0, name.lastIndexOf('.')))) {
            if (rows.containsKey(name)) {
                return rows.get(name);
            }
        }
        throw new AssertionError("DEVELOPERS.md has no row for the package " + room);
    }

    @Test
    void package_importsFromItsRowAndFromAbove() throws IOException {
        Map<String, Integer> rows = rows();
        TreeSet<String> upward = new TreeSet<>();
        int imports = 0;
        try (Stream<Path> files = Files.walk(SOURCES)) {
            for (Path file : files.filter(f -> f.toString().endsWith(".java")).toList()) {
                String room = SOURCES.relativize(file.getParent()).toString().replace(File.separatorChar, '.');
                Matcher used = IMPORT.matcher(Files.readString(file));
                while (!room.isEmpty() && used.find()) {
                    imports++;
                    if (row(rows, used.group(1)) > row(rows, room)) {
                        upward.add(room + "." + file.getFileName() + " imports " + used.group(1));
                    }
                }
            }
        }
        assertTrue(imports > 1000, imports + " imports seen");
        assertEquals(new TreeSet<>(), upward, "imports that run up in the table of packages");
    }
}
