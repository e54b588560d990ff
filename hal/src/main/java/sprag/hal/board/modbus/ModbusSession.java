package sprag.hal.board.modbus;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import sprag.hal.Clock;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSession;
import sprag.hal.board.BoardSetting;
import sprag.hal.board.BoardSettings;
import sprag.hal.board.InputPin;
import sprag.hal.board.LineSettings;
import sprag.hal.board.LinkLost;
import sprag.hal.board.OutputPin;
import sprag.hal.board.PinSink;
import sprag.hal.board.Port;

/** The session with one Modbus unit: each turn reads one group of inputs and writes the outputs that changed. */
final class ModbusSession implements BoardSession {
    /** For how long late answers to an earlier session are thrown away. */
    private static final long QUIET_NS = 300_000_000;
    /** The longest that outputs may wait for a repeated request; a board is given a second to release them. */
    private static final double HELD_MS = 1000;

    private final BoardMap map;
    private final BoardSettings settings;
    private final Clock clock;
    private final boolean talkedBefore;
    private final PortConnection connection;
    private final ModbusLine line;
    private final List<ModbusAddress> inputs = new ArrayList<>();
    private final List<ModbusAddress> outputs = new ArrayList<>();
    private final List<ModbusGroup> reads;
    private final List<ModbusGroup> writes;
    private final long[] heardNs;
    private final long[] written;
    private boolean touched;
    private int nextRead;
    private long refreshedNs;
    private long aliveNs;

    ModbusSession(Port port, BoardMap map, BoardSettings settings, Clock clock, boolean talkedBefore) {
        this.talkedBefore = talkedBefore;
        this.map = map;
        this.settings = settings;
        this.clock = clock;
        connection = new PortConnection(port, settings.line(), clock);
        line = new ModbusLine(
                connection,
                settings.whole(ModbusSetting.UNIT_ID),
                settings.whole(ModbusSetting.RETRIES),
                settings.whole(ModbusSetting.TIMEOUT_MS));
        for (InputPin pin : map.inputs()) {
            inputs.add(ModbusAddress.of(pin.pin()));
        }
        for (OutputPin pin : map.outputs()) {
            outputs.add(ModbusAddress.of(pin.pin()));
        }
        reads = ModbusGroup.of(inputs, false);
        writes = ModbusGroup.of(outputs, true);
        heardNs = new long[inputs.size()];
        written = new long[outputs.size()];
    }

    @Override
    public String identity() {
        return "Modbus unit " + settings.whole(ModbusSetting.UNIT_ID) + ", " + reads.size() + " reads a cycle of "
                + Math.round(cycleMs()) + " ms on the line";
    }

    @Override
    public void connect(PinSink sink) throws LinkLost {
        checkLoad();
        if (talkedBefore) {
            connection.drain(QUIET_NS);
        }
        try {
            waitForAnswer();
            setWatchdog();
            releaseWhatIsOn();
            for (int i = 0; i < reads.size(); i++) {
                readGroup(reads.get(i), sink);
            }
        } catch (ModbusLine.Refused e) {
            throw new LinkLost("the map does not fit the module, so nothing was driven: " + e.getMessage());
        }
        aliveNs = clock.nowNs();
    }

    @Override
    public void turn(PinSink sink) throws LinkLost {
        try {
            if (!reads.isEmpty()) {
                readGroup(reads.get(nextRead), sink);
                nextRead = (nextRead + 1) % reads.size();
            } else if (clock.nowNs() - aliveNs > settings.ns(BoardSetting.SILENCE_MS) / 2) {
                readBack(writes.get(0));
                aliveNs = clock.nowNs();
            }
        } catch (ModbusLine.Refused e) {
            throw new LinkLost(e.getMessage());
        }
        checkSilence();
    }

    @Override
    public void arm() throws LinkLost {
        touched = true;
        release();
        for (ModbusGroup group : writes) {
            try {
                int[] held = readBack(group);
                for (int pin : group.pins()) {
                    confirm(pin, held[outputs.get(pin).number() - group.from()]);
                }
            } catch (ModbusLine.Refused e) {
                throw new LinkLost(e.getMessage());
            }
        }
    }

    @Override
    public boolean drive(long[] raw) throws LinkLost {
        boolean due = clock.nowNs() - refreshedNs > settings.ns(ModbusSetting.REFRESH_MS);
        boolean changed = false;
        for (ModbusGroup group : writes) {
            boolean groupChanged = false;
            for (int pin : group.pins()) {
                groupChanged |= written[pin] != raw[pin];
                written[pin] = raw[pin];
            }
            if (groupChanged || due) {
                write(group);
            }
            changed |= groupChanged;
        }
        refreshedNs = due ? clock.nowNs() : refreshedNs;
        return changed;
    }

    @Override
    public void release() throws LinkLost {
        if (!touched) {
            return;
        }
        for (int pin = 0; pin < written.length; pin++) {
            written[pin] = map.outputs().get(pin).safeRaw();
        }
        for (ModbusGroup group : writes) {
            write(group);
        }
    }

    /** The module may still be starting: the first request is repeated until the time to connect is over. */
    private void waitForAnswer() throws LinkLost, ModbusLine.Refused {
        long untilNs = clock.nowNs() + settings.ns(BoardSetting.CONNECT_MS);
        ModbusGroup first = reads.isEmpty() ? writes.get(0) : reads.get(0);
        while (true) {
            try {
                line.read(first.table(), first.from(), first.count());
                return;
            } catch (LinkLost e) {
                if (connection.lost() != null || clock.nowNs() >= untilNs) {
                    throw e;
                }
            }
        }
    }

    private void setWatchdog() throws LinkLost, ModbusLine.Refused {
        int register = settings.whole(ModbusSetting.WATCHDOG_REGISTER);
        if (register < 0) {
            return;
        }
        int value = settings.whole(ModbusSetting.WATCHDOG_VALUE);
        line.write(ModbusTable.HOLDING, register, new long[] {value});
        int held = line.read(ModbusTable.HOLDING, register, 1)[0];
        if (held != value) {
            throw new LinkLost("the watchdog in holding register " + register + " was set to " + value + " but reads "
                    + held + "; compare register and value with the module's table");
        }
    }

    private void releaseWhatIsOn() throws LinkLost, ModbusLine.Refused {
        for (ModbusGroup group : writes) {
            int[] held = readBack(group);
            boolean on = false;
            for (int pin : group.pins()) {
                written[pin] = map.outputs().get(pin).safeRaw();
                on |= held[outputs.get(pin).number() - group.from()] != written[pin];
            }
            if (on) {
                write(group);
            }
        }
        touched = true;
    }

    private int[] readBack(ModbusGroup group) throws LinkLost, ModbusLine.Refused {
        return line.read(group.table(), group.from(), group.count());
    }

    private void confirm(int pin, int held) throws LinkLost {
        OutputPin row = map.outputs().get(pin);
        if (held != written[pin]) {
            throw new LinkLost(row.output().key() + " on " + row.pin() + " was set to its safe value " + written[pin]
                    + " but reads back " + held
                    + "; is the module in manual mode, or is another master writing to it?");
        }
    }

    private void write(ModbusGroup group) throws LinkLost {
        long[] values = new long[group.count()];
        for (int pin : group.pins()) {
            values[outputs.get(pin).number() - group.from()] = written[pin];
        }
        try {
            line.write(group.table(), group.from(), values);
        } catch (ModbusLine.Refused e) {
            throw new LinkLost(e.getMessage());
        }
    }

    private void readGroup(ModbusGroup group, PinSink sink) throws LinkLost, ModbusLine.Refused {
        int[] values = line.read(group.table(), group.from(), group.count());
        long arrivedNs = connection.arrivedNs();
        for (int pin : group.pins()) {
            ModbusAddress address = inputs.get(pin);
            heardNs[pin] = arrivedNs;
            sink.put(pin, address.of(values[address.number() - group.from()]), arrivedNs);
        }
    }

    private void checkSilence() throws LinkLost {
        long oldestNs = Arrays.stream(heardNs).min().orElse(clock.nowNs());
        long limitNs = settings.ns(BoardSetting.SILENCE_MS);
        if (clock.nowNs() - oldestNs > limitNs) {
            throw new LinkLost("an input was not read for " + (clock.nowNs() - oldestNs) / 1_000_000 + " ms (limit "
                    + limitNs / 1_000_000 + " ms); the module answers too slowly");
        }
    }

    private double cycleMs() {
        double bytes = reads.stream().mapToInt(ModbusGroup::bytesToRead).sum();
        return bytes
                * settings.line().bitsPerCharacter()
                * 1000.0
                / settings.line().baud();
    }

    /** Time-outs, half of one before each repetition, and after a late success as long again as it took. */
    private double heldMs() {
        return (1 + 3 * settings.get(ModbusSetting.RETRIES)) * settings.get(ModbusSetting.TIMEOUT_MS);
    }

    private void checkLoad() throws LinkLost {
        if (cycleMs() > LineSettings.USABLE_SHARE * settings.get(BoardSetting.SILENCE_MS)) {
            throw new LinkLost("reading all inputs takes " + Math.round(cycleMs()) + " ms at "
                    + settings.whole(BoardSetting.BAUD) + " baud, but an input counts as silent after "
                    + settings.whole(BoardSetting.SILENCE_MS)
                    + " ms; make the line faster, or put inputs at neighbouring addresses");
        }
        if (heldMs() > HELD_MS) {
            throw new LinkLost("with modbus.timeout_ms = " + settings.whole(ModbusSetting.TIMEOUT_MS)
                    + " and modbus.retries = " + settings.whole(ModbusSetting.RETRIES)
                    + " a repeated request could keep a release waiting for " + Math.round(heldMs()) + " ms, at most "
                    + Math.round(HELD_MS) + " are allowed; make one of them less");
        }
    }
}
