package sprag.bench.port.translate;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import javax.lang.model.element.Element;
import javax.lang.model.element.ExecutableElement;
import javax.lang.model.element.TypeElement;
import javax.lang.model.util.ElementFilter;
import sprag.bench.vehicle.BadInput;
import sprag.supervisor.Supervisor;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;

/** The sources of the supervisor in C, and the data of vehicles for it. */
public final class Translation {
    /** What a board calls; everything else follows from it. */
    private static final List<String> ROOTS = List.of(
            "Supervisor.step",
            "Supervisor.wake",
            "Supervisor.state",
            "logic.Logic.step",
            "logic.LogicState.pack",
            "logic.LogicState.unpack",
            "input.TickFacts.set",
            "vocabulary.Readings.set",
            "vocabulary.Readings.get",
            "vocabulary.Readings.clear",
            "vocabulary.Commands.get",
            "vocabulary.Commands.isOn",
            "vocabulary.Commands.release");

    private final Sources sources;
    private final Reach reach;
    private final CTypes types;
    private final Map<String, String> code;

    /** Reads and translates the sources.
     *
     * @param home the folder that holds {@code config} and {@code supervisor}
     * @param single whether quantities have single precision, for chips that compute it in hardware only
     * @throws BadInput with every place that cannot be carried to C
     */
    public Translation(Path home, boolean single) throws BadInput {
        sources = Sources.read(home.resolve(Sources.PLACE));
        try {
            reach = new Reach(sources, roots());
            types = new CTypes(sources, reach, single ? CTypes.Real.FLOAT : CTypes.Real.DOUBLE);
            CodeFiles files = new CodeFiles(sources, reach, types);
            code = files.write();
            if (!files.problems().isEmpty()) {
                throw new BadInput(files.problems());
            }
        } catch (Refused refused) {
            throw new BadInput(List.of(refused.problem()));
        }
        code.put("java.h", java());
        code.put("board.h", board());
        code.put("self_test.c", resource("self_test.c"));
    }

    private List<ExecutableElement> roots() {
        List<ExecutableElement> roots = new ArrayList<>();
        for (String root : ROOTS) {
            int dot = root.lastIndexOf('.');
            TypeElement type = sources.type(root.substring(0, dot));
            ElementFilter.methodsIn(type.getEnclosedElements()).stream()
                    .filter(m -> m.getSimpleName().contentEquals(root.substring(dot + 1)))
                    .forEach(roots::add);
        }
        return roots;
    }

    private String java() {
        String word = types.real().word;
        return resource("java.h")
                .replace("REAL_2147483648", "2147483648.0" + types.real().suffix)
                .replace("REAL", word);
    }

    private String board() {
        StringBuilder text = new StringBuilder(resource("board_head.h"));
        for (ExecutableElement hook : reach.hooks()) {
            TypeElement owner = (TypeElement) hook.getEnclosingElement();
            List<String> parameters = hook.getParameters().stream()
                    .map(p -> types.declare(p.asType(), Names.local(p), false)
                            .orElseThrow(
                                    () -> sources.refuse(sources.path(hook), "this parameter", "Tell plain values.")))
                    .toList();
            text.append("void ").append(Names.type(owner)).append('_').append(hook.getSimpleName());
            text.append('(').append(String.join(", ", parameters)).append(");\n");
        }
        return text.append("\n#ifdef __cplusplus\n}\n#endif\n\n#endif /* SPRAG_BOARD_H */\n")
                .toString();
    }

    /** A file of C that is written by hand and shipped. */
    public static String resource(String name) {
        try (InputStream in = Translation.class.getResourceAsStream("/sprag/bench/port/" + name)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read " + name, e);
        }
    }

    /** The files of code, the same for every vehicle. */
    public Map<String, String> code() {
        return code;
    }

    /** How many functions there are, and of how many types. */
    public String size() {
        Stream<Element> owners = reach.methods().stream().map(Element::getEnclosingElement);
        return reach.methods().size() + " functions of " + owners.distinct().count() + " types";
    }

    /** The file that holds the values of a vehicle. */
    public String data(Settings settings) {
        return data(settings, new Supervisor(settings));
    }

    /** The file that holds a supervisor as it is, such as one with interlocks taken out. */
    public String data(Settings settings, Supervisor supervisor) {
        Map<String, Object> objects = new LinkedHashMap<>();
        objects.put("sprag_supervisor", supervisor);
        objects.put("sprag_readings", new Readings());
        objects.put("sprag_commands", new Commands());
        Map<String, TypeElement> of = Map.of(
                "sprag_supervisor", sources.type("Supervisor"),
                "sprag_readings", sources.type("vocabulary.Readings"),
                "sprag_commands", sources.type("vocabulary.Commands"));
        return new VehicleData(types, reach).write(objects, of, Math.round(settings.get(Parameter.LOOP_TICK_MS)));
    }

    /** For tests: two files that save and restore everything that is remembered, the same for every vehicle. */
    public Map<String, String> fieldFiles(Settings settings) {
        Cells cells = cells(settings);
        List<String> headers = code.keySet().stream()
                .filter(name -> name.endsWith(".h")
                        && !List.of("java.h", "board.h", "types.h").contains(name))
                .map(name -> name.substring(0, name.length() - 2))
                .toList();
        return Map.of("fields.h", cells.header(), "fields.c", cells.code(headers));
    }

    /** Everything that is remembered, in the order of {@link #fieldFiles}. */
    public List<StateCell> stateCells(Settings settings) {
        return cells(settings).all();
    }

    private Cells cells(Settings settings) {
        return new Cells(types, reach, new Supervisor(settings), sources.type("Supervisor"));
    }
}
