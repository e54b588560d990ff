package sprag.bench.review.wiring.circuit;

import java.util.Set;
import sprag.bench.review.formula.DangerousVoltage;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/**
 * What the rules need to know about the vehicle. A number that the vehicle's file does not give is NaN.
 *
 * @param packMaxV pack voltage when full (V)
 * @param releaseBudgetMs longest time from switching a contactor off to open contacts (ms)
 * @param insulationC what the insulation of traction conductors stands (°C)
 * @param thinInsulationC what the insulation of 12 V wires stands (°C)
 * @param bundled traction conductors that lie together
 * @param dropShare allowed voltage drop, a share of the voltage, there and back
 * @param driven the outputs that drive something
 * @param chargerOnBus whether the chargers sit behind the main contactors
 * @param dcdcOnBus whether the DC-DC converter sits behind the main contactors
 * @param inverterSupply when the inverter's logic supply may come up
 */
public record RuleLimits(
        double packMaxV,
        double releaseBudgetMs,
        double insulationC,
        double thinInsulationC,
        double ambientC,
        double bundled,
        double dropShare,
        Set<Signal> fitted,
        Set<Output> driven,
        int chargers,
        boolean chargerOnBus,
        boolean dcdcOnBus,
        InverterSupply inverterSupply,
        double lowVoltageV) {

    /** When the inverter's logic supply may be alive. */
    public enum InverterSupply {
        /** The vehicle's file does not say. */
        UNSAID,
        /** At any time. */
        ANY_TIME,
        /** Only once precharge is done. */
        AFTER_PRECHARGE
    }

    /** Whether the traction side is dangerous to touch. */
    public boolean isDangerous() {
        return packMaxV > DangerousVoltage.ABOVE_V;
    }
}
