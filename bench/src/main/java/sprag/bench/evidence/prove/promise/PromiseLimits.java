package sprag.bench.evidence.prove.promise;

import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;

/**
 * The waits that promises need, in ticks, and whether the chargers are connected to the bus.
 *
 * @param weldTest how long each half of the weld test lasts
 * @param close how long a contactor may take to close
 * @param release how long a contactor may take to open
 * @param overlap how long the precharge path holds beside the closed main contactor
 * @param fast how long a precharge takes at least; a bus that is charged sooner is not believed
 * @param min the least precharge
 * @param timeout the longest precharge
 * @param currentWait the longest wait for the current to fall
 * @param spinWait the longest wait for a spinning motor to slow down
 * @param busSide whether chargers need the bus
 */
public record PromiseLimits(
        int weldTest,
        int close,
        int release,
        int overlap,
        int fast,
        int min,
        int timeout,
        int currentWait,
        int spinWait,
        boolean busSide,
        boolean testsNegative) {
    public static PromiseLimits of(Settings settings) {
        int close = settings.ticks(Parameter.CONTACTOR_CLOSE_MS);
        int wait = settings.ticks(Parameter.RUNDOWN_WAIT_MS);
        return new PromiseLimits(
                settings.ticks(Parameter.CONTACTOR_WELD_TEST_MS),
                close,
                settings.ticks(Parameter.CONTACTOR_RELEASE_MS),
                Math.max(close, settings.ticks(Parameter.CONTACTOR_OVERLAP_MS)),
                settings.ticks(Parameter.PRECHARGE_FAST_MS),
                settings.ticks(Parameter.PRECHARGE_MIN_MS),
                settings.ticks(Parameter.PRECHARGE_TIMEOUT_MS),
                wait,
                Math.max(wait, settings.ticks(Parameter.RUNDOWN_SPIN_MS)),
                settings.is(Parameter.CHARGER_SIDE, "bus-side"),
                settings.is(Parameter.CONTACTOR_POLES, "both") && settings.is(Parameter.PRECHARGE_BY, "relay"));
    }

    /** The longest time from the first tick of a rundown until the last contactor is open, for any facts. */
    public int opening() {
        return spinWait + release;
    }

    /** The longest time from the first contactor of a start to the drive. */
    public int starting() {
        return weldTest + release + Math.max(weldTest, close) + raising();
    }

    /** The longest time from the start of the rise to the end of the overlap. */
    public int raising() {
        return timeout + overlap;
    }

    /**
     * The longest time from the end of a charge until the last contactor is open. Where the chargers do not need the
     * bus, none is closed.
     */
    public int endingCharge() {
        return busSide ? opening() : 0;
    }
}
