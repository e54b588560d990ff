package sprag.bench.review.wiring.schedule;

import java.util.List;
import java.util.Locale;

/**
 * One part of the drawing.
 *
 * @param line the line of the list of parts; 0 when the part is only known from wires
 * @param name as in the terminals, {@code name.terminal}
 * @param ratedV the greatest voltage for it (V); NaN when not given
 * @param ratedA fuse rating, or the greatest lasting current it carries or draws (A); NaN when not given
 * @param breaksA the greatest current it can interrupt at its rated voltage (A); NaN when not given
 * @param releaseMs time from switching a coil off to open contacts, without suppression (ms); NaN when not given
 * @param suppression what limits the coil's voltage, or what a suppressor is
 * @param duty whether its contact alone must hold off, or alone must close
 * @param remark whatever the list says beside it, for people; empty for nothing
 */
public record Part(
        int line,
        String name,
        PartKind kind,
        double ratedV,
        double ratedA,
        double breaksA,
        double releaseMs,
        Suppression suppression,
        Duty duty,
        String remark) {

    /** What limits the voltage of a coil when it is switched off. */
    public enum Suppression {
        /** The list says nothing; a suppressor in the schedule may serve. */
        UNKNOWN(1),
        /** Nothing, and the list says so. */
        NONE(1),
        /** A plain diode: slow. */
        DIODE(6.5),
        /** A Zener or avalanche diode, with or without a plain one in series. */
        ZENER(1.3),
        /** A voltage-dependent resistor. */
        VARISTOR(1.3),
        /** A resistor across the coil. */
        RESISTOR(2.5),
        /** A resistor and a capacitor. */
        SNUBBER(1.5),
        /** Part of the device, with the release time given for it. */
        BUILT_IN(1);

        /** How much longer the release takes, from memory of one relay maker's note: 9.8 ms with a diode against 1.5 ms. */
        public final double slower;

        Suppression(double slower) {
            this.slower = slower;
        }

        static final List<String> WORDS =
                List.of("none", "diode", "zener", "varistor", "resistor", "snubber", "built-in");

        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }

        static Suppression of(String word) {
            return word.isEmpty()
                    ? UNKNOWN
                    : valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
        }
    }

    /** What a contact must be able to do on its own. */
    public enum Duty {
        /** Nothing was said and the kind says nothing. */
        UNSAID,
        /** It must hold its circuit open whatever others do: an isolating or delaying contact. */
        HOLDS_OFF,
        /** It must close its circuit whatever others do: one of several ways to switch something on. */
        CLOSES;

        static final List<String> WORDS = List.of("holds-off", "closes");

        static Duty of(String word) {
            return word.isEmpty()
                    ? UNSAID
                    : valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
        }
    }

    /** Whether the list of parts has it. */
    public boolean isListed() {
        return line > 0;
    }

    /** The duty said, or else what its kind and name suggest. */
    public Duty effectiveDuty() {
        if (duty != Duty.UNSAID) {
            return duty;
        }
        if (kind == PartKind.CONTACTOR || kind == PartKind.TIMER || kind == PartKind.CUT_OFF) {
            return Duty.HOLDS_OFF;
        }
        boolean brake = name.contains("brake") && kind.isSwitching();
        return brake ? Duty.CLOSES : Duty.UNSAID;
    }

    /** The suppression said, or for a suppressor what its name tells. */
    public Suppression effectiveSuppression() {
        if (suppression != Suppression.UNKNOWN || kind != PartKind.SUPPRESSOR) {
            return suppression;
        }
        for (Suppression candidate : List.of(Suppression.ZENER, Suppression.DIODE, Suppression.VARISTOR)) {
            if (name.contains(candidate.word())) {
                return candidate;
            }
        }
        return Suppression.SNUBBER;
    }

    public static Part guessed(String name) {
        double nan = Double.NaN;
        return new Part(0, name, PartKind.guess(name), nan, nan, nan, nan, Suppression.UNKNOWN, Duty.UNSAID, "");
    }

    /** The same part with another name. */
    public Part named(String other) {
        return new Part(line, other, kind, ratedV, ratedA, breaksA, releaseMs, suppression, duty, remark);
    }
}
