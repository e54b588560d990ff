package sprag.supervisor.auxiliaries;

import sprag.supervisor.logic.Logic;
import sprag.supervisor.vocabulary.Bounds;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Facts;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Permissions;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.State;

/**
 * The loads that keep the car alive, the lamps, the buzzer, the gauge and the lock of the inlet.
 *
 * <p>When the 12 V supply sags, loads are shed in this order: the heater's element and then at once its blower; after
 * {@value #FAN_SHED_S} s the radiator fan, unless a part is warm; after {@value #PUMP_SHED_S} s the coolant pump, unless the car
 * drives or charges. The DC-DC converter, lamps and buzzer stay. When the supply is lost everything but the lamps goes.
 *
 * <p>Call it after the torque was shaped: the brake lamp looks at it.
 */
public final class Auxiliaries {
    private static final int FAN_SHED_S = 5;
    private static final int PUMP_SHED_S = 15;

    private final Cooling cooling;
    private final Heater heater;
    private final Lamps lamps;
    private final PlugLock lock;
    private final boolean converterOnBus;
    private final int fanShedTicks;
    private final int pumpShedTicks;
    private int lowTicks;
    private boolean beat;

    /** Makes the auxiliaries with pump, fan, heater and buzzer at rest.
     *
     * @param settings the vehicle's values
     */
    public Auxiliaries(Settings settings) {
        cooling = new Cooling(settings);
        heater = new Heater(settings);
        lamps = new Lamps(settings);
        lock = new PlugLock(settings);
        converterOnBus = settings.is(Parameter.DCDC_SIDE, "bus-side");
        fanShedTicks = (int) Math.ceil(FAN_SHED_S / settings.tickS());
        pumpShedTicks = (int) Math.ceil(PUMP_SHED_S / settings.tickS());
    }

    /** Sets the auxiliary commands for one tick.
     *
     * @param logic its state and what it permits
     * @param f the facts of this tick
     * @param c the quantities of this tick
     * @param in the readings
     * @param out where the commands are set; the torque and the chargers' are there already
     */
    public void shape(Logic logic, Facts f, Conditioned c, Readings in, Commands out) {
        Permissions may = logic.permissions();
        boolean driving = logic.state().state == State.DRIVE_ENABLE;
        boolean working = driving || may.charging;
        lowTicks = f.is(Fact.LV_LOW) ? Math.min(lowTicks + 1, pumpShedTicks + 1) : 0;

        cooling.shape(working, f, c, out);
        shedCooling(working, f, out);
        heater.shape(may.busConnected && (driving || may.charging), f, c, in, out);
        lamps.shape(logic, f, c, in, out);
        lock.shape(logic.state(), f, c, out);
        out.set(Output.DCDC_ENABLE, converterOnBus ? may.busConnected : converterWanted(logic, f, c));
        out.set(Output.GAUGE_FRACTION, Bounds.share(c.stateOfCharge));
        beat = !beat;
        out.set(Output.HEARTBEAT, beat);
    }

    private void shedCooling(boolean working, Facts f, Commands out) {
        boolean lost = f.is(Fact.LV_LOST);
        if (lost || lowTicks > fanShedTicks && !warm(f)) {
            out.set(Output.RADIATOR_FAN_DUTY, 0);
        }
        if (lost || lowTicks > pumpShedTicks && !working) {
            out.set(Output.COOLANT_PUMP, false);
        }
    }

    private static boolean warm(Facts f) {
        return f.is(Fact.MOTOR_WARM) || f.is(Fact.INVERTER_WARM) || f.is(Fact.COOLANT_WARM);
    }

    /**
     * A converter beside the pack runs with the key on or while charge flows. While plugged in it also runs when the 12 V
     * battery is weak; with a strong battery it would only run a finished charge down again. Never into a cut-off car, out of a drained pack, or in
     * FAULT: the 12 V battery is there for that, and one on the bus is off then as well.
     */
    private boolean converterWanted(Logic logic, Facts f, Conditioned c) {
        if (logic.state().state == State.FAULT) {
            return false;
        }
        Permissions may = logic.permissions();
        boolean cut = f.is(Fact.CUT_LOOP_OPEN) || f.is(Fact.CRASH_SEEN);
        boolean drained = f.is(Fact.PACK_UNDERVOLTAGE) || f.is(Fact.CELL_UNDERVOLTAGE);
        boolean helped = f.is(Fact.PLUG_SEEN) && (f.is(Fact.LV_LOW) || c.lvSupport);
        boolean awake = f.is(Fact.KEY_ON) || may.charging || helped;
        return awake && !cut && (!drained || may.charging);
    }
}
