package sprag.bench.panel.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import sprag.bench.car.FaultSpec;
import sprag.bench.car.Lever;
import sprag.bench.car.Quantity;
import sprag.bench.cli.Numbers;
import sprag.bench.hand.board.DecisiveReading;
import sprag.bench.loop.bus.BusFaults;
import sprag.bench.page.Cautions;
import sprag.bench.panel.bench.ControlLease;
import sprag.bench.panel.bench.FactSource;
import sprag.bench.panel.bench.FrameLayout;
import sprag.bench.panel.guide.DriverAct;
import sprag.bench.panel.guide.PanelWords;
import sprag.bench.panel.session.BoardLink;
import sprag.bench.panel.session.ForcedDevice;
import sprag.bench.panel.session.Source;
import sprag.bench.panel.session.Subject;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Reset;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;
import sprag.supervisor.vocabulary.TorquePermission;
import sprag.supervisor.vocabulary.Transition;
import sprag.supervisor.vocabulary.Unit;

/** Everything that does not change, told to a page once: the tables of the code, so that the page needs none of its own. */
final class Description {
    private static final ObjectMapper JSON = new ObjectMapper();

    private static final List<Parameter> TOLD = List.of(
            Parameter.PACK_MAX_V,
            Parameter.PACK_MIN_V,
            Parameter.PACK_NOMINAL_V,
            Parameter.BUS_DISCHARGED_V,
            Parameter.BUS_MAX_V,
            Parameter.PEDAL_A_RELEASED_V,
            Parameter.PEDAL_A_FULL_V,
            Parameter.PEDAL_B_RELEASED_V,
            Parameter.PEDAL_B_FULL_V,
            Parameter.REGEN_LEVELS,
            Parameter.CHARGER_COUNT,
            Parameter.LOOP_TICK_MS);

    private static final List<Parameter> CHOICES =
            List.of(Parameter.CHARGER_SIDE, Parameter.DCDC_SIDE, Parameter.MOTOR_KIND, Parameter.INLET_KIND);

    private Description() {}

    /** Describes one vehicle on the bench. */
    static String of(Subject subject, List<Scenario> scenarios) {
        Vehicle vehicle = subject.vehicle();
        BoardLink board = subject.board();
        ObjectNode all = JSON.createObjectNode();
        all.put("t", "hello").put("board", board != null);
        if (board != null) {
            ArrayNode driven = all.put("boardName", board.device().name()).putArray("boardDrives");
            board.device().drives().forEach(output -> driven.add(output.key()));
            ArrayNode invented = all.putArray("boardInvented");
            DecisiveReading.invented(vehicle.settings()::has, board.device().samples())
                    .forEach(invented::add);
            all.put(
                    "boardNeedsPackAbsent",
                    DecisiveReading.needsPackAbsent(
                            board.device().samples(), board.device().drives()));
        }
        all.put("wired", subject.wires() != null);
        vehicle(all.putObject("vehicle"), vehicle);
        layout(all.putObject("layout"));
        tables(all, vehicle);
        words(all);
        ArrayNode taken = all.putArray("without");
        subject.without().stream().map(Interlock::id).sorted().forEach(taken::add);
        interlocks(all.putArray("interlocks"), vehicle);
        pointers(all.putArray("pointers"));
        faults(all.putArray("faults"), subject);
        ArrayNode shelf = all.putArray("scenarios");
        for (Scenario scenario : scenarios) {
            shelf.addObject()
                    .put("name", scenario.name())
                    .put("title", scenario.about().title())
                    .put("why", scenario.about().why());
        }
        all.putObject("limits")
                .put("speakMs", ControlLease.SPEAK_MS)
                .put("silentMs", ControlLease.SILENT_MS)
                .put("answerMs", ControlLease.ANSWER_MS)
                .put("forcedMs", ForcedDevice.HELD_MS)
                .put("slowest", MessageReader.SLOWEST)
                .put("fastest", MessageReader.FASTEST);
        ArrayNode cautions = all.putArray("cautions");
        cautions.add(Cautions.STANDING);
        Cautions.RULES.forEach(cautions::add);
        return write(all);
    }

    private static void vehicle(ObjectNode node, Vehicle vehicle) {
        node.put("name", vehicle.name()).put("description", vehicle.description());
        ObjectNode values = node.putObject("values");
        TOLD.forEach(parameter -> values.put(parameter.key(), vehicle.get(parameter)));
        CHOICES.forEach(
                parameter -> values.put(parameter.key(), parameter.choices().get((int) vehicle.get(parameter))));
        values.put("heater", vehicle.get(CarParameter.WARMER_POWER_W) > 0);
        values.put("liquid", vehicle.is(CarParameter.THERMAL_COOLING, "liquid"));
    }

    private static void layout(ObjectNode node) {
        ArrayNode head = node.putArray("head");
        for (FrameLayout.Head field : FrameLayout.Head.values()) {
            head.add(field.key());
        }
        node.put("length", FrameLayout.LENGTH);
        ObjectNode sections = node.putObject("sections");
        for (FrameLayout.Section section : FrameLayout.Section.values()) {
            sections.put(section.key(), section.offset());
        }
    }

    private static void tables(ObjectNode all, Vehicle vehicle) {
        ArrayNode signals = all.putArray("signals");
        for (Signal s : Signal.values()) {
            row(signals.addObject(), s.key(), s.unit, s.meaning)
                    .put("min", s.min)
                    .put("max", s.max)
                    .put("fitted", vehicle.settings().has(s));
        }
        ArrayNode outputs = all.putArray("outputs");
        for (Output o : Output.values()) {
            row(outputs.addObject(), o.key(), o.unit, o.meaning);
        }
        ArrayNode quantities = all.putArray("quantities");
        for (Quantity q : Quantity.values()) {
            row(quantities.addObject(), q.key(), q.unit, q.meaning).put("group", q.group.name());
        }
        ArrayNode levers = all.putArray("levers");
        for (Lever l : Lever.values()) {
            row(levers.addObject(), l.key(), l.unit, l.meaning)
                    .put("min", l.min)
                    .put("max", l.max)
                    .put("initial", l == Lever.AMBIENT_C ? vehicle.get(CarParameter.DAY_AMBIENT_C) : l.initial)
                    .put("once", l.way == Lever.Way.ONCE);
        }
    }

    private static ObjectNode row(ObjectNode node, String key, Unit unit, String meaning) {
        return node.put("key", key)
                .put("unit", Numbers.symbol(unit))
                .put("isSwitch", unit == Unit.SWITCH)
                .put("meaning", meaning);
    }

    private static void words(ObjectNode all) {
        ArrayNode states = all.putArray("states");
        for (State state : State.values()) {
            ObjectNode node = states.addObject().put("name", state.name()).put("words", PanelWords.of(state));
            ArrayNode exits = node.putArray("exits");
            for (Transition via : Transition.leaving(state)) {
                exits.addObject().put("to", via.to.name()).put("reason", via.reason);
            }
        }
        ArrayNode steps = all.putArray("steps");
        for (Step step : Step.values()) {
            steps.add(PanelWords.of(step));
        }
        ArrayNode phases = all.putArray("charges");
        for (ChargePhase phase : ChargePhase.values()) {
            phases.add(PanelWords.of(phase));
        }
        ArrayNode resets = all.putArray("resets");
        for (Reset reset : Reset.values()) {
            resets.add(reset.words);
        }
        ArrayNode sources = all.putArray("sources");
        for (Source source : Source.values()) {
            sources.add(source.words);
        }
        ArrayNode torque = all.putArray("torque");
        for (TorquePermission permission : TorquePermission.values()) {
            torque.add(permission.name().toLowerCase(Locale.ROOT).replace('_', ' '));
        }
        ArrayNode responses = all.putArray("responses");
        for (Response response : Response.values()) {
            responses.addObject().put("name", response.name()).put("words", response.words);
        }
    }

    private static void interlocks(ArrayNode all, Vehicle vehicle) {
        for (Interlock row : Interlock.values()) {
            ObjectNode node = all.addObject()
                    .put("id", row.id())
                    .put("hazard", row.hazard)
                    .put("cause", row.cause.toString())
                    .put("response", row.response.name())
                    .put("reset", row.reset.words)
                    .put("why", row.why)
                    .put("budgetMs", vehicle.get(row.budget));
            ArrayNode limits = node.putArray("limits");
            FactSource.limits(row, vehicle).forEach(limits::add);
            ArrayNode where = node.putArray("where");
            row.where.forEach(state -> where.add(state.ordinal()));
        }
    }

    /** Which lever, or which readings, a sentence of the guide is about. */
    private static void pointers(ArrayNode all) {
        for (DriverAct act : DriverAct.values()) {
            all.addObject().put("words", act.words).put("lever", act.lever.key());
        }
        for (Interlock row : Interlock.values()) {
            if (row.cause.isFact()) {
                ArrayNode reads =
                        all.addObject().put("words", PanelWords.missing(row)).putArray("reads");
                FactSource.of(row.cause.fact()).readings().forEach(signal -> reads.add(signal.key()));
            }
        }
    }

    private static void faults(ArrayNode all, Subject subject) {
        for (FaultSpec fault : FaultSpec.all(subject.vehicle())) {
            all.addObject()
                    .put("name", fault.name())
                    .put("size", fault.magnitude())
                    .put("unit", Numbers.symbol(fault.unit()))
                    .put("sized", fault.unit() != Unit.SWITCH)
                    .put("meaning", fault.meaning());
        }
        for (String fault : subject.bus() == null
                ? List.<String>of()
                : BusFaults.names(subject.bus().map())) {
            boolean sized = !Double.isNaN(BusFaults.usual(fault));
            all.addObject()
                    .put("name", fault)
                    .put("size", sized ? BusFaults.usual(fault) : 1)
                    .put("unit", sized ? "ms" : "")
                    .put("sized", sized)
                    .put("meaning", BusFaults.meaning(fault));
        }
    }

    private static String write(ObjectNode node) {
        try {
            return JSON.writeValueAsString(node);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a tree of texts and numbers could not be written: " + node.size(), e);
        }
    }
}
