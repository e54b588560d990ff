package sprag.bench.scenario;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * What a vehicle must have for a scenario to make sense. Four forms: {@code pedal_b_v}, a signal that is fitted;
 * {@code no pedal_b_v}, one that is not; {@code motor.kind = permanent-magnet}, a choice in the vehicle's file;
 * {@code inlet.kind != none}, any other choice than that.
 *
 * @param signal the signal, null for a choice
 * @param wanted whether the signal must be there, or the word be the chosen one
 * @param parameter the choice, null for a signal
 * @param word the word that must be chosen
 */
public record Need(String text, Signal signal, boolean wanted, Parameter parameter, String word) {
    private static final String NO = "no ";

    /** Reads a need. Returns the need, none when it names nothing that exists. */
    static Optional<Need> parse(String text) {
        int equals = text.indexOf('=');
        if (equals < 0) {
            boolean fitted = !text.startsWith(NO);
            String key = fitted ? text : text.substring(NO.length());
            return signal(key.strip()).map(s -> new Need(text, s, fitted, null, ""));
        }
        boolean wanted = !text.substring(0, equals).endsWith("!");
        String key = text.substring(0, wanted ? equals : equals - 1).strip();
        String word = text.substring(equals + 1).strip();
        return choices().stream()
                .filter(p -> p.key().equals(key) && p.choices().contains(word))
                .findFirst()
                .map(p -> new Need(text, null, wanted, p, word));
    }

    private static Optional<Signal> signal(String key) {
        return List.of(Signal.values()).stream()
                .filter(s -> s.name().equals(key.toUpperCase(Locale.ROOT)))
                .findFirst();
    }

    private static List<Parameter> choices() {
        return List.of(Parameter.values()).stream()
                .filter(p -> !p.choices().isEmpty())
                .toList();
    }

    /** Whether a vehicle has it. */
    public boolean metBy(Settings vehicle) {
        return wanted == (signal != null ? vehicle.has(signal) : vehicle.is(parameter, word));
    }
}
