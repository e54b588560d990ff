package sprag.bench.loop;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import picocli.CommandLine;
import picocli.CommandLine.ParameterException;
import sprag.bench.cli.Nearest;
import sprag.supervisor.vocabulary.Interlock;

/** The interlocks that the option {@code --without} takes out. */
public final class TakenOut {
    private TakenOut() {}

    /** The interlocks of these ids. A name that is none is refused. */
    public static Set<Interlock> of(CommandLine command, List<String> ids) {
        List<String> known = Stream.of(Interlock.values()).map(Interlock::id).toList();
        Set<Interlock> rows = EnumSet.noneOf(Interlock.class);
        for (String id : ids) {
            rows.add(Interlock.of(id)
                    .orElseThrow(() -> new ParameterException(
                            command,
                            "--without " + id + ": there is no such interlock; docs/interlocks.md lists them. "
                                    + Nearest.hint(id, known))));
        }
        return rows;
    }

    /** In words that follow a name: empty, or {@code " without plug-present, crash"}. */
    public static String words(Set<Interlock> rows) {
        return rows.isEmpty()
                ? ""
                : " without " + rows.stream().map(Interlock::id).sorted().collect(Collectors.joining(", "));
    }
}
