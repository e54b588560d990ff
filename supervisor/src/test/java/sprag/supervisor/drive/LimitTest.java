package sprag.supervisor.drive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import sprag.supervisor.Provocation;
import sprag.supervisor.Rig;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;

/** Every interlock that limits does limit: from a reading to less torque while driving, to less current or load while charging. */
class LimitTest {
    /** How far beyond its limit a quantity is driven, in steps from the last good value to the first bad one. */
    private static final int DEEP = 10;

    private static final int SETTLED_MS = 2500;
    /** A cable for 32 A at a type-2 inlet: 220 ohm. */
    private static final double CABLE_32_A_V = 1.91;

    static Stream<Interlock> limitsDriving() {
        return rows(State.DRIVE_ENABLE);
    }

    static Stream<Interlock> limitsCharging() {
        return rows(State.CHARGE_LOCKOUT);
    }

    private static Stream<Interlock> rows(State state) {
        return Stream.of(Interlock.values()).filter(row -> row.response == Response.LIMIT && row.where.contains(state));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("limitsDriving")
    void limit_causePresentWhileDriving_torqueFalls(Interlock row) {
        boolean falls = false;
        for (Provocation p : provocations(row)) {
            double bad = row == Interlock.OVERSPEED ? p.bad : deep(p);
            double wholeDriveNm = torqueNm(p, p.good, 1, row);
            double wholeRegenNm = torqueNm(p, p.good, 0, row);
            assertTrue(wholeDriveNm > 1 && wholeRegenNm < -1, p + " must begin with torque both ways");
            falls |= torqueNm(p, bad, 1, row) < wholeDriveNm - 0.1 || torqueNm(p, bad, 0, row) > wholeRegenNm + 0.1;
        }
        assertTrue(falls, row.id() + " limits, but no torque falls");
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("limitsCharging")
    void limit_causePresentWhileCharging_currentOrLoadFalls(Interlock row) {
        boolean falls = false;
        for (Provocation p : provocations(row)) {
            double whole = chargeAndHeat(p, p.good);
            assertTrue(whole > 0.1, p + " must begin with a charge");
            falls |= chargeAndHeat(p, deep(p)) < whole - 0.1;
        }
        assertTrue(falls, row.id() + " limits, but neither charge current nor load falls");
    }

    /** Elsewhere a limit has nothing to reduce: it would stop a start, or do nothing at all. */
    @Test
    void limitOrWarning_appliesInStates_inWhichItCanLimitOrWarn() {
        Set<State> live = EnumSet.of(State.DRIVE_ENABLE, State.CHARGE_LOCKOUT);
        for (Interlock row : Interlock.values()) {
            Set<State> rest = EnumSet.noneOf(State.class);
            rest.addAll(row.where);
            boolean acts = rest.removeAll(live);
            if (row.response == Response.LIMIT) {
                rest.remove(State.IGNITION);
            }
            if (row.response == Response.LIMIT || row.response == Response.WARN) {
                assertTrue(
                        acts && rest.isEmpty(),
                        row.id() + " " + row.response.words + ", but it applies in " + row.where + ". Let it apply in "
                                + live + ", or give it another response");
            }
        }
    }

    private static List<Provocation> provocations(Interlock row) {
        List<Provocation> rows =
                Stream.of(Provocation.values()).filter(p -> p.row == row).toList();
        assertTrue(!rows.isEmpty(), row.id() + " has no row in Provocation");
        return rows;
    }

    /** The first bad value leaves nearly everything where a line falls from there; further on it must show. */
    private static double deep(Provocation p) {
        if (p.row == Interlock.PACK_LOW) {
            // It slows the growth of the torque first and lowers it near the end only: a fifth of that way is left.
            Parameter least = p == Provocation.CELL_NEARLY_EMPTY ? Parameter.CELL_MIN_V : Parameter.PACK_MIN_V;
            double leastV = TestVehicle.full().get(least);
            return leastV + (p.bad - leastV) / 5;
        }
        boolean follows = Stream.of(Derating.values())
                .anyMatch(d -> d.interlock == p.row && (d.drive + " " + d.regenerate).contains("FALLS"));
        return follows ? p.bad + DEEP * (p.bad - p.good) : p.bad;
    }

    private static double torqueNm(Provocation p, double value, double pedal, Interlock row) {
        Rig rig = new Rig(p.settings().with(Parameter.DRIVE_MAX_KPH, 200)).at(State.DRIVE_ENABLE);
        rig.given(Signal.REGEN_LEVEL, 3).speedKph(40);
        if (row == Interlock.OVERSPEED) {
            // by the motor alone, because the torque has faded out long before the car is too fast
            rig.speedRpm(value == p.good ? 11_970 : 12_030);
        } else {
            p.setter.set(rig, value);
        }
        rig.pedal(pedal).runMs(SETTLED_MS);
        assertEquals(State.DRIVE_ENABLE, rig.state(), p + " must not stop the drive");
        return rig.torqueNm();
    }

    /** Charge current in ampere, and one more while the heater's element is on. */
    private static double chargeAndHeat(Provocation p, double value) {
        Rig rig = new Rig().at(State.CHARGE_LOCKOUT);
        rig.given(Signal.PROXIMITY_V, CABLE_32_A_V)
                .given(Signal.PILOT_PEAK_V, 9)
                .given(Signal.PILOT_DUTY, 0.5)
                .given(Signal.HEATER_REQUEST, 1)
                .given(Signal.HEATER_AIRFLOW, 0)
                .until(Step.HOLD, 1000)
                .runMs(200)
                .given(Signal.HEATER_AIRFLOW, 1)
                .runMs(6000);
        p.setter.set(rig, value);
        rig.runMs(SETTLED_MS + 4000);
        assertEquals(State.CHARGE_LOCKOUT, rig.state());
        return rig.out.get(Output.CHARGE_CURRENT_LIMIT_A) + (rig.out.isOn(Output.HEATER_ELEMENT) ? 1 : 0);
    }
}
