package sprag.bench.loop.record;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * What a recording says of itself before the first tick: the vehicle's name and values, and which columns the ticks have.
 *
 * @param title what was run, for people
 * @param settings the values in force, exactly
 * @param without the interlocks that were taken out
 * @param signals the readings, in the order of their bits
 * @param outputs the commands, in the order of their bits
 */
record Heading(
        String vehicle,
        String title,
        Settings settings,
        Set<Interlock> without,
        List<Signal> signals,
        List<Output> outputs) {
    private static final ObjectMapper JSON = new ObjectMapper();

    static Heading of(String vehicle, String title, Settings settings, Set<Interlock> without) {
        return new Heading(vehicle, title, settings, without, List.of(Signal.values()), List.of(Output.values()));
    }

    byte[] toBytes() throws IOException {
        ObjectNode root = JSON.createObjectNode();
        root.put("vehicle", vehicle);
        root.put("title", title);
        ObjectNode values = root.putObject("values");
        for (Parameter parameter : Parameter.values()) {
            values.put(parameter.key(), settings.get(parameter));
        }
        Set<Signal> optional = EnumSet.noneOf(Signal.class);
        for (Signal signal : Signal.values()) {
            if (signal.fit != Signal.Fit.ALWAYS && signal.fit != Signal.Fit.PILOT && settings.has(signal)) {
                optional.add(signal);
            }
        }
        without.forEach(row -> root.withArray("without").add(row.id()));
        optional.forEach(signal -> root.withArray("fitted").add(signal.key()));
        signals.forEach(signal -> root.withArray("signals").add(signal.key()));
        outputs.forEach(output -> root.withArray("outputs").add(output.key()));
        return JSON.writeValueAsBytes(root);
    }

    static Heading parse(byte[] bytes) throws IOException {
        JsonNode root = JSON.readTree(bytes);
        double[] values = new double[Parameter.COUNT];
        for (Parameter parameter : Parameter.values()) {
            JsonNode value = root.path("values").path(parameter.key());
            values[parameter.ordinal()] = value.isNumber() ? value.asDouble() : Double.NaN;
        }
        Set<Signal> fitted = EnumSet.noneOf(Signal.class);
        for (JsonNode key : root.path("fitted")) {
            fitted.add(named(Signal.class, key.asText()));
        }
        List<Signal> signals = new ArrayList<>();
        root.path("signals").forEach(key -> signals.add(named(Signal.class, key.asText())));
        List<Output> outputs = new ArrayList<>();
        root.path("outputs").forEach(key -> outputs.add(named(Output.class, key.asText())));
        Set<Interlock> without = EnumSet.noneOf(Interlock.class);
        for (JsonNode id : root.path("without")) {
            without.add(Interlock.of(id.asText())
                    .orElseThrow(() -> new IOException("it was made without " + id + ", which this version has not")));
        }
        String vehicle = root.path("vehicle").asText();
        try {
            return new Heading(
                    vehicle, root.path("title").asText(), Settings.of(values, fitted), without, signals, outputs);
        } catch (IllegalArgumentException e) {
            throw new IOException("its vehicle does not suit this version: " + e.getMessage(), e);
        }
    }

    private static <E extends Enum<E>> E named(Class<E> kind, String key) {
        return Enum.valueOf(kind, key.toUpperCase(Locale.ROOT));
    }
}
