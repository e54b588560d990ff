package sprag.hal.board.modbus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static sprag.hal.board.BoardBench.relay;
import static sprag.hal.board.BoardBench.switchOn;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.hal.board.BoardBench;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSetting;
import sprag.hal.board.BoardState;
import sprag.hal.board.InputPin;
import sprag.hal.board.OutputPin;
import sprag.hal.board.PinKind;
import sprag.hal.board.Scale;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Row;
import sprag.supervisor.vocabulary.Signal;

/** A whole board against a simulated module, in virtual time. */
class ModbusBoardTest {
    private static final Scale CENTIVOLT = new Scale(0.01, 0, 16, false);
    private static final Scale SIGNED_TENTHS = new Scale(0.1, 0, 16, true);
    private static final BoardMap MAP = new BoardMap(
            List.of(
                    switchOn(Signal.KEY_ON, "discrete:0"),
                    switchOn(Signal.BRAKE_PRESSED, "discrete:1"),
                    switchOn(Signal.PLUG_PRESENT, "input:9.3"),
                    number(Signal.BUS_VOLTAGE_V, "input:4", CENTIVOLT),
                    number(Signal.PACK_CURRENT_A, "holding:10", SIGNED_TENTHS)),
            List.of(
                    relay(Output.NEGATIVE_CONTACTOR, "coil:0"),
                    relay(Output.PRECHARGE_RELAY, "coil:1"),
                    relay(Output.POSITIVE_CONTACTOR, "coil:3"),
                    new OutputPin(Output.TORQUE_REQUEST_NM, "holding:20", PinKind.ANALOGUE, false, SIGNED_TENTHS, 0)));

    private ModuleSim sim;

    private static InputPin number(Signal signal, String pin, Scale scale) {
        return new InputPin(signal, pin, PinKind.ANALOGUE, false, scale, 0);
    }

    private BoardBench bench(UnaryOperator<ModuleSim> fault) {
        return bench(MAP, Map.of(), fault);
    }

    private BoardBench bench(BoardMap map, Map<Row, Double> more, UnaryOperator<ModuleSim> fault) {
        Map<Row, Double> settings = new HashMap<>(more);
        settings.putIfAbsent(BoardSetting.BAUD, 115200.0);
        settings.putIfAbsent(BoardSetting.CONNECT_MS, 400.0);
        settings.putIfAbsent(BoardSetting.SILENCE_MS, 100.0);
        settings.put(ModbusSetting.UNIT_ID, 17.0);
        return new BoardBench(new ModbusDriver(), map, settings, clock -> {
            sim = fault.apply(new ModuleSim(clock, 17)
                    .discrete(0, true)
                    .input(4, 32010)
                    .input(9, 0b1000)
                    .holding(10, -125 & 0xFFFF));
            return sim;
        });
    }

    private BoardBench driving(UnaryOperator<ModuleSim> fault) {
        return bench(fault)
                .command(Output.POSITIVE_CONTACTOR, 1)
                .command(Output.TORQUE_REQUEST_NM, -12.5)
                .armAt(100);
    }

    @Nested
    class Pins {
        @Test
        void whileConnected_pinsAreReadInTheSignalsUnit() {
            BoardBench bench = bench(s -> s).runMs(200);
            assertEquals(1, bench.samples.get(Signal.KEY_ON), bench.healths::toString);
            assertEquals(0, bench.samples.get(Signal.BRAKE_PRESSED));
            assertEquals(1, bench.samples.get(Signal.PLUG_PRESENT), "bit 3 of input register 9");
            assertEquals(320.10, bench.samples.get(Signal.BUS_VOLTAGE_V), 1e-9);
            assertEquals(-12.5, bench.samples.get(Signal.PACK_CURRENT_A), 1e-9, "two's complement");
        }

        @Test
        void armed_outputsFollowCommands() {
            BoardBench bench = driving(s -> s);
            Object[] seen = new Object[3];
            bench.at(200, () -> {
                seen[0] = sim.coil(3);
                seen[1] = sim.coil(1);
                seen[2] = sim.holding(20);
            });
            bench.runMs(220);
            assertEquals(true, seen[0], bench.healths::toString);
            assertEquals(false, seen[1]);
            assertEquals(-125 & 0xFFFF, seen[2]);
            assertFalse(sim.coil(3), "released at the end");
            assertEquals(0, sim.holding(20));
        }

        /** At 1200 Bd eight bytes are 67 ms on the line; a module that answers 40 ms later is in time, one of 60 ms is not. */
        @ParameterizedTest(name = "answer {0} ms after the port took the request")
        @CsvSource({"107, true", "127, false", "150, false", "217, false", "300, false"})
        void slowLine_timeOutCountsFromTheEndOfTheRequest(long ms, boolean well) {
            Map<Row, Double> slow = Map.of(
                    BoardSetting.BAUD,
                    1200.0,
                    BoardSetting.SILENCE_MS,
                    1000.0,
                    ModbusSetting.TIMEOUT_MS,
                    50.0,
                    ModbusSetting.RETRIES,
                    0.0);
            BoardMap one = new BoardMap(List.of(switchOn(Signal.KEY_ON, "discrete:0")), List.of());
            BoardBench bench = bench(one, slow, s -> s.delayMs(ms)).runMs(2000);
            assertEquals(well, bench.samples.get(Signal.KEY_ON) == 1, bench.healths::toString);
            assertEquals(!well, bench.said("make modbus.timeout_ms longer"), bench.healths::toString);
        }

        @ParameterizedTest(name = "without function {0}")
        @ValueSource(ints = {5, 6, 15, 16})
        void moduleLacksOneWayOfWriting_theOtherIsUsed(int function) {
            BoardBench bench = driving(s -> s.lacks(function));
            boolean[] seen = new boolean[1];
            bench.at(200, () -> seen[0] = sim.coil(3) && sim.holding(20) != 0);
            bench.runMs(220);
            assertTrue(seen[0], bench.healths::toString);
        }

        @Test
        void whileNotArmed_nothingIsDrivenAndWhatWasOnIsReleased() {
            BoardBench bench = bench(s -> s.coil(0, true).holding(20, 999)).command(Output.POSITIVE_CONTACTOR, 1);
            bench.runMs(300);
            assertFalse(sim.coil(3));
            assertFalse(sim.coil(0), "left on by a former program");
            assertEquals(0, sim.holding(20));
        }

        @Test
        void outputsDoNotChange_theyAreRefreshedAllTheSame() {
            BoardBench bench = driving(s -> s);
            boolean[] seen = new boolean[1];
            bench.at(300, () -> sim.coil(3, false));
            bench.at(560, () -> seen[0] = sim.coil(3));
            bench.runMs(600);
            assertTrue(seen[0], "refreshed within 200 ms");
        }
    }

    @Nested
    @DisplayName("H14 the supervisor is blind; H15 it energises by itself")
    class Losses {
        @Test
        void whileDriving_moduleFallsSilent_lostInWords() {
            BoardBench bench = driving(s -> s);
            bench.at(300, () -> sim.silent(true));
            bench.runMs(600);
            assertTrue(
                    bench.said("unit 17 on memory gave no good reply", "2 attempts of 50 ms"), bench.healths::toString);
            assertEquals(BoardState.SEARCHING, bench.board.state());
        }

        @Test
        void whileDriving_cablePulledAndBack_drivesOnlyOnceArmed() {
            BoardBench bench = driving(s -> s);
            boolean[] seen = new boolean[2];
            bench.at(300, bench.port::unplug);
            bench.at(500, bench.port::plug);
            bench.at(1900, () -> seen[0] = sim.coil(3));
            bench.armAt(2000);
            bench.at(2200, () -> seen[1] = sim.coil(3));
            bench.runMs(2300);
            assertFalse(seen[0], "reconnection released what the lost link had left on");
            assertTrue(seen[1], bench.healths::toString);
        }

        @ParameterizedTest(name = "{0}")
        @CsvSource(delimiter = '|', textBlock = """
            2  | no such address
            4  | failed while doing it
            6  | busy
            """)
        void whileDriving_moduleAnswersWithAnException_lostInWords(int code, String words) {
            BoardBench bench = driving(s -> s);
            bench.at(300, () -> sim.exception(code));
            bench.runMs(600);
            assertTrue(bench.said(words), bench.healths::toString);
        }

        @Test
        void whileDriving_oneRequestIsLost_nobodyNotices() {
            BoardBench bench = driving(s -> s);
            bench.at(300, () -> sim.drop(1));
            bench.runMs(700);
            assertEquals("well", bench.healths.get(1));
            assertFalse(bench.said("gave no good reply"), bench.healths::toString);
        }

        @Test
        @DisplayName("a late reply to one request is never taken for the reply to another of the same shape")
        void repliesComeLate_noReadingIsMixedUp() {
            BoardMap two = new BoardMap(
                    List.of(
                            number(Signal.BUS_VOLTAGE_V, "input:4", CENTIVOLT),
                            number(Signal.PACK_VOLTAGE_V, "input:30", CENTIVOLT)),
                    List.of());
            BoardBench bench = bench(
                    two,
                    Map.of(BoardSetting.SILENCE_MS, 1000.0),
                    s -> s.input(4, 1000).input(30, 2000));
            bench.at(100, () -> sim.delayMs(60));
            bench.at(400, () -> sim.delayMs(1));
            bench.clock.every(1, () -> {
                double bus = bench.samples.get(Signal.BUS_VOLTAGE_V);
                double pack = bench.samples.get(Signal.PACK_VOLTAGE_V);
                assertTrue(Double.isNaN(bus) || bus == 10.0, "bus " + bus);
                assertTrue(Double.isNaN(pack) || pack == 20.0, "pack " + pack);
            });
            bench.runMs(1500);
        }
    }

    @Nested
    class WrongModules {
        @Test
        void nobodyAnswers_saysWhatToLookAt() {
            BoardBench bench = bench(s -> s.silent(true)).runMs(900);
            assertTrue(bench.said("not one byte came", "the polarity of A and B"), bench.healths::toString);
        }

        @Test
        void anotherUnitAnswers_isNotTaken() {
            BoardBench bench = bench(s -> s.answersAs(18)).runMs(900);
            assertTrue(bench.said("unit 18 answered instead"), bench.healths::toString);
        }

        @Test
        void checkSumsAreWrong_saysSo() {
            BoardBench bench = bench(s -> s.wrongSum(true)).runMs(900);
            assertTrue(bench.said("check sum is wrong"), bench.healths::toString);
        }

        @Test
        void repliesBreakOff_saysSo() {
            BoardBench bench = bench(s -> s.half(true)).runMs(900);
            assertTrue(bench.said("broke off"), bench.healths::toString);
        }

        @Test
        void mapNamesWhatTheModuleLacks_nothingIsDriven() {
            BoardMap wrong = new BoardMap(
                    List.of(switchOn(Signal.KEY_ON, "discrete:0")),
                    List.of(relay(Output.POSITIVE_CONTACTOR, "coil:64")));
            BoardBench bench = bench(wrong, Map.of(), s -> s).armAt(100).runMs(300);
            assertTrue(
                    bench.said(
                            "does not fit the module, so nothing was driven",
                            "reading coil 64",
                            "no such address (exception 2)"),
                    bench.healths::toString);
        }

        @Test
        void writesAreConfirmedButNotKept_armingIsRefused() {
            BoardBench bench = bench(s -> s.coil(0, true).readOnly()).armAt(100).runMs(300);
            assertTrue(
                    bench.said("negative_contactor on coil:0 was set to its safe value 0 but reads back 1"),
                    bench.healths::toString);
        }

        @Test
        void moreThanTheLineCarries_isRefused() {
            BoardBench bench =
                    bench(MAP, Map.of(BoardSetting.BAUD, 1200.0), s -> s).runMs(300);
            assertTrue(bench.said("reading all inputs takes", "silent after 100 ms"), bench.healths::toString);
        }

        @Test
        void watchdogRegister_isSetAndReadBack() {
            Map<Row, Double> watchdog =
                    Map.of(ModbusSetting.WATCHDOG_REGISTER, 50.0, ModbusSetting.WATCHDOG_VALUE, 5.0);
            BoardBench bench = bench(MAP, watchdog, s -> s).runMs(200);
            assertEquals(5, sim.holding(50), bench.healths::toString);
            bench(MAP, watchdog, s -> s.readOnly()).runMs(200);
            assertEquals(0, sim.holding(50));
        }

        @Test
        void watchdogIsNotTaken_nothingIsTrusted() {
            Map<Row, Double> watchdog =
                    Map.of(ModbusSetting.WATCHDOG_REGISTER, 50.0, ModbusSetting.WATCHDOG_VALUE, 5.0);
            BoardBench bench = bench(MAP, watchdog, s -> s.readOnly()).runMs(200);
            assertTrue(
                    bench.said("the watchdog in holding register 50 was set to 5 but reads 0"),
                    bench.healths::toString);
        }
    }
}
