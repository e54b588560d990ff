package sprag.bench.charge;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.car.Quantity;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/**
 * What must be true in every tick whatever is done with plug, key and pilot, judged from the readings by other means than the
 * supervisor's own.
 */
final class Absolutes {
    private static final double ROUNDING = 1e-6;

    private final ClosedCar run;
    private final double voltAmpereShare;
    private final double mostA;
    private final double mostV;
    private final double leastV;
    final List<String> broken = new ArrayList<>();
    /** How often the more interesting things were seen, so that a run that never charges proves nothing. */
    int ticksCharging;

    int ticksDriving;

    Absolutes(ClosedCar run) {
        this.run = run;
        voltAmpereShare = run.vehicle.get(Parameter.INLET_PHASES)
                * run.vehicle.get(Parameter.INLET_SUPPLY_V)
                * run.vehicle.get(Parameter.CHARGER_POWER_FACTOR)
                * run.vehicle.get(Parameter.CHARGER_EFFICIENCY);
        mostA = run.vehicle.get(Parameter.CHARGE_CURRENT_A);
        mostV = run.vehicle.get(Parameter.CHARGE_VOLTAGE_V);
        leastV = run.vehicle.get(Parameter.PACK_MIN_V);
    }

    void look() {
        boolean plug = plugged();
        double torqueNm = run.command(Output.TORQUE_REQUEST_NM);
        ticksDriving += torqueNm != 0 ? 1 : 0;
        check(plug && torqueNm != 0, "torque in Nm with a plug", torqueNm);
        check(plug && run.command(Output.INVERTER_ENABLE) != 0, "inverter enabled with a plug", 1);
        double currentA = run.command(Output.CHARGE_CURRENT_LIMIT_A);
        boolean enabled = run.command(Output.CHARGER_ENABLE) != 0;
        ticksCharging += enabled ? 1 : 0;
        check(currentA != 0 && !enabled, "current in A asked of chargers that are off", currentA);
        check(enabled && offeredA() < 6, "chargers on without an offer, in A", offeredA());
        check(enabled && torqueNm != 0, "charge and torque in Nm together", torqueNm);
        check(currentA > mostA + ROUNDING, "more in A than charge.current_a", currentA);
        double packV = Math.max(run.reading(Signal.PACK_VOLTAGE_V), leastV);
        double fromStationA = offeredA() * voltAmpereShare / packV;
        check(currentA > fromStationA + ROUNDING, "more than what the station allows, in A", currentA - fromStationA);
        double sumA = run.command(Output.CHARGER_1_LIMIT_A)
                + run.command(Output.CHARGER_2_LIMIT_A)
                + run.command(Output.CHARGER_3_LIMIT_A);
        check(Math.abs(sumA - currentA) > ROUNDING, "shares that differ from the whole, in A", sumA - currentA);
        double limitV = run.command(Output.CHARGE_VOLTAGE_LIMIT_V);
        check(limitV > mostV, "a voltage above charge.voltage_v", limitV);
        check(run.supervisor.vetoed(), "the gate had to act", 1);
        double arcJ = run.truth(Quantity.CONTACTOR_ARC_J);
        check(arcJ > 1, "arc in J", arcJ);
        double inrushJ = run.truth(Quantity.CONTACTOR_INRUSH_J);
        check(inrushJ > 5, "inrush in J", inrushJ);
    }

    /** Any sign of a plug that is beyond doubt. */
    private boolean plugged() {
        double proximityV = run.reading(Signal.PROXIMITY_V);
        double peakV = run.reading(Signal.PILOT_PEAK_V);
        return run.reading(Signal.PLUG_PRESENT) != 0 || !(proximityV > 4.0) || !(peakV < 2);
    }

    /** What the duty allows by the rule of IEC 61851-1, as quoted by the Fluke FEV300 manual; 0 without a sound offer. */
    private double offeredA() {
        double peakV = run.reading(Signal.PILOT_PEAK_V);
        double duty = run.reading(Signal.PILOT_DUTY);
        boolean level = peakV > 4 && peakV < 11;
        if (run.reading(Signal.PLUG_PRESENT) != 1 || !level || !(duty >= 0.08 && duty <= 0.97)) {
            return 0;
        }
        if (duty < 0.1) {
            return 6;
        }
        return duty <= 0.85 ? duty * 60 : Math.min((duty - 0.64) * 250, 80);
    }

    /** The text is made when it is needed only: this is asked in every tick of a day. */
    private void check(boolean isBroken, String what, double value) {
        if (isBroken && broken.size() < 5) {
            broken.add("at " + run.nowS() + " s in " + run.state() + ": " + what + ": " + value);
        }
    }
}
