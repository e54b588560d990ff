package sprag.hal.bus;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import sprag.hal.board.BoardSession;
import sprag.hal.board.BoardState;
import sprag.hal.board.LinkLost;
import sprag.hal.board.MemoryPort;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** A bus that is used like a board: what is read, what is sent, and that it is released in every kind of trouble. */
class BusSessionTest {
    private static final String RELEASED = "300#00000000";
    private static final String TEN_AMPERE = "300#00640165";

    private final BusBench bus = new BusBench();

    private void charging() {
        bus.bench.command(Output.CHARGER_1_LIMIT_A, 10).command(Output.CHARGER_ENABLE, 1);
    }

    private String lastSent() {
        List<AdapterSim.Sent> sent = bus.adapter.sent;
        return sent.isEmpty() ? "nothing" : sent.get(sent.size() - 1).frame();
    }

    @Test
    void messages_received_becomeSignals() {
        bus.bench.runMs(1000);
        assertEquals(List.of("C", "V", "S6", "O"), bus.adapter.commands.subList(0, 4));
        assertEquals(96, bus.read(Signal.PACK_VOLTAGE_V), 1e-9);
        assertEquals(1, bus.read(Signal.CHARGE_PERMIT));
        assertEquals(1, bus.read(Signal.INVERTER_READY));
        assertTrue(bus.bench.said("well"), () -> "" + bus.bench.healths);
    }

    @Test
    void notArmed_commanded_sendsNothingAtAll() {
        charging();
        bus.bench.runMs(2000);
        assertEquals(List.of(), bus.adapter.sent);
    }

    @Test
    void armed_commanded_sendsEachPeriodAndAtOnceOnAChange() {
        bus.bench.armAt(500).at(1000, this::charging).runMs(1500);
        List<AdapterSim.Sent> on = bus.adapter.sent.stream()
                .filter(s -> s.frame().equals(TEN_AMPERE))
                .toList();
        assertTrue(on.get(0).atMs() - 1000 <= 12, "within a tick: " + on.get(0));
        assertTrue(on.size() >= 4 && on.size() <= 6, "each 100 ms: " + on);
        assertEquals(RELEASED, lastSent());
    }

    @Test
    void listener_isToldOfEveryFrameHeardAndSent_alsoOfTheReleaseAtTheEnd() {
        List<String> sent = new ArrayList<>();
        Map<String, Integer> heard = new TreeMap<>();
        bus.driver.listen((frame, isSent, nowNs) -> {
            if (isSent) {
                sent.add(frame.toString());
            } else {
                heard.merge(CanFrame.idText(frame.id(), frame.extended()), 1, Integer::sum);
            }
        });
        bus.bench.armAt(500).at(1000, this::charging).runMs(1500);
        bus.bench.board.close();
        assertEquals(bus.adapter.sent.stream().map(AdapterSim.Sent::frame).toList(), sent);
        assertEquals(RELEASED, sent.get(sent.size() - 1));
        assertEquals(2, heard.size(), heard::toString);
        heard.forEach((id, count) -> assertTrue(count > 20, heard::toString));
    }

    @Test
    void armed_closed_sendsReleasedFramesAndThenNothing() {
        charging();
        bus.bench.armAt(500).runMs(1000);
        List<AdapterSim.Sent> end = bus.adapter.sentAfter(995);
        assertEquals(2, end.stream().filter(s -> s.frame().equals(RELEASED)).count(), () -> "" + end);
        assertEquals(RELEASED, lastSent());
    }

    @Test
    void armed_releasedAndDrivenAgainThenDisarmed_isReleasedAgain() {
        charging();
        bus.bench
                .armAt(500)
                .at(1000, bus.bench.board::release)
                .at(1500, bus.bench.board::disarm)
                .runMs(2000);
        List<String> between =
                bus.adapter.sentAfter(1100).stream().map(AdapterSim.Sent::frame).toList();
        assertTrue(between.contains(TEN_AMPERE), "the loop drives again after the release: " + between);
        assertEquals(RELEASED, lastSent());
        assertEquals(List.of(), bus.adapter.sentAfter(1511), "and then there is silence");
    }

    /** The loop and what ends the program run on threads of their own, so a command may come in the middle of the end. */
    @Test
    void armed_loopCommandsAfterTheEndWasAskedFor_releasedFramesAreLast() {
        charging();
        int[] heard = {0};
        int[] sentBefore = {0};
        bus.driver.listen((frame, sent, nowNs) -> {
            if (!sent && nowNs > 1_900_000_000L && heard[0]++ == 0) {
                sentBefore[0] = bus.adapter.sent.size();
                bus.bench.board.close();
                bus.bench.board.command(bus.bench.commands, nowNs + 1);
                bus.bench.port.spy(bytes -> bus.bench.clock.standStillMs(3)); // a slow line
            }
        });
        bus.bench.armAt(500).runMs(3000);
        List<String> after = bus.adapter.sent.subList(sentBefore[0], bus.adapter.sent.size()).stream()
                .map(AdapterSim.Sent::frame)
                .toList();
        assertEquals(List.of(RELEASED, RELEASED), after);
    }

    /** What listens records frames; a full memory ends it, and must not end the release too. */
    @Test
    void listener_fails_outputsAreReleasedAndTheFailureIsNamed() {
        charging();
        bus.driver.listen((frame, sent, nowNs) -> {
            if (sent && bus.adapter.sent.size() > 8) {
                throw new OutOfMemoryError("no room for frames");
            }
        });
        bus.bench.armAt(500).runMs(3000);
        List<String> last =
                bus.adapter.sent.stream().map(AdapterSim.Sent::frame).toList();
        assertEquals(List.of(TEN_AMPERE, RELEASED, RELEASED), last.subList(last.size() - 3, last.size()));
        assertTrue(bus.bench.said("what records the frames failed"), () -> "" + bus.bench.healths);
    }

    /** An adapter holds frames that nobody has acknowledged; when it stays on the bus, it sends them later. */
    @Test
    void armed_closed_adapterLeavesTheBusAfterTheReleasedFrames() {
        charging();
        bus.bench.armAt(500).runMs(1000);
        List<String> commands = bus.adapter.commands;
        assertEquals("C", commands.get(commands.size() - 1));
        assertTrue(bus.adapter.sent.stream().allMatch(AdapterSim.Sent::joined), () -> "" + bus.adapter.sent);
    }

    @Test
    void armed_loopStopsAndTheReleaseCannotBeSent_staysReleasedAndSaysSoWhenItIsBack() {
        charging();
        bus.bench
                .armAt(500)
                .at(1000, () -> {
                    bus.bench.killLoop();
                    bus.bench.port.refuse(bytes -> bytes.equals("t300400000000\r"));
                })
                .at(2000, () -> bus.bench.port.refuse(bytes -> false))
                .runMs(6000);
        assertTrue(
                bus.bench.said("is back, but its outputs stay released", "no command came"),
                () -> "" + bus.bench.healths);
    }

    @Test
    void noise_withoutEnd_holdsNeitherTheOpeningNorATurn() throws LinkLost {
        long[] reads = {0};
        MemoryPort noise = new MemoryPort(new MemoryPort.FarEnd() {
            @Override
            public void take(byte[] bytes, int length) {}

            @Override
            public int give(byte[] into) {
                if (reads[0]++ > 1_000_000) {
                    throw new IllegalStateException("it is still read");
                }
                java.util.Arrays.fill(into, (byte) '?');
                return into.length;
            }
        });
        noise.open();
        SlcanLine line = new SlcanLine(noise, bus.bench.clock);
        assertThrows(LinkLost.class, () -> line.open(500, false));
        assertFalse(line.next(new CanFrame()));
    }

    @Test
    void release_oneMessageCannotBeSent_theOthersAreSent() throws LinkLost {
        bus.bench.port.open();
        bus.bench.port.refuse(bytes -> bytes.startsWith("t300"));
        BusMessage charger = BusBench.MAP.messages().get(2);
        BusMessage lamps = new BusMessage(
                "lamps", 0x400, false, BusMessage.SUPERVISOR, 1, 100, 300, null, CheckSum.NONE, 0, List.of());
        BusMap two = new BusMap(500, List.of(charger, lamps), BusBench.PINS, true);
        BoardSession session = new BusDriver(two).talk(bus.bench.port, BusBench.PINS, null, bus.bench.clock);
        assertThrows(LinkLost.class, session::arm);
        assertThrows(LinkLost.class, session::release);
        assertEquals("400#00", lastSent());
        assertEquals(3, bus.adapter.sent.size());
    }

    @Test
    void armed_loopStops_isReleasedWithinTheCommandTime() {
        charging();
        bus.bench.armAt(500).at(1000, () -> bus.bench.killLoop()).runMs(3000);
        List<AdapterSim.Sent> later = bus.adapter.sentAfter(1270);
        assertEquals(List.of(), later);
        assertEquals(RELEASED, lastSent());
        assertTrue(bus.bench.said("no command came"), () -> "" + bus.bench.healths);
    }

    @Test
    void oneMessage_staysAway_onlyItsSignalsAreUnknownAfterItsTimeOut() {
        bus.bench.armAt(500).at(1000, () -> bus.monitorSends = false);
        double[] before = new double[1];
        bus.bench.at(1050, () -> before[0] = bus.read(Signal.PACK_VOLTAGE_V)).runMs(1100);
        assertEquals(96, before[0], 1e-9, "its time-out of 60 ms after the frame at 1000 has not passed");
        assertTrue(Double.isNaN(bus.read(Signal.PACK_VOLTAGE_V)));
        assertTrue(Double.isNaN(bus.read(Signal.CHARGE_PERMIT)));
        assertEquals(1, bus.read(Signal.INVERTER_READY), "the inverter goes on speaking");
        assertFalse(bus.bench.said("no expected message"), "one silent node does not lose the bus");
    }

    @Test
    void bothWiresCut_allSilent_linkIsLostAndOutputsReleased() {
        charging();
        bus.bench
                .armAt(500)
                .at(1000, () -> {
                    bus.monitorSends = false;
                    bus.inverterSends = false;
                })
                .runMs(1300);
        assertTrue(bus.bench.said("no expected message has come"), () -> "" + bus.bench.healths);
        assertEquals(RELEASED, lastSent());
        assertEquals(List.of(), bus.adapter.sentAfter(1160), "silence after the release");
    }

    @Test
    void counter_stands_valuesAreUnknown() {
        bus.bench.at(1000, () -> bus.counterMoves = false).runMs(1200);
        assertTrue(Double.isNaN(bus.read(Signal.PACK_VOLTAGE_V)));
    }

    @Test
    void checkSum_wrong_valuesAreUnknown() {
        bus.bench.at(1000, () -> bus.sumRight = false).runMs(1200);
        assertTrue(Double.isNaN(bus.read(Signal.PACK_VOLTAGE_V)));
    }

    @Test
    void notAvailableCode_received_isUnknown() {
        bus.bench.at(1000, () -> bus.voltage = 0xFB00 / 10.0).runMs(1200);
        assertTrue(Double.isNaN(bus.read(Signal.PACK_VOLTAGE_V)));
        assertEquals(1, bus.read(Signal.CHARGE_PERMIT), "the other field of the message is still good");
    }

    @Test
    void greatestValueBelowTheCodes_received_isTaken() {
        bus.bench.at(1000, () -> bus.voltage = 0xFAFF / 10.0).runMs(1200);
        assertEquals(6425.5, bus.read(Signal.PACK_VOLTAGE_V), 1e-6);
    }

    @Test
    void identifier_comesTwiceAsOften_isNotBelieved() {
        bus.bench.clock.every(20, bus::monitor);
        bus.bench.runMs(1500);
        assertTrue(Double.isNaN(bus.read(Signal.PACK_VOLTAGE_V)));
    }

    @Test
    void ownIdentifier_sentByAnotherNode_releasesAndSaysWho() {
        charging();
        CanFrame other = new CanFrame().begin(BusBench.CHARGER, false, 4);
        bus.bench.armAt(500).at(1000, () -> bus.adapter.receive(other)).runMs(1100);
        assertTrue(bus.bench.said("another node sends 300#00000000"), () -> "" + bus.bench.healths);
        assertEquals(RELEASED, lastSent());
    }

    @Test
    void adapter_busOff_releasesAndSaysSo() {
        charging();
        bus.bench.armAt(500).at(1000, () -> bus.adapter.say("sb000256\r")).runMs(1100);
        assertTrue(bus.bench.said("bus off"), () -> "" + bus.bench.healths);
    }

    @Test
    void adapter_refusesEveryFrame_releasesAndSaysThatNobodyAcknowledges() {
        charging();
        bus.bench.armAt(500).at(1000, () -> bus.adapter.loseOthers()).runMs(5000);
        assertTrue(bus.bench.said("nobody on the bus acknowledges"), () -> "" + bus.bench.healths);
    }

    @Test
    void adapter_neverAnswers_isNamed() {
        bus.adapter.fallMute();
        bus.bench.runMs(3000);
        assertTrue(bus.bench.said("no answer to the command"), () -> "" + bus.bench.healths);
        assertEquals(BoardState.SEARCHING, bus.bench.board.state());
    }

    @Test
    void port_pulledAndPluggedAgain_isBackButNotArmed() {
        charging();
        bus.bench
                .armAt(500)
                .at(1000, () -> bus.bench.port.unplug())
                .at(2000, () -> bus.bench.port.plug())
                .runMs(6000);
        assertTrue(bus.bench.said("is back, but its outputs stay released"), () -> "" + bus.bench.healths);
        assertEquals(List.of(), bus.adapter.sentAfter(1001));
    }

    @Test
    void anyBytes_betweenFrames_neverBecomeAValue() {
        Random random = new Random(4);
        bus.bench.clock.every(7, () -> {
            StringBuilder noise = new StringBuilder();
            for (int i = random.nextInt(60); i > 0; i--) {
                noise.append((char)
                        (random.nextBoolean()
                                ? "t120T8zs\r\u0007FfrR".charAt(random.nextInt(14))
                                : random.nextInt(256)));
            }
            bus.adapter.say(noise.toString());
        });
        List<Double> seen = new java.util.ArrayList<>();
        bus.bench.clock.every(10, () -> seen.add(bus.read(Signal.PACK_VOLTAGE_V)));
        bus.bench.runMs(30_000);
        assertTrue(seen.stream().allMatch(v -> Double.isNaN(v) || Math.abs(v - 96) < 1e-9), "nothing is invented");
        assertTrue(seen.stream().anyMatch(v -> Math.abs(v - 96) < 1e-9), "and good frames come through");
    }

    @Test
    void flood_ofForeignFrames_hidesNothing() {
        CanFrame flood = new CanFrame().begin(1, false, 8);
        bus.bench.clock.every(1, () -> {
            for (int i = 0; i < 5; i++) {
                bus.adapter.receive(flood);
            }
        });
        charging();
        bus.bench.armAt(500).runMs(2000);
        assertEquals(96, bus.read(Signal.PACK_VOLTAGE_V), 1e-9);
        assertEquals(RELEASED, lastSent());
    }

    /** From the arrival of a changed switch to the frame that answers it, with a loop of 10 ms that copies one to the other. */
    @Test
    void changedSwitch_answeredByAFrame_takesLessThanATickInTheMedian() {
        Random random = new Random(5);
        List<Long> tookMs = new java.util.ArrayList<>();
        long[] changedAtMs = {-1};
        bus.bench.at(
                700,
                () -> bus.bench.clock.every(1, () -> {
                    long nowMs = bus.bench.clock.nowNs() / 1_000_000;
                    boolean answered = lastSent().startsWith("300#000001") == bus.inverterReady;
                    if (changedAtMs[0] >= 0 && answered) {
                        tookMs.add(nowMs - changedAtMs[0]);
                        changedAtMs[0] = -1;
                    } else if (changedAtMs[0] < 0 && random.nextInt(400) == 0) {
                        changedAtMs[0] = nowMs;
                        bus.inverterReady = !bus.inverterReady;
                        bus.inverter();
                    }
                    bus.bench.command(Output.CHARGER_ENABLE, bus.bench.board.value(2) == 1 ? 1 : 0);
                }));
        bus.bench.armAt(500).runMs(30_000);
        java.util.Collections.sort(tookMs);
        assertTrue(tookMs.size() > 30, tookMs::toString);
        assertTrue(tookMs.get(tookMs.size() / 2) < 10, tookMs::toString);
    }
}
