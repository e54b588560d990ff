package sprag.hal.board.firmata;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static sprag.hal.board.BoardBench.relay;
import static sprag.hal.board.BoardBench.share;
import static sprag.hal.board.BoardBench.switchOn;
import static sprag.hal.board.BoardBench.volts;

import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.hal.board.BoardBench;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSetting;
import sprag.hal.board.BoardState;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** A whole board against a simulated one, in virtual time. */
class FirmataBoardTest {
    private static final BoardMap MAP = new BoardMap(
            List.of(
                    switchOn(Signal.KEY_ON, "D2"),
                    switchOn(Signal.BRAKE_PRESSED, "D12"),
                    volts(Signal.PEDAL_A_V, "A0"),
                    volts(Signal.PEDAL_B_V, "A1")),
            List.of(
                    relay(Output.PRECHARGE_RELAY, "D4"),
                    relay(Output.POSITIVE_CONTACTOR, "D8"),
                    share(Output.RADIATOR_FAN_DUTY, "D9")));

    private BoardSim sim;

    private BoardBench bench() {
        return bench(MAP, s -> s);
    }

    private BoardBench bench(UnaryOperator<BoardSim> fault) {
        return bench(MAP, fault);
    }

    private BoardBench bench(BoardMap map, UnaryOperator<BoardSim> fault) {
        return new BoardBench(
                new FirmataDriver(), map, Map.of(BoardSetting.BAUD, 57600.0, BoardSetting.SILENCE_MS, 100.0), clock -> {
                    sim = fault.apply(
                            new BoardSim(clock).counts(0, 512).counts(1, 1023).level(2, true));
                    return sim;
                });
    }

    /** One that is armed after 300 ms with a relay asked for. */
    private BoardBench driving(UnaryOperator<BoardSim> fault) {
        return bench(fault)
                .command(Output.POSITIVE_CONTACTOR, 1)
                .command(Output.RADIATOR_FAN_DUTY, 1)
                .armAt(300);
    }

    private BoardBench driving() {
        return driving(s -> s);
    }

    @Nested
    class Inputs {
        @Test
        void whileConnected_pinsAreReadInTheSignalsUnit() {
            BoardBench bench = bench().runMs(500);
            assertEquals(1, bench.samples.get(Signal.KEY_ON));
            assertEquals(0, bench.samples.get(Signal.BRAKE_PRESSED));
            assertEquals(512 * 5.0 / 1023, bench.samples.get(Signal.PEDAL_A_V), 1e-9);
            assertEquals(5.0, bench.samples.get(Signal.PEDAL_B_V), 1e-9);
        }

        @Test
        void whileNothingChanges_everySampleStaysFresh() {
            BoardBench bench = bench();
            long[] oldestMs = {0};
            bench.clock.after(
                    400,
                    () -> bench.clock.every(10, () -> {
                        for (Signal signal : MAP.signals()) {
                            oldestMs[0] =
                                    Math.max(oldestMs[0], bench.samples.ageNs(signal, bench.clock.nowNs()) / 1_000_000);
                        }
                    }));
            bench.runMs(3000);
            assertTrue(oldestMs[0] <= 25, "sampling 10 ms, tick 10 ms, yet a sample was " + oldestMs[0] + " ms old");
        }

        @Test
        void switchChanges_theNextTickKnows() {
            BoardBench bench = bench();
            double[] seen = new double[2];
            bench.at(400, () -> sim.level(12, true));
            bench.at(399, () -> seen[0] = bench.samples.get(Signal.BRAKE_PRESSED));
            bench.at(425, () -> seen[1] = bench.samples.get(Signal.BRAKE_PRESSED));
            bench.runMs(500);
            assertEquals(0, seen[0]);
            assertEquals(1, seen[1]);
        }

        @Test
        void sampleTime_isWhenTheFrameArrived_notWhenTheLoopAsked() {
            BoardBench bench = bench();
            long[] age = new long[1];
            bench.at(400, () -> sim.freeze(true));
            bench.at(455, () -> age[0] = bench.samples.ageNs(Signal.PEDAL_A_V, bench.clock.nowNs()));
            bench.runMs(460);
            assertTrue(age[0] >= 55_000_000, "frozen for 55 ms, yet the sample is said to be " + age[0] + " ns old");
        }
    }

    @Nested
    class Arming {
        @Test
        void whileNotArmed_noPinOfTheMapBecomesAnOutputAndNothingIsDriven() {
            BoardBench bench = bench(s -> {
                for (int pin : new int[] {4, 8, 9}) {
                    s.take(new byte[] {(byte) 0xF4, (byte) pin, 0}, 3);
                }
                return s;
            });
            bench.command(Output.POSITIVE_CONTACTOR, 1).runMs(1000);
            assertEquals(PinMode.INPUT.code, sim.mode(8));
            assertEquals(PinMode.INPUT.code, sim.mode(4));
            assertEquals(0, sim.output(8));
        }

        @Test
        void pinLeftOnByAFormerProgram_isReleasedAtConnection() {
            bench(s -> {
                        s.take(new byte[] {(byte) 0x91, 1, 0}, 3);
                        assertEquals(1, s.output(8));
                        return s;
                    })
                    .runMs(500);
            assertEquals(0, sim.output(8));
        }

        @Test
        void armed_outputsFollowCommands() {
            BoardBench bench = driving();
            long[] seen = new long[3];
            bench.at(500, () -> {
                seen[0] = sim.output(8);
                seen[1] = sim.output(9);
                seen[2] = sim.output(4);
            });
            bench.runMs(600);
            assertEquals(1, seen[0], "contactor");
            assertEquals(255, seen[1], "fan at full duty");
            assertEquals(0, seen[2], "precharge was not asked for");
        }

        @Test
        void whatWasAskedBeforeArming_isNotDriven() {
            BoardBench bench = bench().command(Output.POSITIVE_CONTACTOR, 1);
            long[] driven = new long[1];
            bench.at(290, bench::killLoop);
            bench.armAt(300);
            bench.clock.after(301, () -> bench.clock.every(1, () -> driven[0] |= sim.output(8)));
            bench.runMs(900);
            assertEquals(BoardState.SEARCHING, bench.board.state());
            assertEquals(0, driven[0]);
        }

        @Test
        void boardIgnoresPinModes_armingIsRefusedInWords() {
            BoardBench bench = bench();
            bench.at(280, () -> sim.take(new byte[] {(byte) 0xF4, 8, 0}, 3));
            bench.at(290, () -> sim.ignoreModes());
            bench.armAt(300).command(Output.POSITIVE_CONTACTOR, 1).runMs(600);
            assertTrue(
                    bench.said("pin D8 for positive_contactor was told to be a digital output but says"),
                    bench.healths::toString);
        }
    }

    @Nested
    @DisplayName("H14 the supervisor is blind; H15 it energises by itself")
    class Losses {
        private void assertLostAndReleased(BoardBench bench, String... words) {
            assertTrue(bench.said(words), () -> "said only: " + bench.healths);
            assertEquals(0, sim.output(8), "contactor");
            assertEquals(0, sim.output(9), "fan");
        }

        @Test
        void whileDriving_boardFreezes_lostWithinTheLimit() {
            BoardBench bench = driving();
            boolean[] well = new boolean[2];
            bench.at(500, () -> sim.freeze(true));
            bench.at(590, () -> well[0] = bench.board.health().isWell());
            bench.at(620, () -> well[1] = bench.board.health().isWell());
            bench.runMs(700);
            assertTrue(well[0], "90 ms of silence are inside the limit of 100 ms");
            assertFalse(well[1]);
            assertTrue(bench.said("has been silent for", "limit 100 ms"), bench.healths::toString);
        }

        @Test
        void whileDriving_boardRestarts_linkIsLostAtOnce() {
            BoardBench bench = driving();
            bench.at(500, () -> sim.restart(true));
            bench.runMs(700);
            assertLostAndReleased(bench, "the board started anew");
        }

        @Test
        void whileDriving_boardRestartsUnheard_silenceTellsIt() {
            BoardBench bench = driving();
            bench.at(500, () -> sim.restart(false));
            bench.runMs(700);
            assertLostAndReleased(bench, "has been silent for");
        }

        @Test
        void whileDriving_lineGarbles_lostAndReleased() {
            BoardBench bench = driving();
            bench.at(500, () -> sim.garble(0.2, 7));
            bench.runMs(1200);
            assertFalse(bench.board.health().isWell());
            assertEquals(0, sim.output(8));
        }

        @Test
        void whileDriving_boardFloods_lostAndReleased() {
            BoardBench bench = driving();
            bench.at(500, () -> sim.flood());
            bench.runMs(700);
            assertLostAndReleased(bench, "floods");
        }

        @Test
        void whileDriving_boardTakesNothingIn_portsFallSilentThoughAnaloguesGoOn() {
            BoardBench bench = driving();
            bench.at(500, () -> sim.deafen());
            bench.runMs(700);
            assertTrue(bench.said("key_on on D2 has been silent"), bench.healths::toString);
        }

        @Test
        void whileDriving_loopDies_outputsReleasedWithinTheLimit() {
            BoardBench bench = driving();
            long[] seen = new long[2];
            bench.at(500, bench::killLoop);
            bench.at(730, () -> seen[0] = sim.output(8));
            bench.at(770, () -> seen[1] = sim.output(8));
            bench.runMs(900);
            assertEquals(1, seen[0], "230 ms without a command are inside the limit of 250 ms");
            assertEquals(0, seen[1]);
            assertTrue(bench.said("no command came for", "until it is armed again"), bench.healths::toString);
        }

        @Test
        void loopRevivesAfterItDied_nothingIsDrivenUntilArmedAgain() {
            BoardBench bench = driving();
            long[] seen = new long[2];
            bench.at(500, bench::killLoop);
            bench.at(900, bench::reviveLoop);
            bench.at(1100, () -> seen[0] = sim.output(8));
            bench.armAt(1200);
            bench.at(1300, () -> seen[1] = sim.output(8));
            bench.runMs(1400);
            assertEquals(0, seen[0], "by itself");
            assertEquals(1, seen[1], "armed again");
        }

        @Test
        void cablePulledAndBack_readsAgainButDrivesOnlyOnceArmed() {
            BoardBench bench = driving();
            long[] seen = new long[2];
            boolean[] read = new boolean[1];
            bench.at(500, bench.port::unplug);
            bench.at(1000, () -> {
                sim.restart(true);
                bench.port.plug();
            });
            bench.at(3000, () -> {
                seen[0] = sim.output(8);
                read[0] = bench.samples.ageNs(Signal.PEDAL_A_V, bench.clock.nowNs()) < 30_000_000;
            });
            bench.armAt(3100);
            bench.at(3300, () -> seen[1] = sim.output(8));
            bench.runMs(3500);
            assertTrue(read[0], "inputs are read again by themselves");
            assertEquals(0, seen[0], "reconnection never arms");
            assertEquals(1, seen[1]);
            assertTrue(bench.said("is gone"), bench.healths::toString);
            assertTrue(
                    bench.said("is back, but its outputs stay released until it is armed again"),
                    bench.healths::toString);
        }

        @Test
        void release_atAnyTime_releasesAndTheNextCommandDrivesAgain() {
            BoardBench bench = driving();
            long[] seen = new long[2];
            bench.at(505, () -> {
                bench.killLoop();
                bench.board.release();
            });
            bench.at(507, () -> seen[0] = sim.output(8));
            bench.at(1500, bench::reviveLoop);
            bench.at(1520, () -> seen[1] = sim.output(8));
            bench.runMs(1600);
            assertEquals(0, seen[0]);
            assertEquals(1, seen[1], "a release is not a loss: the board is still armed");
        }

        @Test
        void close_releasesEverything() {
            driving().runMs(600);
            assertEquals(0, sim.output(8));
            assertEquals(0, sim.output(9));
        }

        @ParameterizedTest(name = "at {0} ms")
        @ValueSource(longs = {0, 1, 2, 3, 5, 8, 13, 21, 34, 55, 89, 144, 233, 300, 301, 302, 303, 304, 310, 377})
        void cablePulledAtAnyMoment_everBack_nothingIsDrivenUnarmed(long pulledMs) {
            BoardBench bench = driving();
            long[] driven = new long[1];
            bench.at(pulledMs, bench.port::unplug);
            bench.at(pulledMs + 100, () -> {
                sim.restart(true);
                bench.port.plug();
            });
            bench.clock.after(
                    pulledMs + 400,
                    () -> bench.clock.every(5, () -> {
                        if (bench.board.state() != BoardState.ARMED) {
                            driven[0] |= sim.output(8);
                        }
                    }));
            bench.runMs(pulledMs + 4000);
            assertEquals(0, driven[0]);
        }
    }

    @Nested
    class WrongBoards {
        @Test
        void nobodyAnswers_saysSo() {
            BoardBench bench = bench(s -> s.freeze(true)).runMs(6500);
            assertTrue(bench.said("nothing answers on memory within 6000 ms", "57600 baud"), bench.healths::toString);
        }

        @Test
        void anotherDevice_isToldByWhatItSays() {
            BoardBench bench = bench(BoardSim::alien).runMs(6500);
            assertTrue(bench.said("not in Firmata", "24 47 50 0D 0A"), bench.healths::toString);
        }

        @Test
        void olderFirmwareThanPortsNeed_isRefused() {
            BoardBench bench = bench(s -> s.version(3)).runMs(500);
            assertTrue(bench.said("speaks Firmata 2.3", "need 2.4"), bench.healths::toString);
        }

        @Test
        void mapNamesWhatTheBoardLacks_everyMisfitIsNamedAndNoPinIsTouched() {
            BoardMap wrong = new BoardMap(
                    List.of(
                            switchOn(Signal.KEY_ON, "D42"),
                            volts(Signal.PEDAL_A_V, "D7"),
                            switchOn(Signal.BRAKE_PRESSED, "D1")),
                    List.of(share(Output.RADIATOR_FAN_DUTY, "D4"), relay(Output.POSITIVE_CONTACTOR, "D7")));
            BoardBench bench = bench(wrong, s -> s).armAt(300).runMs(600);
            assertTrue(
                    bench.said(
                            "nothing was set",
                            "key_on on D42: the board has 20 pins and none is called D42",
                            "pedal_a_v on D7: pin 7 cannot be analogue input; it can be digital input, digital output",
                            "brake_pressed on D1: pin 1 cannot be digital input; it can be nothing that is used here",
                            "radiator_fan_duty on D4: pin 4 cannot be PWM output",
                            "positive_contactor on D7: that is pin 7, which is already pedal_a_v on D7"),
                    bench.healths::toString);
            assertEquals(PinMode.OUTPUT.code, sim.mode(7), "as at power-on");
        }

        @Test
        void otherResolutionThanTheMapScales_isRefused() {
            BoardBench bench = bench(s -> s.analogueBits(12)).runMs(500);
            assertTrue(
                    bench.said("pedal_a_v on A0: the board gives 12 bits, the map scales 10 bits"),
                    bench.healths::toString);
        }

        @Test
        void aNameThatIsTheSamePinByNumberAndByChannel_isRefused() {
            BoardMap twice = new BoardMap(
                    List.of(volts(Signal.PEDAL_A_V, "A0")), List.of(relay(Output.POSITIVE_CONTACTOR, "14")));
            BoardBench bench = bench(twice, s -> s).runMs(500);
            assertTrue(
                    bench.said("positive_contactor on 14: that is pin 14, which is already pedal_a_v on A0"),
                    bench.healths::toString);
        }

        @Test
        void portsAreReportedOnChangeOnly_saysWhichInputIsSilent() {
            BoardBench bench = bench(BoardSim::ignorePorts).runMs(2000);
            assertTrue(bench.said("sends nothing for brake_pressed on D12"), bench.healths::toString);
        }

        @Test
        void moreReadingsThanTheLineCarries_isRefused() {
            BoardBench bench = new BoardBench(
                            new FirmataDriver(),
                            MAP,
                            Map.of(BoardSetting.BAUD, 9600.0, FirmataSetting.SAMPLING_MS, 10.0),
                            clock -> new BoardSim(clock))
                    .runMs(500);
            assertTrue(
                    bench.said("4 inputs every 10 ms are up to 1200 bytes a second, the line carries 960"),
                    bench.healths::toString);
        }

        @Test
        void boardWithOutputsOnly_silenceIsToldAllTheSame() {
            BoardMap outputs = new BoardMap(List.of(), List.of(relay(Output.POSITIVE_CONTACTOR, "D8")));
            BoardBench bench = bench(outputs, s -> s).armAt(300).command(Output.POSITIVE_CONTACTOR, 1);
            long[] seen = new long[1];
            bench.at(490, () -> seen[0] = sim.output(8));
            bench.at(500, () -> sim.freeze(true));
            bench.runMs(700);
            assertEquals(1, seen[0], bench.healths::toString);
            assertTrue(bench.said("the board has not answered for"), bench.healths::toString);
        }
    }

    /** Bytes are lost or changed on the way for a while, and whatever happens: no exception, no hang, released at the end. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12})
    void badLineFromTheStart_neverHangsAndNeverDrivesUnarmed(long seed) {
        BoardBench bench = driving(s -> seed % 2 == 0 ? s.garble(0.05, seed) : s.cut(0.05, seed));
        long[] driven = new long[1];
        bench.clock.every(5, () -> {
            if (bench.board.state() == BoardState.READY) {
                driven[0] |= sim.output(8);
            }
        });
        bench.runMs(8000);
        assertEquals(0, driven[0]);
        assertEquals(0, sim.output(8));
    }
}
