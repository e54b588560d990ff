package sprag.bench.explain;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.Wrap;
import sprag.bench.explain.Entry.Fact;
import sprag.bench.explain.Entry.Kind;

/** Tells what a name means. */
@Command(
        name = "key",
        mixinStandardHelpOptions = true,
        description = {
            "Tells what a name means: a key of any file that is edited, a column of a table, a signal, an output, an"
                    + " interlock, a fault point, a command.",
            "",
            "Without a name it lists the kinds. A section such as precharge lists its keys."
        })
public final class KeyCommand implements Callable<Integer> {
    private static final int COLUMNS = 79;
    private static final int LABEL = 21;

    @Spec
    private CommandSpec spec;

    @Parameters(
            paramLabel = "NAME",
            arity = "0..*",
            description = "Any name, e.g. precharge.timeout_ms, bus_voltage_v, precharge-slow, check.")
    private List<String> names = new ArrayList<>();

    @Option(names = "--list", paramLabel = "KIND", description = "List all names of a kind: ${COMPLETION-CANDIDATES}.")
    private Kind listed;

    @Override
    public Integer call() {
        Lexicon lexicon = new Lexicon(spec.root());
        PrintWriter out = spec.commandLine().getOut();
        PrintWriter err = spec.commandLine().getErr();
        if (listed != null) {
            lexicon.of(listed).forEach(entry -> line(entry, out));
        } else if (names.isEmpty()) {
            for (Kind kind : Kind.values()) {
                out.printf(
                        "%5d  %-38s  --list %s%n",
                        lexicon.of(kind).size(), kind.words, kind.name().toLowerCase(Locale.ROOT));
            }
            out.println();
            out.println("\"sprag key NAME\" explains one of them.");
        }
        boolean allKnown = true;
        for (String name : names) {
            List<Entry> found = lexicon.find(name);
            List<Entry> section = lexicon.section(name);
            found.forEach(entry -> whole(entry, out));
            section(section, out);
            if (found.isEmpty() && section.isEmpty()) {
                allKnown = false;
                err.println("sprag: " + name + " is not a name that is known here. " + lexicon.hint(name));
            }
        }
        out.flush();
        return allKnown ? ExitCode.WELL : ExitCode.USAGE;
    }

    /** The keys of a section, for each file that has it. */
    private static void section(List<Entry> section, PrintWriter out) {
        Kind before = null;
        for (Entry entry : section) {
            if (entry.kind() != before) {
                out.println((before == null ? "" : System.lineSeparator()) + entry.kind().words + ":");
            }
            before = entry.kind();
            line(entry, out);
        }
    }

    private static void line(Entry entry, PrintWriter out) {
        String name = String.format("%-32s ", entry.name());
        Wrap.hanging(name, " ".repeat(name.length()), entry.meaning(), COLUMNS).forEach(out::println);
    }

    private static void whole(Entry entry, PrintWriter out) {
        out.println(entry.name() + " - " + entry.kind().words);
        Wrap.hanging("  ", "  ", entry.meaning(), COLUMNS).forEach(out::println);
        for (Fact fact : entry.facts()) {
            fact(fact.label(), fact.text(), out);
        }
        fact("page", entry.page(), out);
        out.println();
    }

    private static void fact(String label, String text, PrintWriter out) {
        String first = String.format("  %-" + LABEL + "s", label);
        Wrap.hanging(first, " ".repeat(first.length()), text, COLUMNS).forEach(out::println);
    }
}
