package sprag.bench.loop.trace;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;

/** The columns of a trace, with the names of the states and the interlocks. Immutable; the same for every vehicle. */
public final class Channels {
    /**
     * An interlock, as far as a trace tells of it.
     *
     * @param cause what sets it off, a clause
     * @param response what it does, a clause that follows its name
     * @param why why this response, a clause
     * @param quiet whether it only says that something is missing for a start
     * @param awaited what a start waits for then, a clause; empty when the cause only has to go
     */
    public record Rule(String name, String cause, String response, String why, boolean quiet, String awaited) {}

    private final List<Channel> all;
    private final List<String> states;
    private final List<String> interlocks;
    private final List<Rule> rules;
    private final Map<Channel.Source, Map<String, Integer>> index = new EnumMap<>(Channel.Source.class);
    private final int[] powerSwitches;

    /** Makes a set of columns.
     *
     * @param all the columns, in the order of {@link Frame#value}
     * @param states the names of the states, in the order of {@link Frame#state}
     * @param rules the interlocks, in the order of {@link Frame#acting}
     */
    public Channels(List<Channel> all, List<String> states, List<Rule> rules) {
        this.all = List.copyOf(all);
        this.states = List.copyOf(states);
        this.rules = List.copyOf(rules);
        this.interlocks = rules.stream().map(Rule::name).toList();
        for (Channel.Source source : Channel.Source.values()) {
            index.put(source, new LinkedHashMap<>());
        }
        for (int i = 0; i < this.all.size(); i++) {
            Channel channel = this.all.get(i);
            Integer twin = index.get(channel.source()).put(channel.key(), i);
            if (twin != null) {
                throw new IllegalArgumentException("two columns are called " + channel.column());
            }
        }
        this.powerSwitches = IntStream.range(0, this.all.size())
                .filter(i -> this.all.get(i).switchesPower())
                .toArray();
    }

    /** The switched outputs that move power: contactors, relays, enables, pumps; no lamps. */
    public int[] powerSwitches() {
        return powerSwitches.clone();
    }

    /** All columns. In the order of {@link Frame#value}. */
    public List<Channel> all() {
        return all;
    }

    /** The names of the states. In the order of {@link Frame#state}. */
    public List<String> states() {
        return states;
    }

    /** The names of the interlocks. In the order of {@link Frame#acting}. */
    public List<String> interlocks() {
        return interlocks;
    }

    /** What the interlocks do. In the order of {@link Frame#acting}. */
    public List<Rule> rules() {
        return rules;
    }

    /** The place of a column. Returns its index, -1 when there is none of that name. */
    public int indexOf(Channel.Source source, String key) {
        return index.get(source).getOrDefault(key, -1);
    }

    /** The names that a source has.
     *
     * @param source where the columns come from
     */
    public Set<String> keys(Channel.Source source) {
        return index.get(source).keySet();
    }

    /**
     * Whether the state, an interlock or a switched output that moves power changes between two frames. At most ticks
     * of a long run only quantities do, and what looks at every tick has little to do there. Returns true when they
     * differ in one of these.
     */
    public boolean turns(Frame before, Frame after) {
        if (after.state != before.state || !Arrays.equals(after.acting, before.acting)) {
            return true;
        }
        for (int i : powerSwitches) {
            if (after.value[i] != before.value[i]) {
                return true;
            }
        }
        return false;
    }

    /** A frame with room for these columns. */
    public Frame newFrame() {
        return new Frame(all.size(), interlocks.size());
    }
}
