package sprag.bench.lesson;

import com.samskivert.mustache.Mustache;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import sprag.bench.cli.Numbers;
import sprag.bench.lesson.Lesson.Figure;
import sprag.bench.lesson.Lesson.Play;
import sprag.bench.lesson.Sandbox.Played;
import sprag.bench.loop.measure.Measure;
import sprag.bench.loop.measure.Measure.Found;
import sprag.bench.scenario.Scenario;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Figures;
import sprag.bench.vehicle.Vehicle;

/** A lesson being given: its runs are played when the first figure of them is asked for, and its texts filled with figures. */
final class Given {
    /** The name that a text of a lesson uses for a figure, as {{name}}. */
    private static final Mustache.Compiler TEXTS = Mustache.compiler().escapeHTML(false);

    private final Lesson lesson;
    private final Sandbox sandbox = new Sandbox();
    private final Map<String, Played> played = new HashMap<>();
    private final Map<String, Found> found = new LinkedHashMap<>();

    Given(Lesson lesson) {
        this.lesson = lesson;
    }

    Lesson lesson() {
        return lesson;
    }

    /** A text of the lesson with its figures. */
    String text(String template) throws BadInput {
        Map<String, String> words = new HashMap<>();
        for (Figure figure : lesson.figures()) {
            if (template.contains("{{" + figure.name() + "}}")) {
                words.put(figure.name(), figure(figure.name()).words());
            }
        }
        return TEXTS.compile(template).execute(words);
    }

    /** Several texts with their figures. */
    List<String> texts(List<String> templates) throws BadInput {
        List<String> texts = new ArrayList<>();
        for (String template : templates) {
            texts.add(text(template));
        }
        return texts;
    }

    /** The right answer of an exercise, where one can be named, and why. */
    String solution(Exercise exercise) throws BadInput {
        String right = exercise.kind() == Exercise.Kind.VALUE
                ? Numbers.text(number(exercise.right()), exercise.unit())
                : exercise.right();
        return (right.isEmpty() ? "" : "Answer: " + right + ". ") + text(exercise.solution());
    }

    /** The number of an expression over the figures and, in the lesson's first vehicle, over its file. */
    double number(String expression) throws BadInput {
        return number(expression, vehicle(lesson.plays().get(0)));
    }

    private double number(String expression, Vehicle vehicle) throws BadInput {
        Figures all = Figures.of(vehicle);
        for (Figure figure : lesson.figures()) {
            if (names(expression, figure.name())) {
                all.name(figure.name(), figure(figure.name()).value());
            }
        }
        return all.value(expression);
    }

    /** Whether an expression uses a figure, and not a key of the vehicle's file that ends like it. */
    private static boolean names(String expression, String figure) {
        return expression.matches("(.*[^\\w.])?" + figure + "([^\\w.].*)?");
    }

    /** A figure, measured in its run or computed. */
    Found figure(String name) throws BadInput {
        Found known = found.get(name);
        if (known == null) {
            Figure figure = lesson.figures().stream()
                    .filter(each -> each.name().equals(name))
                    .findFirst()
                    .orElseThrow(() -> new IllegalStateException(lesson.name() + " has no figure " + name));
            known = figure.play().isEmpty() ? computed(figure) : measured(figure);
            found.put(name, known);
        }
        return known;
    }

    private Found computed(Figure figure) throws BadInput {
        double value = figure.vehicle().isEmpty()
                ? number(figure.ask())
                : number(figure.ask(), sandbox.vehicle(figure.vehicle(), Map.of()));
        return new Found(value, figure.unit(), Numbers.text(value, figure.unit()));
    }

    private Found measured(Figure figure) throws BadInput {
        Played run = played(figure.play());
        return Measure.of(figure.ask(), run.track().channels()).in(run.track());
    }

    /** Whether the explanation tells of a run; what belongs to an exercise is not told before it. */
    boolean isExplained(Play play) {
        return lesson.figures().stream().anyMatch(each -> each.play().equals(play.name()) && isUsed(each.name()));
    }

    /** Whether the explanation uses a figure, or one that is computed from it. */
    private boolean isUsed(String name) {
        return lesson.explain().contains("{{" + name + "}}")
                || lesson.figures().stream()
                        .anyMatch(each -> each.play().isEmpty()
                                && names(each.ask(), name)
                                && lesson.explain().contains("{{" + each.name() + "}}"));
    }

    /** A run, played once. */
    Played played(String name) throws BadInput {
        Played known = played.get(name);
        if (known == null) {
            Play play = lesson.plays().stream()
                    .filter(each -> each.name().equals(name))
                    .findFirst()
                    .orElseThrow(() -> new IllegalStateException(lesson.name() + " has no run " + name));
            Vehicle vehicle = vehicle(play);
            Scenario scenario = play.scenario().isEmpty()
                    ? Sandbox.story(lesson.name() + "-" + play.name() + ".toml", play.story())
                    : sandbox.shipped(play.scenario(), vehicle);
            known = Sandbox.play(vehicle, scenario, Sandbox.rows(play.without()));
            played.put(name, known);
        }
        return known;
    }

    private Vehicle vehicle(Play play) throws BadInput {
        return sandbox.vehicle(play.vehicle(), play.set());
    }

    /** The shipped vehicle of the first run, as the panel shows it: with a supervisor, whatever the run has. */
    Vehicle firstCar() throws BadInput {
        return sandbox.vehicle(lesson.plays().get(0).vehicle(), Map.of());
    }

    /** The scenarios of the explanation that this car can play on the panel: with its own values and without a data bus. */
    List<Scenario> shelf() throws BadInput {
        Play first = lesson.plays().get(0);
        Vehicle car = firstCar();
        Map<String, Scenario> shelf = new LinkedHashMap<>();
        for (Play play : lesson.plays()) {
            if (play.vehicle().equals(first.vehicle())
                    && play.set().isEmpty()
                    && !play.scenario().isEmpty()
                    && isExplained(play)) {
                Scenario scenario = sandbox.shipped(play.scenario(), car);
                if (scenario.about().bus() == null
                        && scenario.car().isEmpty()
                        && scenario.unsuitable(car.name(), car.settings()).isEmpty()) {
                    shelf.put(play.scenario(), scenario);
                }
            }
        }
        return List.copyOf(shelf.values());
    }

    Sandbox sandbox() {
        return sandbox;
    }
}
