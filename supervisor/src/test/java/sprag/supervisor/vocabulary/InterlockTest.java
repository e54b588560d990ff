package sprag.supervisor.vocabulary;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicContainer.dynamicContainer;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import org.junit.jupiter.api.DynamicContainer;
import org.junit.jupiter.api.DynamicNode;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import sprag.supervisor.Provocation;
import sprag.supervisor.Rig;

/**
 * Every interlock provoked on the rig, grouped by hazard: at the last good and the first bad value, at the last tick of its
 * detection time and the next, in the states it applies to; then what it did, and what it took to end that.
 */
class InterlockTest {
    /** Seen only inside the contactor sequence or the driver's acts; provoked by name in the tests of their hazards. */
    private static final Set<Interlock> BY_NAME = EnumSet.of(
            Interlock.NEGATIVE_WELD_FOUND,
            Interlock.POSITIVE_WELD_FOUND,
            Interlock.PRECHARGE_FAST,
            Interlock.PRECHARGE_SLOW,
            Interlock.PRECHARGE_STALLED,
            Interlock.PRECHARGE_REVERSED,
            Interlock.RESISTOR_OVERLOADED,
            Interlock.RESISTOR_SPENT,
            Interlock.CONTACTOR_NOT_CLOSED,
            Interlock.PEDAL_AT_ENABLE,
            Interlock.DIRECTION_ROLLING,
            Interlock.BUS_NOT_DISCHARGED,
            Interlock.START_HELD,
            Interlock.KEY_NEVER_OFF,
            Interlock.GATE_VETOED,
            Interlock.HEATER_WITHOUT_AIR,
            Interlock.GAUGE_UNSURE);

    /** At the charging inlet; provoked in the tests of inlet, charge meter and charge. */
    private static boolean isAboutCharging(Interlock row) {
        Set<State> elsewhere = EnumSet.copyOf(row.where);
        elsewhere.remove(State.CHARGE_LOCKOUT);
        elsewhere.remove(State.FAULT);
        return elsewhere.isEmpty();
    }

    @Test
    void everyInterlock_isProvoked() {
        Set<Interlock> provoked = EnumSet.copyOf(BY_NAME);
        for (Provocation p : Provocation.values()) {
            provoked.add(p.row);
        }
        List<Interlock> missing = new ArrayList<>();
        for (Interlock row : Interlock.values()) {
            if (!provoked.contains(row) && !isAboutCharging(row)) {
                missing.add(row);
            }
        }
        assertEquals(List.of(), missing);
    }

    @Test
    void everyProvocation_isTriedOnlyWhereItsInterlockApplies() {
        for (Provocation p : Provocation.values()) {
            assertTrue(p.row.where.containsAll(p.where), p + " " + p.where + " against " + p.row.where);
        }
    }

    @TestFactory
    List<DynamicContainer> byHazard() {
        TreeMap<String, List<DynamicNode>> hazards = new TreeMap<>();
        for (Provocation p : Provocation.values()) {
            for (State state : p.where) {
                hazards.computeIfAbsent(p.row.hazard, id -> new ArrayList<>())
                        .add(dynamicTest(
                                "%s: %s_%s_%s"
                                        .formatted(
                                                p.row.hazard, state, p, p.row.response.words.replaceAll("\\W+", "_")),
                                () -> provoke(p, state)));
            }
        }
        List<DynamicContainer> containers = new ArrayList<>();
        hazards.forEach((id, tests) -> containers.add(dynamicContainer(id, tests)));
        return containers;
    }

    /** A current beyond the limit is also one that no torque explains; where only the limit is tried, any current is believed. */
    private static Rig rigFor(Provocation p) {
        Settings settings = p.settings();
        boolean believed = p.row == Interlock.PACK_OVERCURRENT;
        return new Rig(believed ? settings.with(Parameter.DRIVE_UNASKED_A, Parameter.DRIVE_UNASKED_A.max()) : settings);
    }

    private static void provoke(Provocation p, State state) {
        Rig rig = rigFor(p).at(state);
        if (state == State.DRIVE_ENABLE) {
            rig.pedal(0.2).runMs(500);
            assertTrue(rig.torqueNm() > 0, "torque " + rig.torqueNm());
        }
        int ticks = p.detectionTicks(rig);
        int before = rig.times(p.row);
        boolean lasting = state != State.PRECHARGE && state != State.RUNDOWN;
        if (lasting) {
            p.setter.set(rig, p.good);
            rig.run(ticks + 10);
            assertEquals(before, rig.times(p.row), p.row + " acted at its last good value " + p.good);
        }
        p.setter.set(rig, p.bad);
        rig.run(ticks);
        assertEquals(before, rig.times(p.row), p.row + " acted before its time");
        assertEquals(state == State.RUNDOWN ? rig.state() : state, rig.state());
        rig.run(1);
        assertTrue(rig.acts(p.row), p.row + " did not act after " + ticks + " ticks; state " + rig.state());
        assertFalse(rig.supervisor.vetoed(), "the gate acted");
        respond(p, rig, state);
    }

    private static void respond(Provocation p, Rig rig, State state) {
        switch (state) {
            case OFF -> assertEquals(State.FAULT, rig.state());
            case IGNITION -> refusesStart(p, rig);
            case PRECHARGE -> endsTheStart(p, rig);
            case DRIVE_ENABLE -> actsWhileDriving(p, rig);
            case RUNDOWN -> endsInFault(p, rig);
            case CHARGE_LOCKOUT -> refusesCharge(p, rig);
            case FAULT -> refusesReset(p, rig);
        }
    }

    private static void refusesStart(Provocation p, Rig rig) {
        rig.given(Signal.START_REQUEST, 1).run(5);
        assertNotEquals(State.PRECHARGE, rig.state());
        assertEquals(p.row.reset == Reset.SERVICE, rig.state() == State.FAULT);
        assertTrue(rig.state() == State.FAULT || rig.supervisor.diagnostics().blocksStart(p.row));
        if (rig.state() == State.IGNITION) {
            p.setter.set(rig, p.good);
            rig.leave().run(2 * p.detectionTicks(rig) + 10);
        }
    }

    private static void endsTheStart(Provocation p, Rig rig) {
        if (p.row.response == Response.OPEN_NOW) {
            assertEquals(State.FAULT, rig.state());
            assertFalse(rig.anyContactor());
            return;
        }
        assertEquals(State.RUNDOWN, rig.state());
        rig.run(2 * rig.ticks(Parameter.CONTACTOR_RELEASE_MS) + 1);
        assertFalse(rig.anyContactor());
    }

    private static void actsWhileDriving(Provocation p, Rig rig) {
        Interlock row = p.row;
        switch (row.response) {
            case OPEN_NOW -> {
                assertEquals(State.FAULT, rig.state());
                assertFalse(rig.anyContactor(), "everything opens in the same tick");
                assertEquals(0, rig.torqueNm());
                resetsFromFault(p, rig);
            }
            case STOP_THEN_OPEN -> {
                assertEquals(State.RUNDOWN, rig.state());
                assertEquals(0, rig.torqueNm(), "torque ends in the same tick");
                int longest = rig.ticks(Parameter.RUNDOWN_WAIT_MS) + 2 * rig.ticks(Parameter.CONTACTOR_RELEASE_MS);
                rig.run(longest);
                assertFalse(rig.anyContactor(), "open after the bounded wait");
                resetsFromFault(p, rig);
            }
            case ZERO_TORQUE -> {
                assertEquals(State.DRIVE_ENABLE, rig.state());
                assertEquals(0, rig.torqueNm(), "torque ends in the same tick");
                assertTrue(rig.out.isOn(Output.POSITIVE_CONTACTOR), "the contactors stay");
                returnsToTorque(p, rig);
            }
            case LIMIT -> {
                assertTrue(rig.supervisor.permissions().limited);
                assertTrue(rig.out.isOn(Output.INVERTER_ENABLE));
                p.setter.set(rig, p.good);
                rig.leave().run(2 * p.detectionTicks(rig) + 2);
                assertTrue(!rig.acts(row) || hasHysteresis(row), row + " must end with its cause");
            }
            default -> assertEquals(State.DRIVE_ENABLE, rig.state());
        }
    }

    /** A warm part must cool, a full cell must fall, by the hysteresis before the limit ends. */
    private static boolean hasHysteresis(Interlock row) {
        return row.name().endsWith("_WARM")
                || row == Interlock.COOLING_LOST
                || row == Interlock.PACK_COOL
                || row == Interlock.PACK_FULL
                || row == Interlock.PACK_LOW;
    }

    private static void heal(Provocation p, Rig rig) {
        p.setter.set(rig, p.good);
        rig.speedKph(0).leave().pack(Rig.PACK_V);
        if (p.row == Interlock.SPEED_DOUBTED) {
            rig.given(Signal.BRAKE_PRESSED, 1).runMs(10_000).given(Signal.BRAKE_PRESSED, 0);
        }
        for (Signal signal :
                new Signal[] {Signal.PACK_HOT_V, Signal.MOTOR_TEMP_V, Signal.INVERTER_TEMP_V, Signal.COOLANT_TEMP_V}) {
            rig.celsius(signal, 25);
        }
        rig.given(Signal.CELL_MAX_V, 3.65)
                .given(Signal.CELL_MIN_V, 3.64)
                .given(Signal.LV_SUPPLY_V, 13.5)
                .given(Signal.PACK_CURRENT_A, 0)
                .given(Signal.MOTOR_SPEED_RPM, 0)
                .given(Signal.PEDAL_SUPPLY_V, 5)
                .pedal(0)
                .run(2 * p.detectionTicks(rig) + 400);
    }

    private static void resetsFromFault(Provocation p, Rig rig) {
        if (p.row.reset == Reset.NONE) {
            heal(p, rig);
            assertNotEquals(State.FAULT, rig.state());
            return;
        }
        rig.runMs(3000);
        heal(p, rig);
        assertEquals(State.FAULT, rig.state(), "latched although the cause is gone");
        rig.keyCycle();
        if (p.row.reset == Reset.SERVICE) {
            assertEquals(State.FAULT, rig.state(), "a key cycle is not enough");
            rig.given(Signal.KEY_ON, 1).given(Signal.SERVICE_RESET, 1).run(3);
            assertEquals(State.FAULT, rig.state(), "a service reset needs the key off");
            rig.given(Signal.KEY_ON, 0).run(3);
        }
        assertEquals(State.OFF, rig.state());
    }

    private static void returnsToTorque(Provocation p, Rig rig) {
        heal(p, rig);
        rig.given(Signal.BRAKE_PRESSED, 0).given(Signal.REVERSE_SWITCH, 0).run(3);
        rig.pedal(0.5).run(20);
        boolean keyNeeded = p.row.reset == Reset.KEY_CYCLE;
        assertEquals(keyNeeded, rig.torqueNm() == 0, p.row + " ends with " + p.row.reset.words);
        if (keyNeeded) {
            rig.pedal(0).given(Signal.KEY_ON, 0).until(State.OFF, 1000);
            rig.driving().pedal(0.5).run(20);
            assertTrue(rig.torqueNm() > 0, "torque " + rig.torqueNm());
        }
    }

    private static void endsInFault(Provocation p, Rig rig) {
        if (p.row.response != Response.OPEN_NOW) {
            assertEquals(State.RUNDOWN, rig.state());
            assertEquals(0, rig.torqueNm());
            p.setter.set(rig, p.good);
            rig.leave().run(500);
        }
        assertEquals(State.FAULT, rig.state(), "what came up while running down is latched");
        assertFalse(rig.anyContactor());
    }

    private static void refusesCharge(Provocation p, Rig rig) {
        assertEquals(p.row.reset == Reset.SERVICE, rig.state() == State.FAULT);
        rig.run(10);
        assertFalse(rig.anyContactor());
        assertFalse(rig.out.isOn(Output.CHARGER_ENABLE));
    }

    private static void refusesReset(Provocation p, Rig rig) {
        rig.keyCycle();
        assertEquals(State.FAULT, rig.state(), "no reset while the cause is there");
        heal(p, rig);
        rig.keyCycle();
        assertEquals(p.row.reset == Reset.SERVICE, rig.state() == State.FAULT, "latched by what came later");
    }

    /** The first active row decides, so a row that asks for less must never stand before one that asks for more. */
    @Test
    void rows_strongestResponseFirstAndAmongThoseTheStrongestReset() {
        Interlock before = null;
        for (Interlock row : Interlock.values()) {
            if (!row.cause.isFact()) {
                continue;
            }
            if (before != null) {
                assertTrue(before.response.ordinal() <= row.response.ordinal(), before + " before " + row);
                boolean same = before.response == row.response;
                assertTrue(!same || before.reset.ordinal() >= row.reset.ordinal(), before + " before " + row);
            }
            before = row;
        }
    }
}
