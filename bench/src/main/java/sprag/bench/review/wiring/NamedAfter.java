package sprag.bench.review.wiring;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import sprag.bench.review.wiring.circuit.Hit;
import sprag.bench.review.wiring.circuit.Review;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** Parts that are called after one signal or output of the supervisor and are wired to another one. Other names say nothing. */
final class NamedAfter {
    private static final String TEMPERATURE = "_temp_v";
    private static final String LOOP = "_loop_closed";
    private static final String DUTY = "_duty";

    private NamedAfter() {}

    static void swapped(Review review, List<Hit> hits) {
        for (Part part : review.parts(PartKind.SWITCH)) {
            loopOfAnother(review, part, hits);
        }
        for (Part part : review.schedule.parts().values()) {
            Optional<String> own = part.kind() == PartKind.SENSOR ? temperatureOf(part) : outputOf(part);
            for (int terminal : own.isPresent() ? review.circuit.terminalsOf(part) : List.<Integer>of()) {
                other(review, terminal, own.get(), part.kind() == PartKind.SENSOR)
                        .filter(found -> !saysAlso(part, found))
                        .ifPresent(found -> hits.add(hit(review, terminal, found, own.get())));
            }
        }
    }

    /** A {@code cover_switch} in the loop of the crash switch, while the loop of its own name is wired past it. */
    private static void loopOfAnother(Review review, Part part, List<Hit> hits) {
        String own = part.name().split("_", 2)[0] + LOOP;
        List<Integer> terminals = review.circuit.terminalsOf(part);
        int ownNet = review.supervisorNet(own);
        if (ownNet < 0 || terminals.stream().anyMatch(t -> review.circuit.netOf(t) == ownNet)) {
            return;
        }
        for (int terminal : terminals) {
            Stream.of(Signal.values())
                    .map(Signal::key)
                    .filter(key -> key.endsWith(LOOP) && review.supervisorNet(key) >= 0)
                    .filter(key -> review.supervisorNet(key) == review.circuit.netOf(terminal))
                    .forEach(key -> hits.add(hit(review, terminal, key, own)));
        }
    }

    private static Hit hit(Review review, int terminal, String found, String own) {
        String name = review.circuit.terminal(terminal);
        return new Hit(
                name,
                Schedule.WIRES_FILE,
                review.lineOf(name),
                "Terminal " + name + " is wired to supervisor." + found
                        + "; by its name the part belongs to supervisor." + own + ".",
                Map.of());
    }

    /** A {@code motor_coolant_probe} may belong to either. */
    private static boolean saysAlso(Part part, String temperature) {
        return temperature.endsWith(TEMPERATURE) && ("_" + part.name()).contains("_" + subject(temperature));
    }

    /** The temperature that a sensor's first word names, such as {@code coolant_probe}. */
    private static Optional<String> temperatureOf(Part part) {
        return temperatures()
                .filter(key -> part.name().startsWith(subject(key)))
                .findFirst();
    }

    private static Stream<String> temperatures() {
        return Stream.of(Signal.values()).map(Signal::key).filter(key -> key.endsWith(TEMPERATURE));
    }

    private static String subject(String key) {
        return key.substring(0, key.length() - TEMPERATURE.length()) + "_";
    }

    /** The output whose whole name a part has, with or without what it says of the signal. */
    private static Optional<String> outputOf(Part part) {
        return outputs().filter(key -> bare(key).equals(part.name())).findFirst();
    }

    private static Stream<String> outputs() {
        return Stream.of(Output.values()).map(Output::key);
    }

    private static String bare(String key) {
        return key.endsWith(DUTY) ? key.substring(0, key.length() - DUTY.length()) : key;
    }

    /** Another one of the same sort that a terminal is wired to. */
    private static Optional<String> other(Review review, int terminal, String own, boolean temperature) {
        int net = review.circuit.netOf(terminal);
        return (temperature ? temperatures() : outputs())
                .filter(key -> !key.equals(own) && !bare(key).equals(bare(own)))
                .filter(key -> review.supervisorNet(key) == net)
                .findFirst();
    }
}
