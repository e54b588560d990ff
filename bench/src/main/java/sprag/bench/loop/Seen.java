package sprag.bench.loop;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.cli.Numbers;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * What the readings show of the contactors, the bus and the current, in sentences. Where a contact shows a contactor's
 * position the sentence says what it shows; where none does it says what was asked.
 *
 * @param settings which signals are fitted, and the vehicle's limits
 */
public record Seen(Settings settings, Readings readings, Commands commands) {
    /** A contactor with the output that closes it and the contact that shows it. */
    public enum Contactor {
        /** The negative contactor. */
        NEGATIVE("negative contactor", Output.NEGATIVE_CONTACTOR, Signal.NEGATIVE_AUX_CLOSED),
        /** The precharge relay. */
        PRECHARGE("precharge relay", Output.PRECHARGE_RELAY, Signal.PRECHARGE_AUX_CLOSED),
        /** The positive contactor. */
        POSITIVE("positive contactor", Output.POSITIVE_CONTACTOR, Signal.POSITIVE_AUX_CLOSED);

        /** The name for people. */
        public final String words;

        private final Output output;
        private final Signal contact;

        Contactor(String words, Output output, Signal contact) {
            this.words = words;
            this.output = output;
            this.contact = contact;
        }
    }

    /** What an auxiliary contact shows. */
    public enum Shows {
        /** Open. */
        OPEN,
        /** Closed. */
        CLOSED,
        /** It is fitted, but nobody knows what it shows. */
        UNKNOWN,
        /** None is fitted. */
        NOTHING
    }

    /** Less current is none: a sensor's offset (A). */
    private static final double NO_CURRENT_A = 0.5;

    /** The same for the last tick of a loop. */
    public static Seen of(ClosedLoop loop) {
        return new Seen(loop.car().vehicle().settings(), loop.readings(), loop.commands());
    }

    /** What shows the position of a contactor. */
    public Shows shows(Contactor which) {
        if (!settings.has(which.contact)) {
            return Shows.NOTHING;
        }
        return readings.isOn(which.contact) ? Shows.CLOSED : readings.isOff(which.contact) ? Shows.OPEN : Shows.UNKNOWN;
    }

    /** A clause about one contactor. */
    public static String clause(Contactor which, boolean askedClosed, Shows shows) {
        String asked = askedClosed ? "asked to close" : "asked to open";
        return which.words
                + switch (shows) {
                    case OPEN -> askedClosed ? " shows OPEN although " + asked : " shows open";
                    case CLOSED -> askedClosed ? " shows closed" : " shows CLOSED although " + asked;
                    case UNKNOWN -> " is " + asked + ", its contact cannot be read";
                    case NOTHING -> " is " + asked + ", no contact shows it";
                };
    }

    /** A sentence about all contactors. */
    public String contactors() {
        if (allOpen(Shows.OPEN)) {
            return "Every contactor shows open.";
        }
        if (allOpen(Shows.NOTHING)) {
            return "Every contactor is asked to open; no contact shows whether it is.";
        }
        List<String> clauses = new ArrayList<>();
        for (Contactor which : Contactor.values()) {
            clauses.add(clause(which, commands.isOn(which.output), shows(which)));
        }
        String all = String.join("; ", clauses);
        return Character.toUpperCase(all.charAt(0)) + all.substring(1) + ".";
    }

    private boolean allOpen(Shows shown) {
        boolean all = true;
        for (Contactor which : Contactor.values()) {
            all &= !commands.isOn(which.output) && shows(which) == shown;
        }
        return all;
    }

    /** Whether the bus must be taken as live: its voltage says so or is unknown, or closed contactors contradict it. */
    public boolean busLive() {
        double busV = readings.get(Signal.BUS_VOLTAGE_V);
        return !(Math.abs(busV) <= settings.get(Parameter.BUS_DISCHARGED_V)) || connects();
    }

    /** Whether both poles are closed as far as can be seen, so that a bus that reads nothing is a lying sensor. */
    private boolean connects() {
        return closed(Contactor.NEGATIVE) && (closed(Contactor.POSITIVE) || closed(Contactor.PRECHARGE));
    }

    private boolean closed(Contactor which) {
        Shows shows = shows(which);
        return shows == Shows.CLOSED || commands.isOn(which.output) && shows != Shows.OPEN;
    }

    /** A sentence about the bus. It never says that a bus is dead: that is found out with a meter. */
    public String bus() {
        double busV = readings.get(Signal.BUS_VOLTAGE_V);
        if (Double.isNaN(busV)) {
            return "The bus voltage is unknown: take the bus as live.";
        }
        String limit = Numbers.text(settings.get(Parameter.BUS_DISCHARGED_V)) + " V (bus.discharged_v)";
        if (Math.abs(busV) > settings.get(Parameter.BUS_DISCHARGED_V)) {
            return "The bus is LIVE: it reads more than " + limit + ".";
        }
        return connects()
                ? "The bus reads no more than " + limit + " although contactors connect it: take it as live."
                : "The bus reads no more than " + limit + ".";
    }

    /** A clause about the pack current. */
    public String current() {
        double currentA = readings.get(Signal.PACK_CURRENT_A);
        if (Double.isNaN(currentA)) {
            return "the pack current is unknown";
        }
        if (Math.abs(currentA) < NO_CURRENT_A) {
            return "no current flows";
        }
        return currentA > 0 ? "current flows out of the pack" : "current flows into the pack";
    }

    /** Everything that must be known of the high-voltage path. */
    public String path() {
        return contactors() + " " + bus();
    }
}
