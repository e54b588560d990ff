package sprag.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * The table of packages in DEVELOPERS.md is true: a package imports only from its own row and from rows above. Read from the
 * sources, because the compiler copies a constant, and its class file does not tell from where.
 */
class PackageTableTest {
    private static final Path SOURCES = Path.of("src/main/java/sprag/bench");
    private static final Pattern NAME = Pattern.compile("`([a-z]+(?:\\.[a-z]+)*)`");
    private static final Pattern COMMENT = Pattern.compile("(?s)/\\*.*?\\*/|//[^\\n]*");
    /** The package of a class that is imported, or named in full. */
    private static final Pattern USED = Pattern.compile("\\bsprag(?:\\.[a-z]+)*(?=\\.[A-Z])");

    private static final String BENCH = "sprag.bench.";

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
                for (String other : room.isEmpty() ? List.<String>of() : used(file)) {
                    imports++;
                    if (other.startsWith(BENCH) && row(rows, other.substring(BENCH.length())) > row(rows, room)) {
                        upward.add(room + "." + file.getFileName() + " uses " + other.substring(BENCH.length()));
                    }
                }
            }
        }
        assertTrue(imports > 1000, imports + " imports seen");
        assertEquals(new TreeSet<>(), upward, "imports that run up in the table of packages");
    }

    private static List<String> used(Path file) throws IOException {
        Matcher code = USED.matcher(COMMENT.matcher(Files.readString(file)).replaceAll(""));
        return code.results().map(MatchResult::group).toList();
    }

    @Test
    void packages_ofAllModules_formNoCircle() throws IOException {
        Map<String, Set<String>> uses = new TreeMap<>();
        for (String module : List.of("supervisor", "hal", "bench")) {
            Path sources = Path.of("..", module, "src/main/java");
            try (Stream<Path> files = Files.walk(sources)) {
                for (Path file :
                        files.filter(f -> f.toString().endsWith(".java")).toList()) {
                    String own = sources.relativize(file.getParent()).toString().replace(File.separatorChar, '.');
                    uses.computeIfAbsent(own, name -> new TreeSet<>()).addAll(used(file));
                    uses.get(own).remove(own);
                }
            }
        }
        assertTrue(uses.size() > 50, uses.size() + " packages seen");
        // Who uses nothing that is left is in no circle, nor is who is used by nobody that is left.
        int before = 0;
        while (before != uses.size()) {
            before = uses.size();
            uses.values().forEach(others -> others.retainAll(uses.keySet()));
            uses.values().removeIf(Set::isEmpty);
            Set<String> wanted = new HashSet<>();
            uses.values().forEach(wanted::addAll);
            uses.keySet().retainAll(wanted);
        }
        assertEquals(Map.of(), uses, "packages that use each other, or lie between such");
    }
}
