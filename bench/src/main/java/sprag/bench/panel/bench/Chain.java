package sprag.bench.panel.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import sprag.bench.cli.Numbers;
import sprag.bench.panel.bench.FrameLayout.Head;
import sprag.bench.panel.bench.FrameLayout.Section;
import sprag.bench.panel.guide.PanelWords;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.Step;
import sprag.supervisor.vocabulary.TorquePermission;

/**
 * Why the outputs were what they were in one tick: reading, fact, interlock or exit, permission, output.
 *
 * @param readings what was read, with values
 * @param fact what the supervisor made of it
 * @param limits what the readings are held against
 * @param rule the interlock, the exit from a state, or the permission
 * @param sentence the row's own sentence
 * @param effect what came of it
 */
public record Chain(
        List<String> readings, String fact, List<String> limits, String rule, String sentence, String effect) {
    private static final List<Output> MAIN = List.of(
            Output.NEGATIVE_CONTACTOR,
            Output.PRECHARGE_RELAY,
            Output.POSITIVE_CONTACTOR,
            Output.INVERTER_ENABLE,
            Output.TORQUE_REQUEST_NM,
            Output.CHARGER_ENABLE);

    /** The chains of one kept tick: exits and refusals first, then each interlock that mattered, the outputs last. */
    public static List<Chain> of(History.Moment moment, History history, NoteBook notes, Vehicle vehicle) {
        List<Chain> all = new ArrayList<>();
        for (long i = notes.first(); i < notes.count(); i++) {
            Note note = notes.get(i);
            boolean tells = note != null && (note.kind() == Note.Kind.STATE || note.kind() == Note.Kind.REFUSED);
            if (tells && note.tick() == moment.tick()) {
                all.add(exit(note, moment, history.at(moment.tick() - 1), vehicle));
            }
        }
        for (Interlock row : Interlock.values()) {
            int bits = (int) moment.numbers()[Section.INTERLOCKS.offset() + row.ordinal()];
            if ((bits & (FrameLayout.ACTING | FrameLayout.LATCHED | FrameLayout.BLOCKS_START)) != 0) {
                all.add(interlock(row, bits, moment, vehicle));
            }
        }
        all.add(outputs(moment));
        return all;
    }

    /** A change of state, with the facts that changed in its tick. */
    private static Chain exit(Note note, History.Moment moment, History.Moment before, Vehicle vehicle) {
        List<String> readings = new ArrayList<>();
        List<String> changed = new ArrayList<>();
        for (Fact fact : Fact.values()) {
            if (before != null && before.value(fact) != moment.value(fact)) {
                changed.add(words(fact) + " became " + label(fact, moment));
                readings(fact, moment, vehicle).stream()
                        .filter(each -> !readings.contains(each))
                        .forEach(readings::add);
            }
        }
        String fact = changed.isEmpty() ? "no fact changed in this tick" : String.join(", ", changed);
        String why = note.kind() == Note.Kind.REFUSED ? note.cause() : "because " + note.cause();
        return new Chain(readings, fact, List.of(), note.what(), why, note.consequence());
    }

    private static Chain interlock(Interlock row, int bits, History.Moment moment, Vehicle vehicle) {
        Fact fact = row.cause.isFact() ? row.cause.fact() : null;
        String how = (bits & FrameLayout.ACTING) != 0
                ? "acts"
                : (bits & FrameLayout.LATCHED) != 0 ? "is latched" : "keeps a start from happening";
        return new Chain(
                fact == null ? List.of() : readings(fact, moment, vehicle),
                fact == null ? row.cause.toString() : words(fact) + " is " + label(fact, moment) + ": " + row.cause,
                FactSource.limits(row, vehicle),
                row.id() + " " + how,
                row.why,
                PanelWords.consequence(row));
    }

    private static Chain outputs(History.Moment moment) {
        TorquePermission torque = TorquePermission.values()[head(moment, Head.TORQUE)];
        Direction engaged = Direction.values()[head(moment, Head.ENGAGED)];
        Step step = Step.values()[head(moment, Head.STEP)];
        List<String> outputs = new ArrayList<>();
        for (Output output : MAIN) {
            double value = moment.numbers()[Section.OUTPUTS.offset() + output.ordinal()];
            outputs.add(output.key() + " " + Numbers.show(value, output.unit));
        }
        String rule = "permitted: torque " + words(torque) + ", direction " + words(engaged)
                + (head(moment, Head.LIMITED) == 1 ? ", limited" : "");
        return new Chain(List.of(), "", List.of(), rule, PanelWords.of(step), String.join(", ", outputs));
    }

    private static List<String> readings(Fact fact, History.Moment moment, Vehicle vehicle) {
        List<String> words = new ArrayList<>();
        for (Signal signal : FactSource.of(fact).readings()) {
            if (vehicle.settings().has(signal)) {
                double value = moment.numbers()[Section.SIGNALS.offset() + signal.ordinal()];
                words.add(signal.key() + " " + Numbers.show(value, signal.unit));
            }
        }
        return words;
    }

    private static int head(History.Moment moment, Head field) {
        return (int) moment.numbers()[field.ordinal()];
    }

    private static String label(Fact fact, History.Moment moment) {
        return fact.labels.get(moment.value(fact)).toLowerCase(Locale.ROOT);
    }

    private static String words(Enum<?> word) {
        return word.name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }
}
