package sprag.supervisor.auxiliaries;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.input.TickFacts;
import sprag.supervisor.logic.Journal;
import sprag.supervisor.logic.Logic;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;
import sprag.supervisor.vocabulary.State;

/** Blinking begins with light and with sound: whoever looks at the moment when something begins sees it. Ticks of 10 ms. */
class LampPhaseTest {
    private final TickFacts f = new TickFacts();
    private final Conditioned c = new Conditioned();
    private final Readings in = new Readings();
    private final Commands out = new Commands();
    private final Logic logic = new Logic(TestVehicle.full(), Set.of(), Journal.SILENT);
    private final Auxiliaries aux = new Auxiliaries(TestVehicle.full());

    LampPhaseTest() {
        for (Signal signal : Signal.values()) {
            in.set(signal, 0);
        }
        c.speedKph = 0;
        c.inverterTempC = c.coolantTempC = c.chargerTempC = c.motorTempC = c.heaterTempC = 25;
    }

    private void run(int ticks) {
        for (int i = 0; i < ticks; i++) {
            aux.shape(logic, f, c, in, out);
        }
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            PHASE    | DELIVERS | TICKS | LAMP  | BECAUSE
            REFUSED  | false    | 24    | true  | 2 Hz: lit for the first quarter of a second
            REFUSED  | false    | 25    | false | dark for the second
            REFUSED  | false    | 50    | true  | and lit again
            WAITING  | false    | 99    | true  | 0.5 Hz: lit for a second
            WAITING  | false    | 100   | false | dark for the next
            WAITING  | false    | 199   | false | to its end
            WAITING  | false    | 200   | true  | and lit again
            ENDING   | false    | 100   | false | as waiting
            CHARGING | true     | 100   | true  | steady
            CHARGING | false    | 99    | true  | the contactors are on their way: as waiting
            CHARGING | false    | 100   | false | as waiting
            FINISHED | false    | 24    | false | dark
            """)
    void chargeLamp_isLitFirst(ChargePhase phase, boolean delivers, int ticks, boolean lamp, String because) {
        logic.state().state = State.CHARGE_LOCKOUT;
        logic.state().charge = phase;
        logic.permissions().charging = delivers;
        f.set(Fact.PLUG_SEEN, true);
        run(ticks);
        assertEquals(lamp, out.isOn(Output.CHARGE_LAMP), because);
    }

    @Test
    void warning_isLitFirst() {
        logic.state().state = State.DRIVE_ENABLE;
        f.set(Fact.MOTOR_WARM, true);
        run(24);
        assertTrue(out.isOn(Output.FAULT_LAMP));
        run(1);
        assertFalse(out.isOn(Output.FAULT_LAMP));
        logic.state().state = State.FAULT;
        run(1);
        assertTrue(out.isOn(Output.FAULT_LAMP), "a latch is steady");
    }

    /** Each cause by itself, the first in the table as well as the last. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("warnings")
    void anyCauseWhileDriving_lightsTheFaultLamp(Interlock row) {
        logic.state().state = State.DRIVE_ENABLE;
        f.set(row.cause.fact(), row.cause.value());
        run(1);
        assertTrue(out.isOn(Output.FAULT_LAMP));
    }

    static Stream<Interlock> warnings() {
        return Stream.of(Interlock.values())
                .filter(row -> row.where.contains(State.DRIVE_ENABLE) && row.cause.isFact() && row.cause.value() == 1)
                .filter(row -> row != Interlock.PEDAL_WITH_BRAKE && row != Interlock.GAUGE_UNSURE);
    }

    @Test
    void rollingAway_soundsFirst() {
        logic.state().state = State.DRIVE_ENABLE;
        run(400);
        f.set(Fact.ROLLING_AWAY, true);
        run(24);
        assertTrue(out.isOn(Output.BUZZER));
        run(1);
        assertFalse(out.isOn(Output.BUZZER));
    }

    /** A charge that fails sounds; a drive that fails has its lamp. */
    @ParameterizedTest(name = "from {0}")
    @CsvSource({"CHARGE_LOCKOUT, true", "DRIVE_ENABLE, false", "OFF, false"})
    void fault_beepsAfterAChargeOnly(State before, boolean beeps) {
        logic.state().state = before;
        run(400);
        logic.state().state = State.FAULT;
        run(1);
        assertEquals(beeps, out.isOn(Output.BUZZER));
    }

    /** On at 50 degree Celsius, and on until it is clearly cooler. */
    @Test
    void fan_hasHysteresis() {
        logic.state().state = State.DRIVE_ENABLE;
        logic.permissions().busConnected = true;
        f.set(Fact.KEY_ON, true);
        in.set(Signal.LV_SUPPLY_V, 13.5);
        c.coolantTempC = 49.9;
        run(1);
        assertEquals(0, out.get(Output.RADIATOR_FAN_DUTY));
        c.coolantTempC = 50;
        run(1);
        assertTrue(out.get(Output.RADIATOR_FAN_DUTY) > 0);
        c.coolantTempC = 48;
        run(1);
        assertTrue(out.get(Output.RADIATOR_FAN_DUTY) > 0);
        c.coolantTempC = 25;
        run(1);
        assertEquals(0, out.get(Output.RADIATOR_FAN_DUTY));
    }
}
