package sprag.bench.scenario;

import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import sprag.bench.cli.Nearest;
import sprag.bench.loop.trace.Channel;
import sprag.bench.loop.trace.Channels;
import sprag.bench.vehicle.Section;

/** Turns the names in a scenario into what they stand for, and notes those that stand for nothing. */
final class Names {
    private static final double NO_LIMIT = Double.POSITIVE_INFINITY;
    private static final String RISK = "never be seen";

    private final Channels channels;
    private final Set<String> steps = new TreeSet<>();

    Names(Channels channels) {
        this.channels = channels;
    }

    /** Makes a step known, false when its name is taken. */
    boolean addStep(String name) {
        return steps.add(name);
    }

    /** What an expectation is about: exactly one of five keys. Null when wrong; the problem is noted. */
    Condition subject(Section section) {
        String key = oneOf(section, List.of("state", "signal", "output", "quantity", "interlock"), true);
        if (key == null) {
            return null;
        }
        if (key.equals("state") || key.equals("interlock")) {
            refuse(section, List.of("is", "at_least", "at_most"), "goes with signal, output or quantity");
            return key.equals("state") ? state(section, key) : interlock(section, key);
        }
        int index = column(section, key, source(key));
        double[] limits = limits(section, key);
        return index < 0 || limits == null ? null : band(index, limits[0], limits[1]);
    }

    /** The moment from which times count: at most one of the keys; the start when there is none. */
    Anchor anchor(Section section) {
        List<String> keys =
                List.of("after", "after_state", "after_interlock", "after_signal", "after_output", "after_quantity");
        String key = oneOf(section, keys, false);
        boolean crossing = key != null && keys.indexOf(key) > 2;
        if (!crossing) {
            refuse(section, List.of("rises_to", "falls_to"), "goes with after_signal, after_output or after_quantity");
        }
        if (key == null) {
            refuse(section, List.of("not_before_s"), "goes with after_state, after_interlock or another after_... key");
            return new Anchor.Start();
        }
        if (key.equals("after")) {
            refuse(section, List.of("not_before_s"), "does not go with after");
            return new Anchor.AfterStep(step(section, key));
        }
        Condition condition = key.equals("after_state")
                ? state(section, key)
                : key.equals("after_interlock") ? interlock(section, key) : crossing(section, key);
        long notBeforeMs = millis(section, "not_before_s", 0);
        return condition == null ? new Anchor.Start() : new Anchor.Begins(condition, notBeforeMs);
    }

    /** The ticks that count: at most one of the keys; null for every tick. */
    Condition during(Section section) {
        String key = oneOf(section, List.of("while_state", "while_interlock", "while_on"), false);
        if (key == null) {
            return null;
        }
        if (!key.equals("while_on")) {
            return key.equals("while_state") ? state(section, key) : interlock(section, key);
        }
        String name = section.text(key, "");
        for (Channel.Source source : Channel.Source.values()) {
            int index = channels.indexOf(source, name);
            if (index >= 0 && channels.all().get(index).isSwitch()) {
                return band(index, 1, 1);
            }
        }
        Set<String> switches = new TreeSet<>();
        channels.all().stream().filter(Channel::isSwitch).forEach(c -> switches.add(c.key()));
        unknown(section, key, name, "switch", switches);
        return null;
    }

    private Condition crossing(Section section, String key) {
        int index = column(section, key, source(key.substring("after_".length())));
        String way = oneOf(section, List.of("rises_to", "falls_to"), true);
        if (way == null || index < 0) {
            return null;
        }
        double limit = section.number(way, Double.NaN, -1e9, 1e9, RISK);
        return way.equals("rises_to") ? band(index, limit, NO_LIMIT) : band(index, -NO_LIMIT, limit);
    }

    private double[] limits(Section section, String key) {
        boolean exact = section.has("is");
        boolean least = section.has("at_least");
        boolean most = section.has("at_most");
        if (exact && (least || most)) {
            section.note(
                    "is", "stands beside at_least or at_most", "one of them", "", "Keep either \"is\" or the limits.");
            return null;
        }
        if (!exact && !least && !most) {
            section.note(
                    key,
                    "has no limit",
                    "is, at_least or at_most",
                    "",
                    "Say what the value must be: is, at_least, at_most.");
            return null;
        }
        if (exact) {
            double value = number(section, "is");
            return new double[] {value, value};
        }
        double low = least ? number(section, "at_least") : -NO_LIMIT;
        double high = most ? number(section, "at_most") : NO_LIMIT;
        if (low > high) {
            section.note("at_least", "is more than at_most", "less than at_most", "never hold", "Exchange the two.");
            return null;
        }
        return new double[] {low, high};
    }

    private static double number(Section section, String key) {
        return section.number(key, Double.NaN, -1e9, 1e9, RISK);
    }

    private Condition band(int index, double low, double high) {
        return new Condition.Band(index, channels.all().get(index), low, high);
    }

    private Condition state(Section section, String key) {
        int index = named(section, key, "state", channels.states());
        return index < 0 ? null : new Condition.InState(index, channels.states().get(index));
    }

    private Condition interlock(Section section, String key) {
        int index = named(section, key, "interlock", channels.interlocks());
        return index < 0
                ? null
                : new Condition.Acting(index, channels.interlocks().get(index));
    }

    /** The place of a name in a list; {@code lv-low}, {@code LV_LOW} and {@code lv_low} are one name. -1, noted, for none. */
    private static int named(Section section, String key, String kind, List<String> known) {
        String name = section.text(key, "");
        List<String> plain = known.stream().map(Names::plain).toList();
        int index = plain.indexOf(plain(name));
        if (index < 0) {
            String meant = Nearest.to(plain(name), plain)
                    .map(near -> known.get(plain.indexOf(near)))
                    .orElse(name);
            section.note(key, "= \"" + name + "\" is no " + kind, "a known " + kind, "", Nearest.hint(meant, known));
        }
        return index;
    }

    private static String plain(String name) {
        return name.toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private int column(Section section, String key, Channel.Source source) {
        String name = section.text(key, "");
        int index = channels.indexOf(source, name);
        if (index < 0) {
            unknown(section, key, name, source.key(), channels.keys(source));
        }
        return index;
    }

    private String step(Section section, String key) {
        String name = section.text(key, "");
        if (!steps.contains(name)) {
            unknown(section, key, name, "step above this one", steps);
        }
        return name;
    }

    static Channel.Source source(String key) {
        return switch (key) {
            case "signal" -> Channel.Source.SIGNAL;
            case "output" -> Channel.Source.OUTPUT;
            default -> Channel.Source.QUANTITY;
        };
    }

    static void unknown(Section section, String key, String name, String kind, Collection<String> known) {
        section.note(key, "= \"" + name + "\" is no " + kind, "a known " + kind, "", Nearest.hint(name, known));
    }

    /** A time given in seconds. */
    static long millis(Section section, String key, double fallbackS) {
        double seconds = section.number(key, fallbackS, 0, 200_000, "lie outside any run");
        return Double.isNaN(seconds) ? 0 : Math.round(seconds * 1000);
    }

    /** The one of several keys that is written; null, and a problem, when there are more or a needed one is missing. */
    static String oneOf(Section section, List<String> keys, boolean needed) {
        List<String> written = keys.stream().filter(section::has).toList();
        if (written.size() > 1) {
            section.note(
                    written.get(1), "stands beside " + written.get(0), "only one of them", "", "Keep one of the two.");
        } else if (written.isEmpty() && needed) {
            section.note("", "has none of " + String.join(", ", keys), "exactly one of them", "", "Add one of them.");
        }
        return written.size() == 1 ? written.get(0) : null;
    }

    static void refuse(Section section, List<String> keys, String why) {
        keys.stream().filter(section::has).forEach(key -> section.note(key, why, "", "have no effect", "Remove it."));
    }
}
