package sprag.bench.evidence.margin;

import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.TreeMap;
import sprag.bench.cli.InputFile;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.CarParameter;

/** Writes the scenario of one car, so that it can be played alone: the file of the scenario, and then what the car is made of. */
final class WorstCar {
    private static final int MOST_BYTES = 1 << 20;

    private WorstCar() {}

    /** The file's text.
     *
     * @param why what the car is kept for, one line
     */
    static String scenario(Scenario scenario, Fleet fleet, int car, String why) {
        StringBuilder text = new StringBuilder("# " + why.replaceAll("\\R", " ") + "\n");
        text.append(original(scenario));
        text.append(text.charAt(text.length() - 1) == '\n' ? "" : "\n");
        text.append(
                "\n# One car of the many that the tolerances allow. The supervisor is the one of the vehicle's file.\n");
        text.append("[car]\nseed = ").append(fleet.seed(car)).append("\n");
        Map<String, Map<String, Double>> sections = new TreeMap<>();
        for (Map.Entry<CarParameter, Double> each : fleet.rows(car).entrySet()) {
            String key = each.getKey().key();
            int dot = key.lastIndexOf('.');
            sections.computeIfAbsent(key.substring(0, dot), section -> new TreeMap<>())
                    .put(key.substring(dot + 1), each.getValue());
        }
        sections.forEach((section, rows) -> {
            text.append("\n[").append(section).append("]\n");
            rows.forEach(
                    (key, value) -> text.append(key).append(" = ").append(value).append("\n"));
        });
        return text.toString();
    }

    private static String original(Scenario scenario) {
        try {
            return new String(InputFile.bytes(scenario.file(), MOST_BYTES), StandardCharsets.UTF_8)
                    .replaceFirst("^\uFEFF", "");
        } catch (InputFile.Refused e) {
            throw new IllegalStateException(scenario.file() + " was read a moment ago and now " + e.getMessage(), e);
        }
    }
}
