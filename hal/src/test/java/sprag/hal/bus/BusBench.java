package sprag.hal.bus;

import java.util.List;
import java.util.Map;
import java.util.Set;
import sprag.hal.board.BoardBench;
import sprag.hal.board.BoardMap;
import sprag.hal.board.InputPin;
import sprag.hal.board.OutputPin;
import sprag.hal.board.PinKind;
import sprag.hal.board.Scale;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** A bus with three invented messages: a pack monitor and an inverter that speak, and a charger that is commanded. */
final class BusBench {
    static final int MONITOR = 0x120;
    static final int INVERTER = 0x18FF4521;
    static final int CHARGER = 0x300;
    private static final Scale TENTHS = new Scale(0.1, 0, 16, false);
    private static final Codes SWITCH = new Codes(Map.of(), List.of(1L), List.of(0L), Set.of(2L, 3L), -1);

    static final BoardMap PINS = new BoardMap(
            List.of(
                    new InputPin(Signal.PACK_VOLTAGE_V, "monitor.voltage", PinKind.ANALOGUE, false, TENTHS, 0),
                    new InputPin(Signal.CHARGE_PERMIT, "monitor.permit", PinKind.DIGITAL, false, Scale.SWITCH, 0),
                    new InputPin(Signal.INVERTER_READY, "inverter.ready", PinKind.DIGITAL, false, Scale.SWITCH, 0)),
            List.of(
                    new OutputPin(Output.CHARGER_1_LIMIT_A, "charger.limit", PinKind.ANALOGUE, false, TENTHS, 0),
                    new OutputPin(Output.CHARGER_ENABLE, "charger.enable", PinKind.DIGITAL, false, Scale.SWITCH, 0)));

    static final BusMap MAP = new BusMap(
            500,
            List.of(
                    new BusMessage(
                            "monitor",
                            MONITOR,
                            false,
                            "monitor",
                            8,
                            20,
                            60,
                            new BitField(48, 4, false, false),
                            CheckSum.CRC_8_1D,
                            7,
                            List.of(
                                    new BusField(
                                            "voltage",
                                            new BitField(0, 16, false, false),
                                            0.1,
                                            0,
                                            "v",
                                            new Codes(Map.of(), List.of(), List.of(), Set.of(), 0xFB00),
                                            0,
                                            0),
                                    new BusField("permit", new BitField(16, 2, false, false), 1, 0, "", SWITCH, 1, 0))),
                    new BusMessage(
                            "inverter",
                            INVERTER,
                            true,
                            "inverter",
                            2,
                            50,
                            150,
                            null,
                            CheckSum.NONE,
                            0,
                            List.of(new BusField("ready", new BitField(0, 2, false, false), 1, 0, "", SWITCH, 2, 0))),
                    new BusMessage(
                            "charger",
                            CHARGER,
                            false,
                            BusMessage.SUPERVISOR,
                            4,
                            100,
                            300,
                            null,
                            CheckSum.SUM_8,
                            3,
                            List.of(
                                    new BusField(
                                            "limit", new BitField(7, 16, true, false), 0.1, 0, "a", Codes.NONE, 0, 0),
                                    new BusField(
                                            "enable", new BitField(16, 2, false, false), 1, 0, "", SWITCH, 1, 0)))),
            PINS,
            true);

    final BusDriver driver = new BusDriver(MAP);
    final BoardBench bench;
    final CanFrame frame = new CanFrame();
    AdapterSim adapter;
    double voltage = 96;
    boolean monitorSends = true;
    boolean inverterSends = true;
    boolean inverterReady = true;
    boolean counterMoves = true;
    boolean sumRight = true;
    long count;

    BusBench() {
        bench = new BoardBench(driver, PINS, Map.of(), clock -> adapter = new AdapterSim(clock));
        bench.clock.every(20, this::monitor);
        bench.clock.every(50, this::inverter);
    }

    void monitor() {
        if (monitorSends) {
            frame.begin(MONITOR, false, 8);
            new BitField(0, 16, false, false).put(frame.data(), Math.round(voltage * 10));
            new BitField(16, 2, false, false).put(frame.data(), 1);
            new BitField(48, 4, false, false).put(frame.data(), count);
            count += counterMoves ? 1 : 0;
            BusEncoder.finish(MAP.messages().get(0), frame);
            frame.data()[7] ^= (byte) (sumRight ? 0 : 1);
            adapter.receive(frame);
        }
    }

    void inverter() {
        if (inverterSends) {
            frame.begin(INVERTER, true, 2);
            frame.data()[0] = (byte) (inverterReady ? 1 : 0);
            adapter.receive(frame);
        }
    }

    double read(Signal signal) {
        return bench.samples.get(signal);
    }
}
