package sprag.supervisor.vocabulary;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import sprag.supervisor.TestVehicle;

/** What holds the numbers of a tick, and how its parts are named. */
class ValuesTest {
    private static final int WORD = 64;

    static Stream<Interlock> rowsOfFacts() {
        return Stream.of(Interlock.values()).filter(row -> row.cause.isFact());
    }

    private static boolean isQuiet(Watch watch, byte[] value) {
        long low = 0;
        long high = 0;
        for (int i = 0; i < value.length; i++) {
            low |= i < WORD && value[i] != 0 ? 1L << i : 0;
            high |= i >= WORD && value[i] != 0 ? 1L << i - WORD : 0;
        }
        return watch.isQuiet(low, high);
    }

    /** The quick look tells what the look at every fact tells: this fact, with this value, and no other. */
    @ParameterizedTest(name = "{0}")
    @MethodSource("rowsOfFacts")
    void watch_ofOneRow_hearsItsOwnFactOnly(Interlock row) {
        Watch watch = new Watch(List.of(row));
        for (int asked : new int[] {0, 1}) {
            for (Fact other : Fact.values()) {
                byte[] value = new byte[Fact.COUNT];
                value[row.cause.fact().ordinal()] = (byte) asked;
                value[other.ordinal()] = (byte) (other == row.cause.fact() ? asked : 1);
                boolean acts = asked == row.cause.value();
                assertEquals(acts ? 0 : -1, watch.firstActive(value), other + " " + asked);
                assertEquals(!acts, isQuiet(watch, value), other + " " + asked);
            }
        }
        assertEquals(1, watch.size());
        assertEquals(row, watch.row(0));
    }

    @Test
    void watch_ofAState_leavesOutWhatOnlyWarns_andWhatIsTakenOut() {
        Watch all = new Watch(State.DRIVE_ENABLE, Set.of());
        Watch fewer = new Watch(State.DRIVE_ENABLE, EnumSet.of(Interlock.PLUG_PRESENT));
        assertEquals(all.size() - 1, fewer.size());
        for (int i = 0; i < all.size(); i++) {
            assertTrue(all.row(i).where.contains(State.DRIVE_ENABLE) && all.row(i).response != Response.WARN);
            assertTrue(i >= fewer.size() || fewer.row(i) != Interlock.PLUG_PRESENT);
        }
        assertTrue(Fact.COUNT > WORD, "both words are used");
    }

    @Test
    void causes_sayWhatTheyLookAt() {
        Cause when = Cause.when(Fact.PLUG_SEEN);
        assertTrue(when.isFact());
        assertEquals(1, when.value());
        assertEquals("", when.awaited());
        assertEquals(Fact.PLUG_SEEN.meaning, when.toString());
        Cause unless = Cause.unless(Fact.BRAKE_PRESSED, "the brake is not pressed");
        assertEquals(0, unless.value());
        assertEquals(Fact.BRAKE_PRESSED.meaning, unless.awaited());
        assertEquals("the brake is not pressed", unless.toString());
        Cause inSequence = Cause.inSequence("a weld");
        assertFalse(inSequence.isFact());
        assertEquals("", inSequence.awaited());
        assertEquals(null, inSequence.detection());
    }

    @Test
    void readings_keepEachSwitchAsOnOffOrNeither() {
        Readings in = new Readings();
        long key = 1L << Signal.KEY_ON.ordinal();
        assertEquals(0, in.switchesOn() | in.switchesOff(), "nobody knows");
        in.set(Signal.KEY_ON, 1);
        in.set(Signal.BRAKE_PRESSED, false);
        assertEquals(key, in.switchesOn());
        assertEquals(1L << Signal.BRAKE_PRESSED.ordinal(), in.switchesOff());
        in.set(Signal.KEY_ON, 0);
        assertEquals(0, in.switchesOn());
        assertEquals(key | 1L << Signal.BRAKE_PRESSED.ordinal(), in.switchesOff());
        in.set(Signal.KEY_ON, 0.5);
        assertFalse(in.isOn(Signal.KEY_ON) || in.isOff(Signal.KEY_ON), "half-way");
        assertEquals(0, in.switchesOn() | in.switchesOff() & key);
        in.set(Signal.PACK_VOLTAGE_V, 1);
        assertEquals(0, in.switchesOn(), "a quantity is no switch");
        in.clear();
        assertEquals(0, in.switchesOn() | in.switchesOff());
        assertTrue(Double.isNaN(in.get(Signal.PACK_VOLTAGE_V)));
    }

    @Test
    void readings_copied_areEqual_untilOneDiffers() {
        Readings one = new Readings();
        one.set(Signal.PACK_VOLTAGE_V, 350);
        one.set(Signal.KEY_ON, true);
        Readings other = new Readings();
        assertNotEquals(one, other);
        other.copyFrom(one);
        assertEquals(one, other);
        assertEquals(one.hashCode(), other.hashCode());
        assertEquals(one.switchesOn(), other.switchesOn());
        other.set(Signal.PACK_VOLTAGE_V, 351);
        assertNotEquals(one, other);
        assertNotEquals(one.hashCode(), other.hashCode());
        assertNotEquals(one, "readings");
        double[] into = new double[Signal.COUNT + 2];
        one.copyTo(into, 1);
        assertEquals(350, into[1 + Signal.PACK_VOLTAGE_V.ordinal()]);
        assertEquals(0, into[0] + into[Signal.COUNT + 1]);
    }

    @Test
    void commands_copied_areEqual_untilOneDiffers() {
        Commands one = new Commands();
        one.set(Output.TORQUE_REQUEST_NM, 12);
        one.set(Output.INVERTER_ENABLE, true);
        Commands other = new Commands();
        assertNotEquals(one, other);
        other.copyFrom(one);
        assertEquals(one, other);
        assertEquals(one.hashCode(), other.hashCode());
        other.set(Output.TORQUE_REQUEST_NM, Double.NaN);
        assertEquals(0, other.get(Output.TORQUE_REQUEST_NM), "no later stage sees a NaN");
        assertNotEquals(one, other);
        assertNotEquals(one.hashCode(), other.hashCode());
        assertNotEquals(one, "commands");
        double[] into = new double[Output.COUNT + 2];
        one.copyTo(into, 1);
        assertEquals(12, into[1 + Output.TORQUE_REQUEST_NM.ordinal()]);
        assertEquals(0, into[0] + into[Output.COUNT + 1]);
        one.release();
        assertEquals(new Commands(), one);
    }

    @Test
    void settings_sameValuesAndSignals_areEqual_andOthersAreNot() {
        Settings one = TestVehicle.full();
        assertEquals(one, TestVehicle.full());
        assertEquals(one.hashCode(), TestVehicle.full().hashCode());
        Settings lighter = one.with(Parameter.DRIVE_MASS_KG, one.get(Parameter.DRIVE_MASS_KG) - 1);
        assertNotEquals(one, lighter);
        assertNotEquals(one.hashCode(), lighter.hashCode());
        assertNotEquals(one, one.without(Signal.MOTOR_TEMP_V));
        assertNotEquals(one, "settings");
    }

    @ParameterizedTest
    @EnumSource(Output.class)
    void output_hasAKeyInLowerCase_andShowsOrSwitchesOrIsAQuantity(Output output) {
        assertEquals(output.name(), output.key().toUpperCase(java.util.Locale.ROOT));
        assertEquals(output.key().toLowerCase(java.util.Locale.ROOT), output.key());
        boolean quantity = output.key().matches(".*_(nm|a|v|duty|fraction)");
        assertEquals(!quantity, output.isSwitch());
        boolean shows = output.key().matches(".*_lamp|buzzer|heartbeat");
        assertEquals(!quantity && !shows, output.switchesPower());
    }

    @ParameterizedTest
    @EnumSource(Signal.class)
    void signal_isASwitchOrHasAUnitInItsName(Signal signal) {
        boolean quantity = signal.key().matches(".*_(v|a|rpm|kph|kohm|hz|nm|duty|ma|ms|hot_v|cold_v)");
        assertEquals(!quantity, signal.isSwitch() || signal.key().equals("regen_level"), signal.key());
    }

    /** 0.5 of the pack a second is flat; 47 ohm and 3300 uF: (1 - 0.95) / 0.155 s are 0.322 a second, 0.3 of it 0.097. */
    @ParameterizedTest
    @CsvSource({
        "0.5, 0.95, 0.1551, 0.05, a tenth of the flat limit is the less",
        "2, 0.95, 0.1551, 0.0967, three tenths of the last slope are",
        "2, 0.9, 0.1551, 0.1934, earlier it rises quicker",
        "2, 0.95, 0.3102, 0.04836, a slower bus"
    })
    void stalledBus_risesLessThanBothLimits(
            double flatPerS, double done, double timeConstantS, double perS, String because) {
        assertEquals(perS, BusRise.stallPerS(flatPerS, done, timeConstantS), 1e-4, because);
    }

    @Test
    void column_withAStrangeLetter_namesStateAndPlace() {
        String sound = "";
        for (State state : State.values()) {
            sound += state == State.OFF ? " " : state.letter;
        }
        Set<State> all = State.inColumn(sound);
        assertEquals(EnumSet.complementOf(EnumSet.of(State.OFF)), all);
        String strange = "?" + sound.substring(1);
        String told = assertThrows(IllegalStateException.class, () -> State.inColumn(strange))
                .getMessage();
        assertTrue(told.endsWith("belongs in place 1") && told.contains("whether OFF"), told);
        String shorter = sound.substring(0, State.COUNT - 1);
        told = assertThrows(IllegalStateException.class, () -> State.inColumn(shorter))
                .getMessage();
        assertTrue(told.endsWith("belongs in place " + State.COUNT), told);
        String longer = sound + " ";
        assertThrows(IllegalStateException.class, () -> State.inColumn(longer));
    }

    @Test
    void row_ofAChoice_rangesOverItsWords_andANumberOverItsLimits() {
        Row.Spec choice = Row.Spec.choice(1, List.of("a", "b", "c"), "be wrong");
        assertEquals(0, choice.min());
        assertEquals(2, choice.max());
        assertEquals(List.of("a", "b", "c"), choice.choices());
        Row.Spec number = Row.Spec.number(choice.unit(), 5, 1, 9, "be wrong");
        assertEquals(List.of(1.0, 5.0, 9.0), List.of(number.min(), number.byDefault(), number.max()));
        assertEquals(List.of(), number.choices());
    }

    @Test
    void reset_stronger_isTheOneThatAsksForMore() {
        for (Reset one : Reset.values()) {
            for (Reset other : Reset.values()) {
                assertEquals(Reset.of(Math.max(one.ordinal(), other.ordinal())), one.orStronger(other));
            }
        }
    }
}
