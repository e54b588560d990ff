package sprag.hal.board.modbus;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicBoolean;
import sprag.hal.Clock;
import sprag.hal.board.BoardDriver;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSession;
import sprag.hal.board.BoardSettings;
import sprag.hal.board.InputPin;
import sprag.hal.board.MapFault;
import sprag.hal.board.OutputPin;
import sprag.hal.board.PinKind;
import sprag.hal.board.Port;
import sprag.supervisor.vocabulary.Row;

/** Modules that speak Modbus RTU. */
public final class ModbusDriver implements BoardDriver {
    private static final int REGISTER_BITS = 16;

    /** Answers to an earlier session may still be on their way. */
    private final AtomicBoolean talkedBefore = new AtomicBoolean();

    /** Made by the service loader. */
    public ModbusDriver() {}

    @Override
    public String protocol() {
        return "modbus";
    }

    @Override
    public String meaning() {
        return "an industrial module with Modbus RTU; pins are coil:0, discrete:0, input:0, holding:0 and so on, from 0";
    }

    @Override
    public List<Row> settings() {
        return List.of(ModbusSetting.values());
    }

    @Override
    public int usualBits(PinKind kind) {
        return kind.twoState ? 1 : REGISTER_BITS;
    }

    @Override
    public List<MapFault> checkPins(BoardMap map) {
        List<MapFault> faults = new ArrayList<>();
        Map<ModbusAddress, String> taken = new HashMap<>();
        for (int i = 0; i < map.inputs().size(); i++) {
            InputPin pin = map.inputs().get(i);
            String fault = addressFault(pin.pin(), "input " + (i + 1), taken);
            if (fault != null) {
                faults.add(MapFault.input(i, "pin", fault));
            } else {
                checkInput(i, pin, ModbusAddress.of(pin.pin()), faults);
            }
        }
        for (int i = 0; i < map.outputs().size(); i++) {
            OutputPin pin = map.outputs().get(i);
            String fault = addressFault(pin.pin(), "output " + (i + 1), taken);
            if (fault != null) {
                faults.add(MapFault.output(i, "pin", fault));
            } else {
                checkOutput(i, pin, ModbusAddress.of(pin.pin()), faults);
            }
        }
        return faults;
    }

    @Override
    public BoardSession talk(Port port, BoardMap map, BoardSettings settings, Clock clock) {
        return new ModbusSession(port, map, settings, clock, talkedBefore.getAndSet(true));
    }

    private static String addressFault(String text, String who, Map<ModbusAddress, String> taken) {
        ModbusAddress address = ModbusAddress.of(text);
        if (address == null) {
            return "\"" + text + "\" is no pin of a Modbus module; it is " + ModbusAddress.ALLOWED;
        }
        String first = taken.putIfAbsent(address, who);
        return first == null ? null : text + " is already " + first;
    }

    private static void checkInput(int i, InputPin pin, ModbusAddress address, List<MapFault> faults) {
        boolean oneBit = address.table().bits || address.bit() >= 0;
        if (pin.kind() == PinKind.PULL_UP) {
            faults.add(MapFault.input(i, "kind", "a module has no pull-up to switch on; use digital"));
        } else if (oneBit != pin.kind().twoState) {
            faults.add(MapFault.input(
                    i,
                    "pin",
                    oneBit
                            ? pin.pin() + " is one bit; an analogue input is input:N or holding:N"
                            : pin.pin() + " is a whole register; a switch is coil:N, discrete:N or a bit such as "
                                    + pin.pin() + ".0"));
        } else if (!oneBit && pin.scale().bits() > REGISTER_BITS) {
            faults.add(MapFault.input(i, "bits", pin.scale().bits() + " is outside 1..16 of a register"));
        }
    }

    private static void checkOutput(int i, OutputPin pin, ModbusAddress address, List<MapFault> faults) {
        ModbusTable wanted = pin.kind().twoState ? ModbusTable.COIL : ModbusTable.HOLDING;
        if (pin.kind() == PinKind.PWM) {
            faults.add(MapFault.output(i, "kind", "a module takes numbers, not PWM; use analogue with holding:N"));
        } else if (address.table() != wanted || address.bit() >= 0) {
            faults.add(MapFault.output(
                    i,
                    "pin",
                    pin.pin() + " cannot be driven; "
                            + (wanted == ModbusTable.COIL
                                    ? "a switched output is coil:N"
                                    : "an analogue output is holding:N")));
        } else if (pin.scale().bits() > REGISTER_BITS) {
            faults.add(MapFault.output(i, "bits", pin.scale().bits() + " is outside 1..16 of a register"));
        }
    }
}
