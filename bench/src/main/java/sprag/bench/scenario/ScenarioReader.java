package sprag.bench.scenario;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import sprag.bench.bus.BusFile;
import sprag.bench.bus.BusReader;
import sprag.bench.loop.Vocabulary;
import sprag.bench.loop.Vocabulary.Range;
import sprag.bench.loop.bus.BusFaults;
import sprag.bench.scenario.Scenario.About;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Figures;
import sprag.bench.vehicle.Problems;
import sprag.bench.vehicle.Section;
import sprag.bench.vehicle.TomlFile;
import sprag.bench.vehicle.Vehicle;

/** Reads a scenario file, or says everything that is wrong with it at once. */
public final class ScenarioReader {
    private static final double LONGEST_S = 172_800;
    private static final String SEED_RISK = "not be a whole number from 0 to 1e15";
    private static final List<String> HAPPENS = List.of(
            "at_s", "after", "after_state", "after_interlock", "after_signal", "after_output", "after_quantity");

    private final Vocabulary vocabulary;
    private final Figures figures;
    private final Names names;
    private final Vehicle vehicle;
    private BusFile bus;

    private ScenarioReader(Vocabulary vocabulary, Figures figures, Vehicle vehicle) {
        this.vehicle = vehicle;
        this.vocabulary = vocabulary;
        this.figures = figures;
        this.names = new Names(vocabulary.channels());
    }

    /**
     * Reads a file for a vehicle. Of a scenario that does not suit it nothing is read but what it is about: its expressions need not
     * make sense there.
     *
     * @param vehicle the vehicle whose figures its expressions use
     * @throws BadInput with every problem found
     */
    public static Scenario read(Path file, Vocabulary vocabulary, Vehicle vehicle) throws BadInput {
        Problems problems = new Problems();
        return new ScenarioReader(vocabulary, Figures.of(vehicle), vehicle)
                .scenario(file, TomlFile.read(file, problems), problems);
    }

    /**
     * Reads a text as if it stood in a file, without a vehicle: its numbers are plain.
     *
     * @param file the name for messages
     * @throws BadInput with every problem found
     */
    public static Scenario parse(Path file, String text, Vocabulary vocabulary) throws BadInput {
        Problems problems = new Problems();
        return new ScenarioReader(vocabulary, Figures.none(), null)
                .scenario(file, TomlFile.parse(file, text, problems), problems);
    }

    private Scenario scenario(Path file, Section root, Problems problems) throws BadInput {
        Section about = root.with(figures).section("about");
        About said = about(about, file);
        String name = file.getFileName().toString().replaceFirst("\\.toml$", "");
        if (problems.count() == 0 && !suits(said)) {
            return new Scenario(name, file, said, 0, 1, Map.of(), Map.of(), List.of(), List.of());
        }
        figures(root.section("figures"));
        double durationS = about.number(
                "duration_s", Double.NaN, 0.1, LONGEST_S, "make a run of no length, or of more than two days");
        long durationMs = Math.round((Double.isNaN(durationS) ? LONGEST_S : durationS) * 1000);
        double written = about.number("seed", 1, 0, 1e15, SEED_RISK);
        long seed = Math.round(written);
        if (!Double.isNaN(written) && seed != written) {
            about.problem("seed", "a whole number", "give the run of another seed", "Write it without a fraction.");
        }
        Map<CarParameter, Double> car = car(root);
        seed = root.keys().contains("car") ? Math.round(root.number("car.seed", seed, 0, 1e15, SEED_RISK)) : seed;
        Map<String, Double> start = levers(root.section("start"));
        List<ScenarioStep> steps = steps(root.list("do"), durationMs);
        List<Section> expects = root.list("expect");
        if (expects.isEmpty()) {
            root.note("expect", "is missing", "at least one", "prove nothing", "Add an [[expect]].");
        }
        List<Expectation> expectations = new ExpectationReader(names, durationMs).read(expects);
        root.end();
        problems.throwIfAny();
        return new Scenario(name, file, said, durationMs, seed, car, start, steps, expectations);
    }

    private boolean suits(About about) {
        return vehicle == null || about.needs().stream().allMatch(need -> need.metBy(vehicle.settings()));
    }

    /** Names for what the vehicle gives, each usable from the next line on. */
    private void figures(Section section) {
        for (String name : section.keys()) {
            if (name.matches("[a-z][a-z0-9_]*")) {
                figures.name(name, section.number(name, Double.NaN, -1e9, 1e9, "be no figure"));
            } else {
                section.has(name);
                section.note(name, "is no name", "a to z, 0 to 9 and _", "", "Begin with a letter, as in full_s.");
            }
        }
    }

    /** One car among those that the drawing allows: rows of [car.*] in place of those of the vehicle's file. */
    private static Map<CarParameter, Double> car(Section root) {
        Map<CarParameter, Double> car = new EnumMap<>(CarParameter.class);
        if (root.keys().contains("car")) {
            for (CarParameter row : CarParameter.values()) {
                if (root.has(row.key())) {
                    car.put(row, root.value(row));
                }
            }
        }
        return car;
    }

    private About about(Section about, Path file) {
        List<String> hazards = about.texts("hazards");
        for (String hazard : hazards) {
            if (!hazard.matches("H\\d\\d")) {
                about.note(
                        "hazards",
                        "has \"" + hazard + "\"",
                        "H01, H02, ...",
                        "",
                        "Use the numbers of docs/hazards.md.");
            }
        }
        List<Need> needs = new ArrayList<>();
        for (String text : about.texts("needs")) {
            Need.parse(text)
                    .ifPresentOrElse(
                            needs::add,
                            () -> about.note(
                                    "needs",
                                    "has \"" + text + "\"",
                                    "a signal, \"no\" and a signal, or a choice",
                                    "",
                                    "Write \"pedal_b_v\", \"no pedal_b_v\", \"motor.kind = induction\" or \"inlet.kind != none\"."));
        }
        bus = bus(about, file);
        return new About(
                about.text("title", null), about.text("why", null), hazards, about.texts("vehicles"), needs, bus);
    }

    /** A path is meant from the scenario's own folder, or else from the folder in which the program runs. */
    private static BusFile bus(Section about, Path file) {
        String name = about.text("bus", "");
        if (name.isEmpty()) {
            return null;
        }
        try {
            Path beside = file.resolveSibling(name);
            return BusReader.read(Catalogue.installed().bus(Files.isReadable(beside) ? beside.toString() : name));
        } catch (BadInput bad) {
            String why = bad.problems().get(0).message();
            about.note("bus", "= \"" + name + "\" cannot be used: " + why, "", "", "Name a shipped bus, or mend it.");
            return null;
        }
    }

    private Map<String, Double> levers(Section section) {
        Map<String, Double> all = new LinkedHashMap<>();
        for (String lever : section.keys()) {
            Range range = vocabulary.levers().get(lever);
            if (range == null) {
                section.has(lever);
                section.note(
                        lever,
                        "is no lever",
                        "a lever",
                        "have no effect",
                        sprag.bench.cli.Nearest.hint(lever, vocabulary.levers().keySet()));
            } else {
                all.put(lever, position(section, lever, range));
            }
        }
        return all;
    }

    /** A switch may be written as true and false as well as 1 and 0. */
    private static double position(Section section, String lever, Range range) {
        Object written = section.plainValue(lever);
        if (written instanceof Boolean && range.min() == 0 && range.max() == 1) {
            return (Boolean) written ? 1 : 0;
        }
        return section.number(lever, Double.NaN, range.min(), range.max(), "be further than the lever goes");
    }

    private List<ScenarioStep> steps(List<Section> sections, long durationMs) {
        List<ScenarioStep> all = new ArrayList<>();
        for (Section section : sections) {
            String when = Names.oneOf(section, HAPPENS, true);
            boolean timed = "at_s".equals(when);
            Anchor anchor = timed ? new Anchor.Start() : names.anchor(section);
            long waitMs = Names.millis(section, timed ? "at_s" : "wait_s", 0);
            if (timed && waitMs > durationMs) {
                section.note(
                        "at_s",
                        "is after the end of the run",
                        "at most about.duration_s",
                        "never happen",
                        "Make the run longer or this earlier.");
            }
            List<Action> actions = actions(section);
            String name = section.text("name", words(actions));
            int line = section.line(when == null ? "name" : when);
            if (!names.addStep(name)) {
                section.note(
                        "name",
                        "\"" + name + "\" is taken by a step above",
                        "a name of its own",
                        "",
                        "Give it a name.");
            }
            all.add(new ScenarioStep(name, line, anchor, waitMs, actions, repeats(section)));
        }
        return all;
    }

    private static String words(List<Action> actions) {
        return String.join(", ", actions.stream().map(Action::words).toList());
    }

    private static ScenarioStep.Repeats repeats(Section section) {
        if (!section.has("repeat_every_s")) {
            Names.refuse(section, List.of("times"), "goes with repeat_every_s");
            return ScenarioStep.ONCE;
        }
        int times = (int) Math.round(section.number("times", Double.NaN, 2, 10_000, "repeat nothing, or without end"));
        double everyS = section.number("repeat_every_s", Double.NaN, 0.01, 200_000, "never come round");
        return new ScenarioStep.Repeats(times, Math.round(everyS * 1000));
    }

    private List<Action> actions(Section section) {
        List<Action> all = new ArrayList<>();
        if (section.has("set")) {
            long overMs = Names.millis(section, "over_s", 0);
            levers(section.section("set")).forEach((lever, to) -> all.add(new Action.Move(lever, to, overMs)));
        } else {
            Names.refuse(section, List.of("over_s"), "goes with set");
        }
        if (section.has("fault")) {
            all.add(new Action.Fault(fault(section, "fault")));
        }
        if (section.has("clear")) {
            all.add(new Action.Clear(fault(section, "clear")));
        }
        if (!section.has("set") && all.isEmpty()) {
            section.note("", "does nothing", "set, fault or clear", "", "Add set = { lever = 1 }, fault or clear.");
        }
        return all;
    }

    private String fault(Section section, String key) {
        String spec = section.text(key, "");
        String complaint = BusFaults.isOne(spec)
                ? BusFaults.complaint(spec, bus == null ? null : bus.map())
                : vocabulary.faultComplaint().apply(spec);
        if (!complaint.isEmpty()) {
            section.note(key, "= \"" + spec + "\" is no fault", "a part and how it breaks", "", complaint);
        }
        return spec;
    }
}
