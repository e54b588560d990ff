package sprag.bench.evidence.prove;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** A labelled transition system read back from its text form, knowing nothing of who wrote it. */
final class LabelledSystem {
    private static final Pattern HEAD = Pattern.compile("des ?\\((\\d+), (\\d+), (\\d+)\\)");
    private static final Pattern WAY = Pattern.compile("\\((\\d+), \"([^\"]*)\", (\\d+)\\)");

    record Way(String label, int to) {}

    final int first;
    final long ways;
    final List<List<Way>> from = new ArrayList<>();

    /** Reads the text. A line that is not of the form, a number of a state that is too large, or a wrong count is an error. */
    LabelledSystem(Stream<String> lines) {
        List<String> all = lines.toList();
        Matcher head = matched(HEAD, all.get(0));
        first = Integer.parseInt(head.group(1));
        ways = Long.parseLong(head.group(2));
        int states = Integer.parseInt(head.group(3));
        for (int i = 0; i < states; i++) {
            from.add(new ArrayList<>());
        }
        for (String line : all.subList(1, all.size())) {
            Matcher way = matched(WAY, line);
            int to = Integer.parseInt(way.group(3));
            from.get(to); // must be a state
            from.get(Integer.parseInt(way.group(1))).add(new Way(way.group(2), to));
        }
        if (ways != all.size() - 1) {
            throw new IllegalStateException(ways + " ways announced, " + (all.size() - 1) + " listed");
        }
    }

    private static Matcher matched(Pattern pattern, String line) {
        Matcher matcher = pattern.matcher(line);
        if (!matcher.matches()) {
            throw new IllegalStateException("not of the form " + pattern + ": " + line);
        }
        return matcher;
    }

    /** How many steps each state is away from the first; -1 for one that cannot be reached. */
    int[] distances() {
        int[] distance = new int[from.size()];
        Arrays.fill(distance, -1);
        distance[first] = 0;
        Deque<Integer> waiting = new ArrayDeque<>(List.of(first));
        while (!waiting.isEmpty()) {
            int state = waiting.remove();
            for (Way way : from.get(state)) {
                if (distance[way.to()] < 0) {
                    distance[way.to()] = distance[state] + 1;
                    waiting.add(way.to());
                }
            }
        }
        return distance;
    }

    /** What is said to break, with the length of the shortest way that breaks it. */
    Map<String, Integer> breaks() {
        Map<String, Integer> shortest = new TreeMap<>();
        int[] distance = distances();
        for (int state = 0; state < from.size(); state++) {
            for (Way way : from.get(state)) {
                if (way.label().startsWith("breaks ") && distance[state] >= 0) {
                    shortest.merge(way.label().substring("breaks ".length()), distance[state] + 1, Math::min);
                }
            }
        }
        return shortest;
    }
}
