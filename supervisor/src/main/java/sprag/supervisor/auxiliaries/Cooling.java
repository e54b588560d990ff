package sprag.supervisor.auxiliaries;

import sprag.supervisor.vocabulary.Bounds;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Facts;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/**
 * Coolant pump and radiator fan.
 *
 * <p>The pump runs while coolant, inverter or (charging) charger are above {@code coolant.pump_c}, the fan while the coolant is
 * above {@code coolant.fan_c}: from {@value #LEAST_DUTY} there to full at {@code coolant.warm_c}. Without a coolant sensor the
 * inverter's takes its place. Both go on for at most {@code coolant.after_run_s} after work, as long as it is still warm, also
 * with the key off. What should be known and is not counts as hot while the car works.
 */
final class Cooling {
    /** How far a temperature must fall before pump or fan stop. */
    static final double HYSTERESIS_K = 3;

    private static final double LEAST_DUTY = 0.3;

    private final boolean hasInverter;
    private final boolean hasCoolant;
    private final boolean hasCharger;
    private final double pumpC;
    private final double fanC;
    private final double fullC;
    private final int afterRunTicks;
    private boolean pumpOn;
    private boolean fanOn;
    private int afterTicks;

    Cooling(Settings settings) {
        hasInverter = settings.has(Signal.INVERTER_TEMP_V);
        hasCoolant = settings.has(Signal.COOLANT_TEMP_V);
        hasCharger = settings.has(Signal.CHARGER_TEMP_V);
        pumpC = settings.get(Parameter.COOLANT_PUMP_C);
        fanC = settings.get(Parameter.COOLANT_FAN_C);
        fullC = settings.get(hasCoolant ? Parameter.COOLANT_WARM_C : Parameter.INVERTER_WARM_C);
        afterRunTicks = (int) Math.ceil(settings.get(Parameter.COOLANT_AFTER_RUN_S) / settings.tickS());
    }

    /** Sets pump and fan for one tick.
     *
     * @param working whether the car drives or charges
     * @param f the facts of this tick
     * @param c the quantities of this tick
     * @param out where the commands are set
     */
    void shape(boolean working, Facts f, Conditioned c, Commands out) {
        afterTicks = working ? afterRunTicks : Math.max(afterTicks - 1, 0);
        boolean mayRun = working || afterTicks > 0;
        boolean alarm = f.is(Fact.MOTOR_WARM)
                || f.is(Fact.INVERTER_WARM)
                || f.is(Fact.COOLANT_WARM)
                || f.is(Fact.COOLING_LOST)
                || working && f.is(Fact.DRIVE_SENSOR_LOST);
        boolean blind = working && !hasInverter && !hasCoolant;
        pumpOn = mayRun && (alarm || blind || warm(c, pumpOn ? pumpC - HYSTERESIS_K : pumpC, working));
        double radiatorC = hasCoolant ? c.coolantTempC : c.inverterTempC;
        fanOn = mayRun && (alarm || above(radiatorC, fanOn ? fanC - HYSTERESIS_K : fanC, working && !blind));
        out.set(Output.COOLANT_PUMP, pumpOn);
        out.set(Output.RADIATOR_FAN_DUTY, fanOn ? duty(radiatorC, alarm) : 0);
    }

    private boolean warm(Conditioned c, double limitC, boolean working) {
        return hasInverter && above(c.inverterTempC, limitC, working)
                || hasCoolant && above(c.coolantTempC, limitC, working)
                || hasCharger && above(c.chargerTempC, limitC, working);
    }

    private static boolean above(double valueC, double limitC, boolean whenUnknown) {
        return valueC == valueC ? valueC >= limitC : whenUnknown;
    }

    private double duty(double radiatorC, boolean alarm) {
        if (alarm || !(radiatorC < fullC)) {
            return 1;
        }
        double share = fullC > fanC ? (radiatorC - fanC) / (fullC - fanC) : 1;
        return LEAST_DUTY + (1 - LEAST_DUTY) * Bounds.share(share);
    }
}
