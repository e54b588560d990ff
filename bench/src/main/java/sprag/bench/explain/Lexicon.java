package sprag.bench.explain;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import picocli.CommandLine.Model.CommandSpec;
import sprag.bench.cli.Nearest;
import sprag.bench.cli.NotOffered;
import sprag.bench.explain.Entry.Fact;
import sprag.bench.explain.Entry.Kind;

/** Every name that the program knows. */
final class Lexicon {
    private final List<Entry> entries = new ArrayList<>();
    private final Map<String, List<Entry>> byName;

    /**
     * Collects the names.
     *
     * @param program the whole command line, for its commands
     */
    Lexicon(CommandSpec program) {
        entries.addAll(KeyEntries.all());
        entries.addAll(FileEntries.all());
        entries.addAll(Vocables.all());
        entries.addAll(CarEntries.all());
        program.subcommands().forEach((name, line) -> {
            if (!line.getCommandSpec().usageMessage().hidden()) {
                String told =
                        String.join(" ", line.getCommandSpec().usageMessage().description());
                entries.add(new Entry(
                        Kind.COMMAND,
                        name,
                        told.replaceAll("%n|\\s+", " ").strip(),
                        List.of(new Fact("more", "sprag " + name + " --help"))));
            }
        });
        byName = entries.stream().collect(Collectors.groupingBy(entry -> plain(entry.name())));
    }

    /** All names of a kind, in the order of their table. */
    List<Entry> of(Kind kind) {
        return entries.stream().filter(entry -> entry.kind() == kind).toList();
    }

    /**
     * The entries of a name. A key may be written without its section. Either spelling of a name is taken. A column of a table
     * often has the name of keys: then these are found as well.
     */
    List<Entry> find(String written) {
        String wanted = plain(written.replaceAll("[\\[\\]]", ""));
        List<Entry> found = new ArrayList<>(byName.getOrDefault(wanted, List.of()));
        if (found.stream().allMatch(entry -> entry.kind().sort == Entry.Sort.COLUMN)) {
            entries.stream()
                    .filter(entry -> isKey(entry) && plain(entry.name()).endsWith("." + wanted))
                    .forEach(found::add);
        }
        return found;
    }

    /** The keys of a section of a file; empty when there is no such section. */
    List<Entry> section(String written) {
        String wanted = plain(written.replaceAll("[\\[\\]]", ""));
        return entries.stream()
                .filter(entry -> isKey(entry)
                        && plain(entry.name().substring(0, entry.name().lastIndexOf('.')))
                                .equals(wanted))
                .toList();
    }

    /** Whether it stands in a section of a file. A fault point has a dot in its name as well. */
    private static boolean isKey(Entry entry) {
        return entry.kind().sort == Entry.Sort.KEY && entry.name().contains(".");
    }

    /** What to try instead of a name that is not known. */
    String hint(String written) {
        return NotOffered.reason(written).orElseGet(() -> near(written));
    }

    private String near(String written) {
        Set<String> known = entries.stream().map(Entry::name).collect(Collectors.toCollection(TreeSet::new));
        List<String> within = known.stream()
                .filter(name -> plain(name).contains(plain(written)))
                .limit(8)
                .toList();
        if (written.length() >= 3 && !within.isEmpty()) {
            return "Names that contain it: " + String.join(", ", within) + ".";
        }
        return Nearest.to(written, known)
                .or(() -> Nearest.to(written, withoutSection()))
                .map(name -> "Did you mean " + name + "?")
                .orElse("\"sprag key\" lists the kinds of names.");
    }

    /** The keys as they stand in a file, below the heading of their section. */
    private Set<String> withoutSection() {
        return entries.stream()
                .filter(Lexicon::isKey)
                .map(entry -> entry.name().substring(entry.name().lastIndexOf('.') + 1))
                .collect(Collectors.toCollection(TreeSet::new));
    }

    private static String plain(String name) {
        return name.strip().toLowerCase(Locale.ROOT).replace('-', '_');
    }
}
