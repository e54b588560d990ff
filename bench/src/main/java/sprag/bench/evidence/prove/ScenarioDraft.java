package sprag.bench.evidence.prove;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.StringJoiner;
import java.util.function.BooleanSupplier;
import java.util.stream.Collectors;
import sprag.bench.cli.Wrap;
import sprag.bench.loop.TakenOut;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.TorquePermission;

/**
 * A story as a scenario for {@code run}: the same causes, brought about on the simulated car.
 *
 * <p>Facts that are causes become levers and faults. Facts that follow by themselves on the car (the bus charges, the current
 * falls) are left to it, so that the run takes its own time between the steps. What cannot be brought about is named in the
 * file.
 */
final class ScenarioDraft {
    /** What is done on the car so that a fact has a value: a lever's position, or a fault. */
    private static final Map<Fact, List<String>> ENACTED = new EnumMap<>(Fact.class);

    static {
        // @formatter:off
        // fact                                  not true                     true
        enact(Fact.KEY_ON,                      "key = 0",                   "key = 1");
        enact(Fact.START_REQUESTED,             "start = 0",                 "start = 1");
        enact(Fact.SERVICE_RESET,               "service_reset = 0",         "service_reset = 1");
        enact(Fact.DIRECTION,                   "direction = 0",             "direction = 1", "direction = -1");
        enact(Fact.BRAKE_PRESSED,               "brake = 0",                 "brake = 0.3");
        enact(Fact.PEDAL_RELEASED,              "pedal = 0.5",               "pedal = 0");
        enact(Fact.STANDSTILL,                  "speed_kph = 20",            "speed_kph = 0");
        enact(Fact.PLUG_SEEN,                   "plug = 0",                  "plug = 1");
        enact(Fact.CHARGE_OFFERED,              "station_on = 0",            "station_on = 1");
        enact(Fact.PLUG_WANTED,                 "start = 0",                 "start = 1");
        enact(Fact.CHARGE_DUE,                  "soc = 1",                   "soc = 0.5");
        enact(Fact.CUT_LOOP_OPEN,               "cut_loop = 1",              "cut_loop = 0");
        enact(Fact.CRASH_SEEN,                  "crash_loop = 1",            "crash_loop = 0");
        enact(Fact.COVER_LOOP_OPEN,             "cover_loop = 1",            "cover_loop = 0");
        enact(Fact.DISCHARGE_WITHDRAWN,         "discharge_permit = 1",      "discharge_permit = 0");
        enact(Fact.CHARGE_WITHDRAWN,            "charge_permit = 1",         "charge_permit = 0");
        enact(Fact.PACK_OVERHEATED,             "pack_temp_c = 20",          "pack_temp_c = 80");
        enact(Fact.PACK_TOO_COLD,               "pack_temp_c = 20",          "pack_temp_c = -20");
        enact(Fact.MOTOR_OVERHEATED,            "motor_temp_c = 20",         "motor_temp_c = 200");
        enact(Fact.INVERTER_OVERHEATED,         "inverter_temp_c = 20",      "inverter_temp_c = 120");
        enact(Fact.COOLANT_OVERHEATED,          "coolant_temp_c = 20",       "coolant_temp_c = 110");
        enact(Fact.CHARGER_OVERHEATED,          "charger_temp_c = 20",       "charger_temp_c = 110");
        enact(Fact.NEGATIVE_WELDED,             "clear",                     "negative_contactor.welded");
        enact(Fact.POSITIVE_WELDED,             "clear",                     "positive_contactor.welded");
        enact(Fact.PRECHARGE_WELDED,            "clear",                     "precharge_relay.welded");
        enact(Fact.LV_LOST,                     "clear",                     "lv_supply.dip");
        enact(Fact.LINK_LOST,                   "clear",                     "link.lost");
        enact(Fact.READINGS_LOST,               "clear",                     "pack_voltage_v.stale");
        enact(Fact.CELL_OVERVOLTAGE,            "clear",                     "cell.high");
        enact(Fact.CELL_UNDERVOLTAGE,           "clear",                     "cell.low");
        enact(Fact.MONITOR_SILENT,              "clear",                     "battery_monitor.silent");
        enact(Fact.ISOLATION_LOW,               "clear",                     "isolation.low");
        enact(Fact.PEDAL_OUT_OF_RANGE,          "clear",                     "pedal_a_v.short_low");
        enact(Fact.SPEED_LOST,                  "clear",                     "motor_speed_rpm.stale");
        enact(Fact.SPEED_DOUBTED,               "clear",                     "motor_speed_rpm.open");
        enact(Fact.INVERTER_FAULTED,            "clear",                     "inverter.tripped");
        enact(Fact.INVERTER_NOT_READY,          "clear",                     "inverter.not_ready");
        enact(Fact.TORQUE_UNASKED,              "clear",                     "inverter.runs_on");
        enact(Fact.BUS_LOST,                    "clear",                     "pack_fuse.blown");
        enact(Fact.PILOT_INVALID,               "clear",                     "pilot.diode_shorted");
        // @formatter:on
    }

    /** What a file says that the car shows. */
    static final String SHOWN = "The simulated car shows it: this file fails there";

    /** What a file says that was not played. */
    static final String UNPLAYED =
            "It was not played on the simulated car, because \"sprag prove\" was interrupted. What the car shows is not known.";

    /** On the car a cause has to last before it counts, and what follows takes its time: the first that shows it is taken. */
    private static final List<String> SETTLE_S = List.of("0", "0.3", "1", "5");

    private static final int LEAST_S = 12;
    private static final int TICKS_PER_S = 100;
    private static final int WIDTH = 100;

    private final StringBuilder toml = new StringBuilder();
    private final List<String> left = new ArrayList<>();

    private final String settleS;

    private ScenarioDraft(String settleS) {
        this.settleS = settleS;
    }

    private static void enact(Fact fact, String... ways) {
        ENACTED.put(fact, List.of(ways));
    }

    /**
     * The file. Its first lines say on what it was found, and what comes of it on the simulated car.
     *
     * @param hurried asked before each play on the car; once it says so, the file is written without
     */
    static String of(Vehicle vehicle, Set<Interlock> without, Proof.Verdict verdict, BooleanSupplier hurried) {
        String silent = "";
        for (String settleS : SETTLE_S) {
            if (hurried.getAsBoolean()) {
                return silent.isEmpty() ? unplayed(vehicle, without, verdict) : silent;
            }
            ScenarioDraft draft = new ScenarioDraft(settleS);
            draft.write(verdict, verdict.story().orElseThrow());
            String seen = draft.onTheCar(vehicle, without);
            String file = draft.head(vehicle, without, seen) + draft.toml;
            if (seen.startsWith(SHOWN)) {
                return file;
            }
            silent = file;
        }
        return silent;
    }

    private static String unplayed(Vehicle vehicle, Set<Interlock> without, Proof.Verdict verdict) {
        ScenarioDraft draft = new ScenarioDraft(SETTLE_S.get(0));
        draft.write(verdict, verdict.story().orElseThrow());
        return draft.head(vehicle, without, UNPLAYED) + draft.toml;
    }

    private String head(Vehicle vehicle, Set<Interlock> without, String seen) {
        StringBuilder head = new StringBuilder();
        comment(head, "Found by \"sprag prove\" on " + vehicle.name() + TakenOut.words(without) + ".");
        comment(head, seen);
        String options =
                without.stream().map(row -> " --without " + row.id()).sorted().collect(Collectors.joining());
        head.append("#   sprag run ")
                .append(vehicle.argument())
                .append(" THIS-FILE")
                .append(options)
                .append('\n');
        if (!left.isEmpty()) {
            comment(head, "What the car does by itself is left to it. To bring these about, add faults:");
            left.forEach(what -> head.append("#   ").append(what).append('\n'));
        }
        return head.append('\n').toString();
    }

    private static void comment(StringBuilder head, String text) {
        Wrap.hanging("# ", "# ", text, WIDTH).forEach(line -> head.append(line).append('\n'));
    }

    /** What comes of it when it is played: seen, and not assumed. */
    private String onTheCar(Vehicle vehicle, Set<Interlock> without) {
        String file = toml.toString();
        if (CarReplay.passes(file, vehicle, without)) {
            boolean soundToo = without.isEmpty() || CarReplay.passes(file, vehicle, Set.of());
            return "The simulated car does not show it: this file passes there"
                    + (soundToo ? "." : ", and fails with every interlock in place.");
        }
        if (!without.isEmpty() && !CarReplay.passes(file, vehicle, Set.of())) {
            return "The simulated car does not show it: this file fails there with every interlock in place too.";
        }
        return without.isEmpty() ? SHOWN + "." : SHOWN + ", and it passes with every interlock in place.";
    }

    private void write(Proof.Verdict verdict, Counterexample story) {
        add("[about]");
        add("title = \"Counterexample to " + verdict.id() + "\"");
        add("why = \"Found by exploring every reachable state: " + verdict.explanation() + ".\"");
        add("hazards = [\"" + verdict.hazard() + "\"]");
        add("duration_s = " + (LEAST_S + 2 * story.ticks().size() / TICKS_PER_S));
        String last = steps(story);
        expect(story, last);
    }

    /** A step for each chapter in which something is done. A chapter that follows a change of state waits for that change. */
    private String steps(Counterexample story) {
        String before = "";
        String reached = "";
        for (Counterexample.Chapter chapter : story.chapters()) {
            String sets = sets(chapter);
            List<String> faults = faults(chapter);
            if (!sets.isEmpty() || !faults.isEmpty()) {
                String name = ProofWords.ticks(chapter) + " of the counterexample";
                when(name, before, reached);
                if (!sets.isEmpty()) {
                    add("set = { " + sets + " }");
                }
                faults.stream().limit(1).forEach(this::add);
                before = name;
                reached = "";
                for (String more : faults.subList(Math.min(1, faults.size()), faults.size())) {
                    before = name + ", " + more.replaceAll(".*\"(.*)\".*", "$1");
                    when(before, name, "");
                    add(more);
                }
            }
            boolean enters = chapter.shown().via() != null;
            reached = enters ? chapter.shown().state().name() : reached;
        }
        return before;
    }

    private void when(String name, String before, String reached) {
        add("");
        add("[[do]]");
        add("name = \"" + name + "\"");
        if (before.isEmpty()) {
            add("at_s = 1");
        } else if (reached.isEmpty()) {
            add("after = \"" + before + "\"");
            add("wait_s = 0.1");
        } else {
            add("after_state = \"" + reached + "\"");
            add("wait_s = 0.1");
        }
    }

    private String sets(Counterexample.Chapter chapter) {
        StringJoiner sets = new StringJoiner(", ");
        chapter.changed().forEach((fact, value) -> {
            List<String> ways = ENACTED.get(fact);
            if (ways == null) {
                left.add(ProofWords.fact(fact, value) + " in " + ProofWords.ticks(chapter) + " (" + fact.meaning + ")");
            } else if (ways.get(value).contains("=")) {
                sets.add(ways.get(value));
            }
        });
        return sets.toString();
    }

    private static List<String> faults(Counterexample.Chapter chapter) {
        List<String> faults = new ArrayList<>();
        chapter.changed().forEach((fact, value) -> {
            List<String> ways = ENACTED.get(fact);
            if (ways != null && !ways.get(value).contains("=")) {
                faults.add((value == 1 ? "fault" : "clear") + " = \"" + ways.get(1) + "\"");
            }
        });
        return faults;
    }

    /** What must not be seen: what Logic wrongly permitted in the last tick. */
    private void expect(Counterexample story, String last) {
        Counterexample.Tock end = story.ticks().get(story.ticks().size() - 1);
        String output = "negative_contactor";
        if (end.torque() != TorquePermission.NONE) {
            output = "torque_request_nm";
        } else if (end.charging()) {
            output = "charger_enable";
        } else if (end.step().positiveClosed) {
            output = "positive_contactor";
        } else if (end.step().prechargeClosed) {
            output = "precharge_relay";
        }
        add("");
        add("[[expect]]");
        add("text = \"" + output.toLowerCase(Locale.ROOT) + " is not asked for\"");
        add("output = \"" + output + "\"");
        add("is = 0");
        add("always = true");
        if (!last.isEmpty()) {
            add("after = \"" + last + "\"");
            add("from_s = " + settleS);
        }
    }

    private void add(String line) {
        toml.append(line).append('\n');
    }
}
