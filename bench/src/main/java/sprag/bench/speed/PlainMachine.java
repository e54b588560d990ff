package sprag.bench.speed;

import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;

/** The baseline: what a builder would write first, one switch over an enum, with no checks worth the name. */
public final class PlainMachine {
    private enum Mode {
        REST,
        AWAKE,
        CHARGING_BUS,
        DRIVING,
        STOPPING,
        PLUGGED,
        FAILED
    }

    private Mode mode = Mode.REST;
    private int ticks;

    /**
     * One step.
     *
     * @return its state, so that nothing is optimised away
     */
    public int step(Readings in) {
        ticks++;
        boolean key = in.isOn(Signal.KEY_ON);
        boolean plug = in.isOn(Signal.PLUG_PRESENT);
        boolean loops = in.isOn(Signal.CUT_LOOP_CLOSED) && in.isOn(Signal.COVER_LOOP_CLOSED);
        double packV = in.get(Signal.PACK_VOLTAGE_V);
        double busV = in.get(Signal.BUS_VOLTAGE_V);
        switch (mode) {
            case REST -> to(plug ? Mode.PLUGGED : key ? Mode.AWAKE : Mode.REST);
            case AWAKE -> to(!key ? Mode.REST : in.isOn(Signal.START_REQUEST) ? Mode.CHARGING_BUS : Mode.AWAKE);
            case CHARGING_BUS ->
                to(!loops ? Mode.FAILED : busV > 0.95 * packV ? Mode.DRIVING : ticks > 300 ? Mode.FAILED : mode);
            case DRIVING -> to(!loops ? Mode.FAILED : plug || !key ? Mode.STOPPING : mode);
            case STOPPING -> to(Math.abs(in.get(Signal.PACK_CURRENT_A)) < 5 || ticks > 50 ? Mode.REST : mode);
            case PLUGGED -> to(plug ? mode : Mode.REST);
            case FAILED -> to(key ? mode : Mode.REST);
        }
        return mode.ordinal() + (in.isOn(Signal.BRAKE_PRESSED) ? 8 : 0);
    }

    private void to(Mode next) {
        ticks = next == mode ? ticks : 0;
        mode = next;
    }
}
