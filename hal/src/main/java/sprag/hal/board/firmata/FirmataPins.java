package sprag.hal.board.firmata;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import sprag.hal.board.BoardMap;
import sprag.hal.board.InputPin;
import sprag.hal.board.LinkLost;
import sprag.hal.board.OutputPin;

/** What the board reports about its pins: the modes of each, their resolution, and the analogue channels. */
final class FirmataPins {
    private static final int ABSENT = -1;

    private final List<Map<Integer, Integer>> bitsByMode = new ArrayList<>();
    private final byte[] channels;

    /** Reads the capability and the mapping response. */
    FirmataPins(byte[] capability, byte[] mapping) throws LinkLost {
        Map<Integer, Integer> pin = new HashMap<>();
        int i = 0;
        while (i < capability.length) {
            if (capability[i] == FirmataBytes.NONE) {
                bitsByMode.add(pin);
                pin = new HashMap<>();
                i++;
            } else if (i + 1 < capability.length && capability[i + 1] != FirmataBytes.NONE) {
                pin.put((int) capability[i], (int) capability[i + 1]);
                i += 2;
            } else {
                throw new LinkLost("the board's list of pins breaks off at byte " + i + " of " + capability.length);
            }
        }
        if (!pin.isEmpty() || bitsByMode.isEmpty()) {
            throw new LinkLost("the board's list of pins has " + bitsByMode.size() + " whole pins in "
                    + capability.length + " bytes");
        }
        if (mapping.length != bitsByMode.size()) {
            throw new LinkLost("the board lists " + bitsByMode.size() + " pins but maps " + mapping.length
                    + " of them to analogue channels");
        }
        channels = mapping.clone();
    }

    int count() {
        return bitsByMode.size();
    }

    /** The number of a pin that the map names, or -1 when the board has no such pin. */
    int number(String text) {
        PinName name = PinName.of(text);
        if (name == null) {
            return ABSENT;
        }
        if (!name.analogue()) {
            return name.number() < count() ? name.number() : ABSENT;
        }
        for (int pin = 0; pin < channels.length; pin++) {
            if (channels[pin] == name.number()) {
                return pin;
            }
        }
        return ABSENT;
    }

    /** The analogue channel of a pin, 127 when it has none. */
    int channel(int pin) {
        return channels[pin];
    }

    /** How many bits a mode of a pin has, or -1 when the pin lacks the mode. */
    int bits(int pin, PinMode mode) {
        return bitsByMode.get(pin).getOrDefault(mode.code, ABSENT);
    }

    /** Everything in the map that this board does not have, in words. */
    List<String> misfits(BoardMap map) {
        Misfits found = new Misfits();
        for (InputPin input : map.inputs()) {
            PinMode mode = PinMode.ofInput(input.kind());
            int bits = mode == PinMode.ANALOGUE ? input.scale().bits() : ABSENT;
            found.check(input.signal().key(), input.pin(), mode, bits);
        }
        for (OutputPin output : map.outputs()) {
            PinMode mode = PinMode.ofOutput(output.kind());
            int bits = mode == PinMode.PWM ? output.scale().bits() : ABSENT;
            found.check(output.output().key(), output.pin(), mode, bits);
        }
        return found.words;
    }

    private String modesOf(int pin) {
        List<String> words = new ArrayList<>();
        for (PinMode mode : PinMode.values()) {
            if (bits(pin, mode) != ABSENT) {
                words.add(mode.words);
            }
        }
        return words.isEmpty() ? "nothing that is used here" : String.join(", ", words);
    }

    private static String remedy(PinMode mode) {
        return mode == PinMode.PULL_UP
                ? "; pull-ups need Firmata 2.5 or newer: renew the firmware, or fit a resistor to the supply and say"
                        + " kind = \"digital\""
                : "";
    }

    /** The faults found so far, and the pins that are in use. */
    private final class Misfits {
        private final List<String> words = new ArrayList<>();
        private final Map<Integer, String> taken = new HashMap<>();

        void check(String name, String text, PinMode mode, int wantedBits) {
            String who = name + " on " + text;
            int pin = number(text);
            if (pin == ABSENT) {
                words.add(who + ": the board has " + count() + " pins and none is called " + text);
                return;
            }
            String other = taken.putIfAbsent(pin, who);
            if (other != null) {
                words.add(who + ": that is pin " + pin + ", which is already " + other);
            }
            int bits = bits(pin, mode);
            if (bits == ABSENT) {
                words.add(who + ": pin " + pin + " cannot be " + mode.words + "; it can be " + modesOf(pin)
                        + remedy(mode));
            } else if (wantedBits != ABSENT && bits != wantedBits) {
                words.add(who + ": the board gives " + bits + " bits, the map scales " + wantedBits + " bits");
            }
        }
    }
}
