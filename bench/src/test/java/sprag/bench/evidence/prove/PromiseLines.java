package sprag.bench.evidence.prove;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** On which line of a model for SPIN which promise is stated. */
final class PromiseLines {
    private static final Pattern STATED = Pattern.compile(
            "^ *(?:PROMISE|LATCH|WITHIN|FIRST|SERVICED)\\(([A-Z0-9_]+),|assert\\(false\\) /\\* ([A-Z_]+) \\*/");

    private PromiseLines() {}

    /** The promise by the number of its line, counted from 1. */
    static Map<Integer, String> of(String model) {
        Map<Integer, String> names = new TreeMap<>();
        List<String> lines = model.lines().toList();
        for (int i = 0; i < lines.size(); i++) {
            Matcher stated = STATED.matcher(lines.get(i));
            if (stated.find()) {
                names.put(i + 1, stated.group(1) != null ? stated.group(1) : stated.group(2));
            }
        }
        return names;
    }
}
