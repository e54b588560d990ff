package sprag.hal.board.firmata;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
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
import sprag.hal.board.Scale;
import sprag.supervisor.vocabulary.Row;

/** Boards that speak Firmata 2.x. */
public final class FirmataDriver implements BoardDriver {
    private static final int MAX_BITS = 14;

    /** Made by the service loader. */
    public FirmataDriver() {}

    @Override
    public String protocol() {
        return "firmata";
    }

    @Override
    public String meaning() {
        return "a microcontroller board with Firmata 2.x firmware; pins are D0.. by number and A0.. by analogue channel";
    }

    @Override
    public List<Row> settings() {
        return List.of(FirmataSetting.values());
    }

    @Override
    public int usualBits(PinKind kind) {
        return kind.twoState ? 1 : kind == PinKind.PWM ? 8 : 10;
    }

    @Override
    public boolean measuresAgainstSupply() {
        return true;
    }

    @Override
    public List<MapFault> checkPins(BoardMap map) {
        List<MapFault> faults = new ArrayList<>();
        Map<PinName, String> taken = new HashMap<>();
        for (int i = 0; i < map.inputs().size(); i++) {
            InputPin pin = map.inputs().get(i);
            String clash = nameFault(pin.pin(), "input " + (i + 1), taken);
            if (clash != null) {
                faults.add(MapFault.input(i, "pin", clash));
            }
            String scale = pin.kind() == PinKind.ANALOGUE ? scaleFault(pin.scale()) : null;
            if (scale != null) {
                faults.add(MapFault.input(i, "bits", scale));
            }
        }
        for (int i = 0; i < map.outputs().size(); i++) {
            OutputPin pin = map.outputs().get(i);
            String clash = nameFault(pin.pin(), "output " + (i + 1), taken);
            if (clash != null) {
                faults.add(MapFault.output(i, "pin", clash));
            }
            if (pin.kind() == PinKind.ANALOGUE) {
                faults.add(
                        MapFault.output(i, "kind", "Firmata boards have no analogue outputs; use pwm with a filter"));
            } else if (pin.kind() == PinKind.PWM && scaleFault(pin.scale()) != null) {
                faults.add(MapFault.output(i, "bits", scaleFault(pin.scale())));
            }
        }
        return faults;
    }

    @Override
    public BoardSession talk(Port port, BoardMap map, BoardSettings settings, Clock clock) {
        return new FirmataSession(port, map, settings, clock);
    }

    private static String nameFault(String text, String who, Map<PinName, String> taken) {
        PinName name = PinName.of(text);
        if (name == null) {
            return "\"" + text + "\" is no pin of a Firmata board; it is " + PinName.ALLOWED;
        }
        String first = taken.putIfAbsent(name, who);
        return first == null ? null : text + " is already " + first;
    }

    private static String scaleFault(Scale scale) {
        if (scale.signed()) {
            return "a Firmata board gives counts without sign";
        }
        return scale.bits() > MAX_BITS ? scale.bits() + " is outside 1.." + MAX_BITS + " of a Firmata board" : null;
    }
}
