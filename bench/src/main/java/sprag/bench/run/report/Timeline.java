package sprag.bench.run.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import sprag.bench.cli.Numbers;
import sprag.bench.loop.trace.Channel;
import sprag.bench.loop.trace.Channels;
import sprag.bench.loop.trace.Frame;
import sprag.bench.scenario.Action;
import sprag.bench.scenario.ScenarioRun;
import sprag.bench.scenario.ScenarioStep;
import sprag.supervisor.vocabulary.State;

/** Tells a run as a list of things that happened: what was done, what the supervisor made of it, what it asked for. */
public final class Timeline implements ScenarioRun.Observer {
    private static final double TORQUE_NM = 0.5;
    private static final double TURNING_RPM = 20;
    private static final List<String> TORQUE = List.of(
            "no torque asked",
            "torque asked, forward",
            "torque asked, backward",
            "torque asked against the motion (regeneration)");
    private static final long SETTLED_MS = 200;
    /** Longer than a sound contactor takes to follow its coil, by any vehicle's file. */
    private static final long FOLLOWS_MS = 300;

    /** A contactor: the column that asks, the column of its true position, and since when the two differ. */
    private static final class Contactor {
        final String words;
        final int asked;
        final int closed;
        long sinceMs = NEVER;
        boolean told;

        Contactor(Channels channels, String output, String truth) {
            words = output.replace('_', ' ');
            asked = channels.indexOf(Channel.Source.OUTPUT, output);
            closed = channels.indexOf(Channel.Source.QUANTITY, truth);
        }
    }

    private static final long NEVER = -1;
    private static final int MOST = 2_000;

    private final Channels channels;
    private final List<Entry> entries = new ArrayList<>();
    private final List<Acting> acted = new ArrayList<>();
    private final Acting[] open;
    private final Frame last;
    private final int[] switches;
    private final List<Contactor> contactors;
    private final int torqueColumn;
    private final int speedColumn;
    private final int[] shown;
    private boolean started;
    private long lastMs;
    private int torqueTold;
    private int torqueSeen;
    private long torqueSinceMs;
    private long left;

    /**
     * How long an interlock acted at one time.
     *
     * @param toMs up to here, this included
     * @param lasting whether it still acted when the run ended
     */
    public record Acted(Channels.Rule rule, long fromMs, long toMs, boolean lasting) {}

    private static final class Acting {
        final int index;
        final long fromMs;
        long toMs;
        boolean lasting = true;

        Acting(int index, long fromMs) {
            this.index = index;
            this.fromMs = fromMs;
        }
    }

    /** Starts with nothing told. */
    public Timeline(Channels channels) {
        this.channels = channels;
        this.last = channels.newFrame();
        this.switches = channels.powerSwitches();
        this.open = new Acting[channels.rules().size()];
        this.contactors = List.of(
                new Contactor(channels, "negative_contactor", "negative_closed"),
                new Contactor(channels, "precharge_relay", "precharge_closed"),
                new Contactor(channels, "positive_contactor", "positive_closed"));
        this.torqueColumn = channels.indexOf(Channel.Source.OUTPUT, "torque_request_nm");
        this.shown = new int[] {
            channels.indexOf(Channel.Source.QUANTITY, "bus_voltage_v"),
            channels.indexOf(Channel.Source.QUANTITY, "speed_kph")
        };
        this.speedColumn = channels.indexOf(Channel.Source.SIGNAL, "motor_speed_rpm");
    }

    /** Tells a step.
     *
     * @param timeMs when
     */
    public void done(ScenarioStep step, long timeMs) {
        String actions =
                String.join(", ", step.actions().stream().map(Action::words).toList());
        boolean isFault = step.actions().stream().anyMatch(action -> action instanceof Action.Fault);
        Entry.Kind kind = isFault ? Entry.Kind.FAULT : Entry.Kind.DONE;
        tell(timeMs, kind, step.name(), step.name().equals(actions) ? "" : actions);
    }

    @Override
    public void tick(Frame frame) {
        boolean turns = !started || channels.turns(last, frame);
        if (turns) {
            interlocks(frame);
            state(frame);
            commands(frame);
        }
        torque(frame);
        contactors.forEach(each -> follows(each, frame));
        if (turns) {
            last.copyFrom(frame);
            started = true;
        }
        lastMs = frame.timeMs;
    }

    private void state(Frame frame) {
        if (started && frame.state != last.state) {
            String to = channels.states().get(frame.state);
            add(new Entry(frame.timeMs, Entry.Kind.STATE, to, frame.why, condition(frame)));
        }
    }

    private void interlocks(Frame frame) {
        for (int i = 0; i < frame.acting.length; i++) {
            Channels.Rule rule = channels.rules().get(i);
            if (frame.acting[i] && open[i] == null) {
                open[i] = new Acting(i, frame.timeMs);
                acted.add(open[i]);
                tell(
                        frame.timeMs,
                        Entry.Kind.INTERLOCK,
                        told(rule, channels.states().get(started ? last.state : frame.state)),
                        "");
            } else if (!frame.acting[i] && open[i] != null) {
                open[i].toMs = lastMs;
                open[i].lasting = false;
                open[i] = null;
            }
        }
    }

    /** Before a start every interlock only refuses it, and in a fault it only refuses the reset. */
    private static String told(Channels.Rule rule, String state) {
        if (rule.quiet() && !rule.awaited().isEmpty()) {
            return "a start waits until " + rule.awaited();
        }
        boolean before = rule.quiet() || state.equals(State.IGNITION.name());
        String response = before ? "refuses a start" : state.equals(State.FAULT.name()) ? "acts" : rule.response();
        return rule.name() + " " + response + ": " + rule.cause();
    }

    private void commands(Frame frame) {
        List<String> changes = new ArrayList<>();
        for (int i : switches) {
            boolean on = frame.value[i] > 0;
            if (on != (started && last.value[i] > 0)) {
                changes.add(words(channels.all().get(i).key(), on));
            }
        }
        if (!changes.isEmpty()) {
            tell(frame.timeMs, Entry.Kind.COMMAND, String.join(", ", changes), "");
        }
    }

    private static String words(String key, boolean on) {
        boolean contact = key.endsWith("contactor") || key.endsWith("relay");
        String name = key.replace('_', ' ').replaceFirst(" enable$", "").replace("dcdc", "DC-DC converter");
        return name + (contact ? on ? " asked to close" : " asked to open" : on ? " on" : " off");
    }

    /** Tells that torque begins, ends or changes sides; not every dither around zero. */
    private void torque(Frame frame) {
        if (torqueColumn < 0) {
            return;
        }
        double torqueNm = frame.value[torqueColumn];
        double speedRpm = speedColumn < 0 ? 0 : frame.value[speedColumn];
        boolean braking = torqueNm * speedRpm < 0 && Math.abs(speedRpm) > TURNING_RPM;
        int seen = Math.abs(torqueNm) <= TORQUE_NM ? 0 : braking ? 3 : torqueNm > 0 ? 1 : 2;
        if (seen != torqueSeen) {
            torqueSeen = seen;
            torqueSinceMs = frame.timeMs;
        }
        boolean settled = frame.timeMs - torqueSinceMs >= SETTLED_MS || frame.state != last.state;
        if (torqueSeen != torqueTold && settled) {
            torqueTold = torqueSeen;
            tell(torqueSinceMs, Entry.Kind.COMMAND, TORQUE.get(seen), "");
        }
    }

    /** Tells of a contactor that does not do what it is asked, and of the end of that. */
    private void follows(Contactor each, Frame frame) {
        if (each.asked < 0 || each.closed < 0) {
            return;
        }
        boolean asked = frame.value[each.asked] > 0;
        if (asked == frame.value[each.closed] > 0) {
            if (each.told) {
                tell(frame.timeMs, Entry.Kind.SEEN, each.words + (asked ? " is closed now" : " is open now"), "");
            }
            each.sinceMs = NEVER;
            each.told = false;
        } else if (each.sinceMs == NEVER) {
            each.sinceMs = frame.timeMs;
        } else if (!each.told && frame.timeMs - each.sinceMs >= FOLLOWS_MS) {
            each.told = true;
            String stays = asked ? " stays open although asked to close" : " stays closed although asked to open";
            tell(frame.timeMs, Entry.Kind.SEEN, each.words + stays, condition(frame));
        }
    }

    /** How the car is when the state changes: what is on the bus and how fast it goes. */
    private String condition(Frame frame) {
        List<String> parts = new ArrayList<>();
        for (int column : shown) {
            if (column >= 0) {
                Channel channel = channels.all().get(column);
                String name = channel.key().startsWith("bus") ? "bus " : "";
                parts.add(name
                        + String.format(Locale.ROOT, "%.0f ", frame.value[column] + 0.0)
                        + Numbers.symbol(channel.unit()));
            }
        }
        return String.join(", ", parts);
    }

    private void tell(long timeMs, Entry.Kind kind, String text, String detail) {
        add(new Entry(timeMs, kind, "", text, detail));
    }

    private void add(Entry entry) {
        if (entries.size() < MOST) {
            entries.add(entry);
        } else {
            left++;
        }
    }

    /** What happened, in order. An interlock that acted for one tick and changed nothing is not worth a line. */
    public List<Entry> entries() {
        Set<Long> turns = entries.stream()
                .filter(e -> e.kind() == Entry.Kind.STATE)
                .map(Entry::timeMs)
                .collect(Collectors.toSet());
        Set<Long> flashes = acted.stream()
                .filter(a -> a.fromMs == a.toMs && !a.lasting && !turns.contains(a.fromMs))
                .map(a -> a.fromMs)
                .collect(Collectors.toSet());
        return entries.stream()
                .filter(e -> e.kind() != Entry.Kind.INTERLOCK || !flashes.contains(e.timeMs()))
                .sorted(Comparator.comparingLong(Entry::timeMs))
                .toList();
    }

    /** How many entries there was no room for. Returns a count, usually 0. */
    public long left() {
        return left;
    }

    /** The interlocks that acted, in the order they began. */
    public List<Acted> acted() {
        return acted.stream()
                .map(a -> new Acted(channels.rules().get(a.index), a.fromMs, a.lasting ? lastMs : a.toMs, a.lasting))
                .toList();
    }
}
