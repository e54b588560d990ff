package sprag.supervisor.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.supervisor.Rig;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** H03: two speeds are compared. They may differ by 3 km/h and 15 % of the faster one, and by more for 150 ms. */
class WheelSpeedTest {
    private static final double KPH_PER_RPM = 2 * Math.PI * 0.3 / 8 / 60 * 3.6;

    private final Settings settings = TestVehicle.full();
    private final Readings in = new Rig().in;
    private final TickFacts facts = new TickFacts();
    private final Conditioned c = new Conditioned();
    private final SpeedInput speed = new SpeedInput(settings);
    private final Debounce debounce = new Debounce(settings);
    private final Commands last = new Commands();
    private double motorKph;

    private void look(double toKph, double wheelKph, int ticks) {
        for (int i = 0; i < ticks; i++) {
            motorKph = toKph;
            in.set(Signal.MOTOR_SPEED_RPM, motorKph / KPH_PER_RPM);
            in.set(Signal.WHEEL_SPEED_KPH, wheelKph);
            debounce.begin(in);
            speed.update(in, last, facts, debounce, c);
        }
    }

    /** Brings both to a speed, 0.5 km/h a tick. */
    private void both(double toKph) {
        while (Math.abs(toKph - motorKph) > 0.25) {
            double next = motorKph + Math.copySign(0.5, toKph - motorKph);
            look(next, Math.abs(next), 1);
        }
        look(toKph, Math.abs(toKph), 20);
    }

    private boolean doubted() {
        return facts.is(Fact.SPEED_DOUBTED);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        MOTOR | WHEEL | TICKS | DOUBTED | BECAUSE
        20    | 26.9  | 100   | false   | 3 km/h and 15 % of 26.9: slip or a bend
        20    | 27.2  | 15    | false   | too much, yet not for long: a bump
        20    | 27.2  | 16    | true    | too much for too long
        20    | 14.1  | 100   | false   | the motor may be faster by as much
        20    | 13.9  | 16    | true    | and not by more
        -8    | 8     | 100   | false   | the second speed has no sign
        0     | 2.9   | 100   | false   | creeping
        0     | 3.7   | 16    | true    | the car moves and the motor says no
        20    | NaN   | 100   | false   | an unknown second speed says nothing
        """)
    void speedsApart_areDoubtedBeyondSlip(double kph, double wheelKph, int ticks, boolean doubted, String because) {
        both(kph);
        look(kph, wheelKph, ticks);
        assertEquals(doubted, doubted(), because);
        assertEquals(doubted, Double.isNaN(c.speedKph), "a doubted speed is unknown");
    }

    @Test
    void wheelsSpinOnIce_gripReturns_believedWithoutKeyOrBrake() {
        both(20);
        for (int i = 0; i < 10; i++) {
            look(20 + 1.5 * i, 20, 1);
        }
        look(35, 20, 100);
        assertTrue(doubted(), "they spin for a second");
        look(21, 20, 2 * SpeedInput.STEADY_MS / 10);
        assertFalse(doubted());
    }

    @Test
    void wheelsLockOnIce_turnAgain_believedWithoutKey() {
        both(40);
        look(0, 40, 50);
        assertTrue(doubted());
        look(38, 38, 2);
        look(37.5, 37.5, 10);
        look(37, 37, 2 * SpeedInput.STEADY_MS / 10);
        assertFalse(doubted());
    }

    @Test
    void motorWireBroken_keyTurnedWhileRolling_isDoubtedAgain() {
        both(30);
        look(0, 30, 20);
        facts.set(Fact.KEY_OFF, true);
        look(0, 30, 1);
        facts.set(Fact.KEY_OFF, false);
        facts.set(Fact.KEY_ON, true);
        look(0, 30, 20);
        assertTrue(doubted(), "the wheel still turns");
    }

    @Test
    void motorWireBroken_brakeHeldWhileTheCarRolls_isNotBelieved() {
        both(30);
        facts.set(Fact.BRAKE_PRESSED, true);
        look(0, 30, 5000);
        assertTrue(doubted(), "a brake that does not stop the car proves nothing");
        look(0, 0, 5000);
        assertFalse(doubted());
    }

    @ParameterizedTest(name = "{0}: lost {1}")
    @CsvSource({"NaN, true", "-0.1, true", "0, false", "300, false", "300.1, true"})
    void secondSpeed_unknownOrBeyondItsRange_isTold(double wheelKph, boolean lost) {
        look(0, wheelKph, 20);
        assertEquals(lost, facts.is(Fact.WHEEL_SPEED_LOST));
    }
}
