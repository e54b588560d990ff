package sprag.bench.lesson;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.cli.Numbers;
import sprag.bench.loop.measure.Track;
import sprag.bench.loop.trace.Channels.Rule;
import sprag.bench.loop.trace.Frame;

/** What the supervisor remembers of a run: which interlocks began to act, and when. */
final class Memory {
    private Memory() {}

    /** One line for each interlock that began to act; those that only wait for a start are left out. */
    static List<String> of(Track track) {
        List<String> lines = new ArrayList<>();
        List<Rule> rules = track.channels().rules();
        Frame before = null;
        for (Frame frame : track.frames()) {
            for (int i = 0; i < rules.size(); i++) {
                boolean began = frame.acting[i] && (before == null || !before.acting[i]);
                if (began && !rules.get(i).quiet()) {
                    lines.add(Numbers.text(frame.timeS(), "s") + "  "
                            + rules.get(i).name() + ": " + rules.get(i).cause());
                }
            }
            before = frame;
        }
        return lines.isEmpty() ? List.of("No interlock has acted.") : lines;
    }
}
