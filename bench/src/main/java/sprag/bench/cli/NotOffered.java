package sprag.bench.cli;

import java.util.Locale;
import java.util.Optional;

/** What people look for and will not find, with the reason. */
public final class NotOffered {
    private static final String CRUISE =
            "Cruise control is not offered: the pedal is the only thing that asks for torque, so a foot that is lifted always ends"
                    + " it. Torque that nobody's foot holds needs a second path of its own to end it.";

    private NotOffered() {}

    /** Why there is no such thing; empty for anything else. */
    public static Optional<String> reason(String written) {
        return written.toLowerCase(Locale.ROOT).contains("cruise") ? Optional.of(CRUISE) : Optional.empty();
    }
}
