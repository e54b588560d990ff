package sprag.bench.run.report;

import java.util.List;
import sprag.bench.loop.DeadVoltage;
import sprag.bench.loop.trace.Channel.Source;
import sprag.bench.loop.trace.History;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** Why nothing was charged in a run, where the voltage of pack or cell forbids it. */
final class NoChargeWords {
    /** A reading that is wrong for a shorter time than this refuses no charge. */
    private static final long LASTS_MS = 1_000;

    private NoChargeWords() {}

    /** Some sentences; empty when a voltage forbade no charge, or did so for a moment only. */
    static String of(History history, Settings settings) {
        int pack = history.channels().indexOf(Source.SIGNAL, Signal.PACK_VOLTAGE_V.key());
        int cell = history.channels().indexOf(Source.SIGNAL, Signal.CELL_MIN_V.key());
        int asked = history.channels().indexOf(Source.OUTPUT, Output.CHARGE_CURRENT_LIMIT_A.key());
        int plugged = history.channels().states().indexOf(State.CHARGE_LOCKOUT.name());
        if (pack < 0 || cell < 0 || asked < 0) {
            return "";
        }
        long sinceMs = -1;
        for (int i = 0; i < history.size(); i++) {
            boolean rests = history.state(i) == plugged && history.value(i, asked) == 0;
            List<String> reasons =
                    rests ? DeadVoltage.reasons(settings, history.value(i, pack), history.value(i, cell)) : List.of();
            sinceMs = reasons.isEmpty() ? -1 : sinceMs < 0 ? history.timeMs(i) : sinceMs;
            if (sinceMs >= 0 && history.timeMs(i) - sinceMs >= LASTS_MS) {
                return String.join(" ", reasons);
            }
        }
        return "";
    }
}
