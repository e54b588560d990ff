package sprag.bench.evidence.prove.export;

import com.samskivert.mustache.Mustache;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import sprag.bench.cli.Numbers;
import sprag.bench.evidence.prove.promise.HistoryPromise;
import sprag.supervisor.vocabulary.BusLevel;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Reset;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;
import sprag.supervisor.vocabulary.Transition;

/**
 * The Logic of a vehicle and its promises as a model for SPIN. The rows are written out from the program; what Logic does with them,
 * and what is promised, stands in {@code logic.pml} beside this class, as a second statement.
 */
public final class PromelaModel {
    /** The promises that the model does not state, each with the reason. */
    public static final Map<String, String> NOT_STATED = Map.of(
            "BUS_LOADS_AS_CONNECTED",
            "the model would have to say what the promise says, and the two would be one sentence");

    private static final Mustache.Compiler TEXTS =
            Mustache.compiler().escapeHTML(false).strictSections(true);

    /** The waits that Logic counts, under the names that the model gives them. */
    private static final List<Wait> WAITS = List.of(
            new Wait("WELD_TEST", Parameter.CONTACTOR_WELD_TEST_MS),
            new Wait("CLOSE", Parameter.CONTACTOR_CLOSE_MS),
            new Wait("RELEASE", Parameter.CONTACTOR_RELEASE_MS),
            new Wait("OVERLAP_ASKED", Parameter.CONTACTOR_OVERLAP_MS),
            new Wait("FAST", Parameter.PRECHARGE_FAST_MS),
            new Wait("LEAST", Parameter.PRECHARGE_MIN_MS),
            new Wait("TIMEOUT", Parameter.PRECHARGE_TIMEOUT_MS),
            new Wait("WAIT", Parameter.RUNDOWN_WAIT_MS),
            new Wait("SPIN_ASKED", Parameter.RUNDOWN_SPIN_MS));

    private record Wait(String name, Parameter parameter) {}

    private final Settings settings;
    private final Settings promised;
    private final Set<Interlock> without;

    private PromelaModel(Settings settings, Settings promised, Set<Interlock> without) {
        this.settings = settings;
        this.promised = promised;
        this.without = without;
    }

    /** The model.
     *
     * @param promised the values that the promises speak of; those of Logic, unless a wait was changed to see what breaks
     * @param without interlocks that are left out
     */
    public static String of(String vehicle, Settings settings, Settings promised, Set<Interlock> without) {
        return new PromelaModel(settings, promised, without).text(vehicle);
    }

    private String text(String vehicle) {
        Map<String, Object> model = new HashMap<>();
        model.put("vehicle", comment(vehicle));
        model.put("without", leftOut());
        model.put("constants", constants());
        model.put("tickMs", Numbers.text(settings.get(Parameter.LOOP_TICK_MS)));
        model.put("waits", waits("", settings));
        model.put("promised", waits("P_", promised));
        model.put("build", build());
        model.put("negative", steps(step -> step.negativeClosed));
        model.put("relay", steps(step -> step.prechargeClosed));
        model.put("positive", steps(step -> step.positiveClosed));
        model.put("transitions", transitions());
        model.put("sequenced", sequenced());
        model.put("facts", facts());
        model.put("histories", histories());
        model.put("lastHistory", HistoryPromise.values().length);
        model.put("states", Stream.of(State.values()).map(this::state).toList());
        return TEXTS.compile(template()).execute(model);
    }

    private String leftOut() {
        return without.isEmpty()
                ? ""
                : ", without " + without.stream().sorted().map(Interlock::id).collect(Collectors.joining(", "));
    }

    private static List<Map<String, Object>> constants() {
        List<Map<String, Object>> all = new ArrayList<>();
        List<Enum<?>[]> kinds = List.of(
                State.values(),
                Step.values(),
                ChargePhase.values(),
                Reset.values(),
                Direction.values(),
                BusLevel.values(),
                Response.values());
        for (Enum<?>[] kind : kinds) {
            for (Enum<?> constant : kind) {
                String name = constant instanceof Reset reset ? name(reset) : constant.name();
                all.add(Map.of("name", name, "value", constant.ordinal()));
            }
        }
        return all;
    }

    private static String name(Reset reset) {
        return reset == Reset.NONE ? "NO_RESET" : reset.name();
    }

    private static List<Map<String, Object>> waits(String prefix, Settings values) {
        return WAITS.stream()
                .map(wait -> Map.<String, Object>of(
                        "name",
                        prefix + wait.name(),
                        "value",
                        values.ticks(wait.parameter()),
                        "key",
                        wait.parameter().key()))
                .toList();
    }

    private List<Map<String, Object>> build() {
        boolean busSide = settings.is(Parameter.CHARGER_SIDE, "bus-side");
        boolean relayAlone =
                settings.is(Parameter.CONTACTOR_POLES, "both") && settings.is(Parameter.PRECHARGE_BY, "relay");
        String poles = Parameter.CONTACTOR_POLES.key() + ", " + Parameter.PRECHARGE_BY.key();
        return List.of(
                built("CHARGER_NEEDS_BUS", busSide ? 1 : 0, Parameter.CHARGER_SIDE.key()),
                built("TESTS_NEGATIVE", relayAlone ? 1 : 0, poles));
    }

    private static Map<String, Object> built(String name, int value, String key) {
        return Map.of("name", name, "value", value, "key", key);
    }

    private static String steps(Predicate<Step> closed) {
        return Stream.of(Step.values())
                .filter(closed)
                .map(step -> "s == " + step)
                .collect(Collectors.joining(" || "));
    }

    private static List<Map<String, Object>> transitions() {
        return Stream.of(Transition.values())
                .map(row -> Map.<String, Object>of(
                        "name", row.name(),
                        "from", row.from.name(),
                        "to", row.to.name(),
                        "opens", row.kind == Transition.Kind.INTERLOCK && row.to == State.FAULT ? 1 : 0))
                .toList();
    }

    private List<Map<String, Object>> sequenced() {
        return Stream.of(Interlock.values())
                .filter(row -> !row.cause.isFact())
                .map(row -> Map.<String, Object>of(
                        "name", row.name(), "inPlace", without.contains(row) ? 0 : 1, "reset", name(row.reset)))
                .toList();
    }

    private static List<Map<String, Object>> facts() {
        return Stream.of(Fact.values())
                .map(fact -> Map.<String, Object>of("name", name(fact), "meaning", fact.meaning))
                .toList();
    }

    private static String name(Fact fact) {
        return fact.name().toLowerCase(Locale.ROOT);
    }

    private static List<Map<String, Object>> histories() {
        return Arrays.stream(HistoryPromise.values())
                .map(row -> Map.<String, Object>of("name", row.name(), "value", row.ordinal() + 1))
                .toList();
    }

    private Map<String, Object> state(State state) {
        String body = state.name().toLowerCase(Locale.ROOT);
        String there = body + "_asked";
        List<Map<String, Object>> rows = Stream.of(Interlock.values())
                .filter(row -> row.cause.isFact() && row.response != Response.WARN)
                .filter(row -> row.where.contains(state) && !without.contains(row))
                .map(row -> Map.<String, Object>of(
                        "ask", row.cause.value() == 1 ? "WHEN" : "UNLESS",
                        "fact", name(row.cause.fact()),
                        "does", row.response.name(),
                        "until", name(row.reset),
                        "there", there,
                        "id", row.id()))
                .toList();
        return Map.of("name", state.name(), "rows", rows, "body", body, "there", there);
    }

    /** A name that a person gave, safe within a comment. */
    private static String comment(String words) {
        return words.replace("*/", "* /").replaceAll("\\p{Cntrl}", " ").replace("\\", "/");
    }

    private static String template() {
        try (InputStream in = PromelaModel.class.getResourceAsStream("logic.pml")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read logic.pml beside " + PromelaModel.class.getName(), e);
        }
    }
}
