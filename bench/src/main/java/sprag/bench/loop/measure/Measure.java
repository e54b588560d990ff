package sprag.bench.loop.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import sprag.bench.cli.Nearest;
import sprag.bench.cli.Numbers;
import sprag.bench.loop.trace.Channel;
import sprag.bench.loop.trace.Channels;
import sprag.bench.loop.trace.Frame;
import sprag.supervisor.vocabulary.Unit;

/**
 * A question about a run, in one line:
 *
 * <pre>
 *  COLUMN at MOMENT                        car.bus_voltage_v at 3.7
 *  most COLUMN [from MOMENT] [to MOMENT]   most car.contactor_peak_a
 *  least COLUMN [from MOMENT] [to MOMENT]  least speed_kph from state RUNDOWN
 *  change COLUMN from MOMENT [to MOMENT]   change car.distance_m from interlock plug-present
 *  time MOMENT [from MOMENT]               time car.bus_voltage_v below 60 after step "key off" from step "key off"
 *  state at MOMENT                         state at end
 * </pre>
 *
 * <p>A moment is a number of seconds, {@code end}, {@code state NAME}, {@code interlock ID}, {@code step "NAME"} or {@code COLUMN
 * above|below NUMBER}, where the number may be a share of another column: {@code 63.2 % of car.pack_voltage_v}. {@code +
 * SECONDS} may follow, and {@code after MOMENT}: then it is the first time after that moment.
 */
public final class Measure {
    private static final String A_MOMENT = "a moment: seconds, end, state, interlock, step, or a column above or below";

    private enum Kind {
        AT,
        MOST,
        LEAST,
        CHANGE,
        TIME,
        STATE
    }

    private final Channels channels;
    private final Kind kind;
    private final int column;
    private final Moment from;
    private final Moment to;

    private Measure(Channels channels, Kind kind, int column, Moment from, Moment to) {
        this.channels = channels;
        this.kind = kind;
        this.column = column;
        this.from = from;
        this.to = to;
    }

    /** Reads a question.
     *
     * @throws IllegalArgumentException with a sentence that says what is wrong
     */
    public static Measure of(String phrase, Channels channels) {
        Words words = new Words(phrase);
        Measure measure = read(words, channels);
        if (!words.isEmpty()) {
            throw new IllegalArgumentException("\"" + words.peek() + "\" stands where the question should end.");
        }
        return measure;
    }

    private static Measure read(Words words, Channels channels) {
        if (words.take("time")) {
            Moment until = moment(words, channels);
            Moment since = words.take("from") ? moment(words, channels) : null;
            return new Measure(channels, Kind.TIME, -1, since, until);
        }
        if (words.take("state")) {
            expect(words, "at");
            return new Measure(channels, Kind.STATE, -1, null, moment(words, channels));
        }
        for (Kind kind : List.of(Kind.MOST, Kind.LEAST, Kind.CHANGE)) {
            if (words.take(kind.name().toLowerCase(java.util.Locale.ROOT))) {
                int column = column(words.next("a column"), channels);
                Moment since = words.take("from") ? moment(words, channels) : new Moment.Later(null, 0);
                Moment until = words.take("to") ? moment(words, channels) : new Moment.End();
                return new Measure(channels, kind, column, since, until);
            }
        }
        int column = column(words.next("a column, most, least, change, time or state"), channels);
        expect(words, "at");
        return new Measure(channels, Kind.AT, column, null, moment(words, channels));
    }

    private static void expect(Words words, String word) {
        if (!words.take(word)) {
            String seen = words.isEmpty() ? "The question ends" : "\"" + words.peek() + "\" stands";
            throw new IllegalArgumentException(seen + " where \"" + word + "\" was expected.");
        }
    }

    private static Moment moment(Words words, Channels channels) {
        Predicate<Frame> begins = null;
        Moment moment = null;
        String word = words.peek();
        if (word.matches("\\d[0-9.]*")) {
            moment = new Moment.Later(null, words.number(A_MOMENT) * 1000);
        } else if (words.take("end")) {
            moment = new Moment.End();
        } else if (words.take("step")) {
            moment = new Moment.Done(words.next("the name of a step in quotes"));
        } else {
            begins = words.isEmpty() ? null : condition(words, channels);
        }
        if (moment == null && begins == null) {
            throw new IllegalArgumentException("The question ends where " + A_MOMENT + " was expected.");
        }
        double waitMs = words.take("+") ? words.number("a number of seconds") * 1000 : 0;
        Moment after = words.take("after") ? moment(words, channels) : null;
        if (begins != null) {
            moment = new Moment.Begins(begins, after);
        } else if (after != null) {
            throw new IllegalArgumentException("\"after\" can follow only a state, an interlock or a limit.");
        }
        return waitMs == 0 ? moment : new Moment.Later(moment, waitMs);
    }

    private static Predicate<Frame> condition(Words words, Channels channels) {
        if (words.take("state")) {
            int state = named("state", words.next("a state"), channels.states());
            return frame -> frame.state == state;
        }
        if (words.take("interlock")) {
            int row = named("interlock", words.next("an interlock"), channels.interlocks());
            return frame -> frame.acting[row];
        }
        int column = column(words.next(A_MOMENT), channels);
        boolean above = words.take("above");
        if (!above) {
            expect(words, "below");
        }
        double limit = words.number("a number");
        if (words.take("%")) {
            expect(words, "of");
            int whole = column(words.next("a column"), channels);
            return above
                    ? frame -> frame.value[column] > limit / 100 * frame.value[whole]
                    : frame -> frame.value[column] < limit / 100 * frame.value[whole];
        }
        return above ? frame -> frame.value[column] > limit : frame -> frame.value[column] < limit;
    }

    private static int named(String kind, String name, List<String> all) {
        int index = all.indexOf(name);
        if (index < 0) {
            throw new IllegalArgumentException("There is no " + kind + " " + name + ". " + Nearest.hint(name, all));
        }
        return index;
    }

    private static int column(String name, Channels channels) {
        List<String> names = new ArrayList<>();
        for (Channel channel : channels.all()) {
            if (channel.column().equals(name)) {
                return channels.all().indexOf(channel);
            }
            names.add(channel.column());
        }
        throw new IllegalArgumentException("There is no column " + name + ". " + Nearest.hint(name, names));
    }

    /** What the run shows. */
    public Found in(Track track) {
        int last = to.row(track);
        int first = from == null ? -1 : from.row(track);
        if (last < 0 || from != null && first < 0) {
            return Found.NEVER;
        }
        Frame at = track.frame(last);
        return switch (kind) {
            case STATE -> new Found(Double.NaN, "", channels.states().get(at.state));
            case TIME -> seconds(at.timeMs - (first < 0 ? 0 : track.frame(first).timeMs));
            case AT -> value(at.value[column]);
            case CHANGE -> value(at.value[column] - track.frame(first).value[column]);
            case MOST, LEAST -> value(extreme(track, first, last));
        };
    }

    private double extreme(Track track, int first, int last) {
        double found = Double.NaN;
        for (int row = first; row <= last; row++) {
            double value = track.frame(row).value[column];
            boolean further = kind == Kind.MOST ? value > found : value < found;
            found = Double.isNaN(found) || further ? value : found;
        }
        return found;
    }

    private static Found seconds(long ms) {
        return new Found(ms / 1000.0, "s", Numbers.text(ms / 1000.0, "s"));
    }

    private Found value(double value) {
        Unit unit = channels.all().get(column).unit();
        return new Found(value, unit == Unit.SWITCH ? "" : Numbers.symbol(unit), Numbers.show(value, unit));
    }

    /**
     * The answer.
     *
     * @param value the number, NaN when there is none
     * @param symbol the unit's symbol, empty for none
     * @param words the answer as it is printed
     */
    public record Found(double value, String symbol, String words) {
        /** The moment that was asked for never came. */
        public static final Found NEVER = new Found(Double.NaN, "", "never");
    }
}
