package sprag.bench.review.sizing;

import static sprag.bench.review.finding.Weight.CAUTION;
import static sprag.bench.review.finding.Weight.STOP;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import sprag.bench.bus.AnswerTimes;
import sprag.bench.bus.AnswerTimes.Load;
import sprag.bench.bus.BusFile;
import sprag.bench.bus.BusFile.Node;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.board.InputPin;
import sprag.hal.board.OutputPin;
import sprag.hal.board.Scale;
import sprag.hal.bus.BusField;
import sprag.hal.bus.BusMessage;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/** The data bus: is there time for every message, do its fields hold the values, are the wires ended. */
public final class BusCalculations {
    private static final double MOST_LOAD_PERCENT = 50;
    private static final double LEAST_OHM = 54;
    private static final double MOST_OHM = 66;
    private static final String DAVIS =
            "Davis, Burns, Bril, Lukkien (2007), Real-Time Systems 35, 239-272: worst-case response times on CAN";
    private static final String LENGTHS =
            "CiA 301, recommended lengths: 25 m at 1000 kbit/s, 100 at 500, 250 at 250, 500 at 125 (from memory; read"
                    + " it before you rely on it)";
    private static final String STUBS =
            "ISO 11898-2: 0.3 m at 1000 kbit/s (from memory); longer in proportion at lower speeds is common practice";

    private static final Map<Signal, Parameter> GREATEST = new EnumMap<>(Map.of(
            Signal.PACK_VOLTAGE_V, Parameter.PACK_MAX_V,
            Signal.BUS_VOLTAGE_V, Parameter.PACK_MAX_V,
            Signal.PACK_CURRENT_A, Parameter.PACK_DISCHARGE_MAX_A,
            Signal.MOTOR_SPEED_RPM, Parameter.MOTOR_MAX_RPM,
            Signal.CHARGER_1_CURRENT_A, Parameter.CHARGE_CURRENT_A,
            Signal.CHARGER_2_CURRENT_A, Parameter.CHARGE_CURRENT_A,
            Signal.CHARGER_3_CURRENT_A, Parameter.CHARGE_CURRENT_A,
            Signal.CHARGER_1_VOLTAGE_V, Parameter.PACK_MAX_V,
            Signal.CHARGER_2_VOLTAGE_V, Parameter.PACK_MAX_V,
            Signal.CHARGER_3_VOLTAGE_V, Parameter.PACK_MAX_V));
    private static final Map<Output, Parameter> GREATEST_ASKED = new EnumMap<>(Map.of(
            Output.TORQUE_REQUEST_NM, Parameter.DRIVE_TORQUE_NM,
            Output.CHARGE_CURRENT_LIMIT_A, Parameter.CHARGE_CURRENT_A,
            Output.CHARGER_1_LIMIT_A, Parameter.CHARGE_CURRENT_A,
            Output.CHARGER_2_LIMIT_A, Parameter.CHARGE_CURRENT_A,
            Output.CHARGER_3_LIMIT_A, Parameter.CHARGE_CURRENT_A,
            Output.CHARGE_VOLTAGE_LIMIT_V, Parameter.PACK_MAX_V));

    private static final Set<Output> DRIVES = EnumSet.of(Output.TORQUE_REQUEST_NM, Output.INVERTER_ENABLE);
    private static final Set<Output> CHARGES = EnumSet.of(
            Output.CHARGER_ENABLE,
            Output.CHARGE_CURRENT_LIMIT_A,
            Output.CHARGER_1_LIMIT_A,
            Output.CHARGER_2_LIMIT_A,
            Output.CHARGER_3_LIMIT_A);

    private final Vehicle vehicle;
    private final BusFile bus;
    private final List<Calculation> all = new ArrayList<>();

    private BusCalculations(Vehicle vehicle, BusFile bus) {
        this.vehicle = vehicle;
        this.bus = bus;
    }

    /** Works out everything about a vehicle's bus. */
    public static List<Calculation> of(Vehicle vehicle, BusFile bus) {
        BusCalculations calculations = new BusCalculations(vehicle, bus);
        calculations.times();
        calculations.silence();
        calculations.wires();
        calculations.ranges();
        calculations.unused();
        return calculations.all;
    }

    private Calculation begin(String id, String title, String where, int line) {
        Calculation made =
                new Calculation(vehicle, id, title).at(bus.file().getFileName().toString(), where, line);
        all.add(made);
        return made;
    }

    private void times() {
        List<Load> loads = AnswerTimes.loads(bus);
        int kbit = bus.map().bitRateKbit();
        AnswerTimes times = new AnswerTimes(loads, 1.0 / kbit);
        Calculation load = begin("bus-load", "the load of the data bus", "bus.bit_rate_kbit", 0);
        load.in("messages", loads.size(), "");
        load.in("bit_rate", kbit, "kbit/s");
        load.formula("sum of the longest frame over the period, over all messages")
                .gives(100 * times.utilisation(), "%")
                .atMost("half of the time", MOST_LOAD_PERCENT)
                .otherwise(
                        CAUTION, "repeated frames after an error find no room, and late messages make signals unknown")
                .source("common practice; frame lengths of Davis et al. (2007), eqs. 1 to 3");
        for (int i = 0; i < loads.size(); i++) {
            answer(
                    bus.map().messages().get(i),
                    loads.get(i),
                    times.worstMs(loads.get(i)),
                    bus.lines().get(i));
        }
        order();
    }

    /** A received message must arrive within its time-out even when the one before it came early; a sent one, before its next. */
    private void answer(BusMessage message, Load load, double worstMs, int line) {
        Calculation made = begin(
                "bus-answer-" + message.name().replace('_', '-'),
                "the longest time between two frames of " + message.name(),
                "message " + message.name(),
                line);
        made.in("period", message.periodMs(), "ms");
        made.in("frame", load.lengthMs(), "ms");
        made.in("queued_late", load.jitterMs(), "ms");
        made.in("worst_answer", worstMs, "ms");
        made.formula("period + worst answering time - length of a frame")
                .gives(message.periodMs() + worstMs - load.lengthMs(), "ms")
                .atMost("its time-out", message.timeoutMs())
                .otherwise(STOP, "what it carries becomes unknown in a sound car")
                .source(DAVIS);
        if (!message.isSent() && message.fields().stream().anyMatch(f -> f.pin() != BusField.NO_PIN)) {
            Calculation stale = begin(
                    "bus-stale-" + message.name().replace('_', '-'),
                    "the greatest age of the signals of " + message.name(),
                    "message " + message.name(),
                    line);
            double tickMs = stale.in(Parameter.LOOP_TICK_MS);
            stale.in("period", message.periodMs(), "ms");
            stale.in("worst_answer", worstMs, "ms");
            stale.formula("period + worst answering time + one tick")
                    .gives(message.periodMs() + worstMs + tickMs, "ms")
                    .atMost(Parameter.LOOP_STALE_MS.key(), stale.in(Parameter.LOOP_STALE_MS))
                    .otherwise(STOP, "the loop counts them as unknown in a sound car")
                    .source(DAVIS);
        }
    }

    /** The message that is sent most often should win the wires. */
    private void order() {
        List<BusMessage> messages = bus.map().messages();
        List<Load> loads = AnswerTimes.loads(bus);
        int upsideDown = 0;
        String first = "";
        for (int a = 0; a < loads.size(); a++) {
            for (int b = 0; b < loads.size(); b++) {
                if (loads.get(a).urgency() < loads.get(b).urgency()
                        && loads.get(a).periodMs() > loads.get(b).periodMs()) {
                    upsideDown++;
                    first = first.isEmpty()
                            ? " (" + messages.get(a).name() + " before "
                                    + messages.get(b).name() + ")"
                            : first;
                }
            }
        }
        begin("bus-order", "the number of pairs in which the slower message has the lower identifier" + first, "id", 0)
                .formula("pairs of messages, the lower identifier with the longer period")
                .gives(upsideDown, "")
                .atMost("none", 0)
                .otherwise(CAUTION, "a message that can wait delays one that cannot")
                .source("identifiers by urgency: rate-monotonic order, common practice");
    }

    /** Whoever hears nothing goes on with the last command until the time-out of the message. */
    private void silence() {
        for (int m = 0; m < bus.map().messages().size(); m++) {
            BusMessage message = bus.map().messages().get(m);
            if (carries(message, DRIVES)) {
                goesOn("bus-goes-on-", message, m, Parameter.BUDGET_TORQUE_MS)
                        .otherwise(STOP, "the torque goes on for longer than the car may move unasked");
            }
            if (carries(message, CHARGES)) {
                goesOn("bus-goes-on-", message, m, Parameter.BUDGET_PACK_MS)
                        .otherwise(CAUTION, "only a contactor on a wire cuts the charge in time");
                goesOn("bus-silent-", message, m, Parameter.CHARGER_SILENT_MS)
                        .otherwise(STOP, "the other chargers take over its share while it still delivers");
            }
        }
    }

    private boolean carries(BusMessage message, Set<Output> outputs) {
        return message.isSent()
                && message.fields().stream()
                        .anyMatch(field -> field.pin() != BusField.NO_PIN
                                && outputs.contains(bus.map()
                                        .pins()
                                        .outputs()
                                        .get(field.pin())
                                        .output()));
    }

    private Calculation goesOn(String id, BusMessage message, int index, Parameter most) {
        Calculation made = begin(
                id + message.name().replace('_', '-'),
                "how long its receiver goes on after the last " + message.name(),
                "message " + message.name(),
                bus.lines().get(index));
        return made.formula("its time-out, as the data sheet of the receiver gives it")
                .gives(message.timeoutMs(), "ms")
                .atMost(most.key(), made.in(most))
                .source("two values held against each other; no outside source is needed");
    }

    private void wires() {
        List<Node> ended =
                bus.nodes().stream().filter(n -> n.terminatorOhm() > 0).toList();
        if (!bus.nodes().isEmpty()) {
            double siemens =
                    ended.stream().mapToDouble(n -> 1 / n.terminatorOhm()).sum();
            Calculation most = begin("bus-terminators", "the resistance between the two wires", "node", 0);
            most.in("terminators", ended.size(), "");
            most.formula("all terminators side by side; two of 120 ohm make 60 ohm")
                    .gives(1 / siemens, "ohm")
                    .atMost("60 ohm and a tenth", MOST_OHM)
                    .otherwise(STOP, "a terminator is missing: frames echo at the open end")
                    .source("ISO 11898-2: two terminators of 120 ohm; the tenth is common practice");
            Calculation least = begin("bus-terminators-least", "the resistance between the two wires", "node", 0);
            least.in("terminators", ended.size(), "");
            least.formula("all terminators side by side")
                    .gives(1 / siemens, "ohm")
                    .atLeast("60 ohm less a tenth", LEAST_OHM)
                    .otherwise(STOP, "there is a terminator too many: the drivers reach too low a voltage")
                    .source("ISO 11898-2: two terminators of 120 ohm; the tenth is common practice");
        }
        for (Node node : bus.nodes()) {
            if (node.stubM() > 0) {
                begin(
                                "bus-stub-" + node.name().replace('_', '-'),
                                "the branch to " + node.name(),
                                "node " + node.name(),
                                node.line())
                        .formula("as written")
                        .gives(node.stubM(), "m")
                        .atMost(
                                "the longest branch at this speed",
                                0.3 * 1000 / bus.map().bitRateKbit())
                        .otherwise(CAUTION, "its open end echoes into the frames of others")
                        .source(STUBS);
            }
        }
        if (!Double.isNaN(bus.trunkM())) {
            begin("bus-trunk", "the length of the data bus", "bus.trunk_m", 0)
                    .formula("as written")
                    .gives(bus.trunkM(), "m")
                    .atMost(
                            "the longest at this speed",
                            bus.map().bitRateKbit() > 500
                                    ? 25
                                    : 50_000.0 / bus.map().bitRateKbit())
                    .otherwise(STOP, "a node at the far end answers a bit too late")
                    .source(LENGTHS);
        }
    }

    /** What the bus brings and the vehicle does not list is never read, and nobody would notice. */
    private void unused() {
        List<String> names = bus.map().pins().signals().stream()
                .filter(signal -> !vehicle.settings().has(signal))
                .map(Signal::key)
                .toList();
        String which = names.isEmpty() ? "" : " (" + String.join(", ", names) + ")";
        begin("bus-unused", "the number of signals of the data bus that the vehicle does not read" + which, "signal", 0)
                .formula("signals in the bus file that are neither in every vehicle nor in signals.fitted")
                .gives(names.size(), "")
                .atMost("none", 0)
                .otherwise(CAUTION, "the supervisor does not know what the device tells; add them to signals.fitted")
                .source("two files held against each other; no outside source is needed");
    }

    /** Each field must hold the greatest value that the vehicle can show or ask for. */
    private void ranges() {
        for (int m = 0; m < bus.map().messages().size(); m++) {
            BusMessage message = bus.map().messages().get(m);
            int line = bus.lines().get(m);
            for (BusField field : message.fields()) {
                if (field.pin() == BusField.NO_PIN) {
                    continue;
                }
                if (message.isSent()) {
                    OutputPin pin = bus.map().pins().outputs().get(field.pin());
                    range(message, field, pin.scale(), GREATEST_ASKED.get(pin.output()), line);
                } else {
                    InputPin pin = bus.map().pins().inputs().get(field.pin());
                    range(message, field, pin.scale(), GREATEST.get(pin.signal()), line);
                }
            }
        }
    }

    private void range(BusMessage message, BusField field, Scale scale, Parameter greatest, int line) {
        if (greatest == null) {
            return;
        }
        long counts = field.codes().unknownFrom() > 0 && !scale.signed()
                ? Math.min(scale.greatestCount(), field.codes().unknownFrom() - 1)
                : scale.greatestCount();
        Calculation made = begin(
                "bus-range-" + (message.name() + "-" + field.name()).replace('_', '-'),
                "the greatest value of " + message.name() + "." + field.name(),
                "message " + message.name(),
                line);
        made.in("factor", scale.perCount(), field.unit());
        made.in("counts", counts, "");
        made.formula("offset + factor x the greatest count that is no code")
                .gives(scale.offset() + scale.perCount() * counts, sprag.bench.cli.Numbers.symbol(greatest.unit()))
                .atLeast(greatest.key(), made.in(greatest))
                .otherwise(STOP, "the value that matters does not fit into the field")
                .source("two values held against each other; no outside source is needed");
    }
}
