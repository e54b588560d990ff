package sprag.hal.board;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** The checks of a map that need no board. */
public final class MapCheck {
    private static final int MAX_BITS = 32;
    private static final EnumSet<Signal> OF_THE_LOOP = EnumSet.of(Signal.LOOP_OVERRUN, Signal.LINK_LOST);

    private MapCheck() {}

    /** Checks a map for what holds for every board, then has the driver check the pins.
     *
     * @param map what is wired
     * @param driver which protocol the board speaks
     * @return every fault, empty when there is none
     */
    public static List<MapFault> faults(BoardMap map, BoardDriver driver) {
        List<MapFault> faults = new ArrayList<>();
        checkRows(map, faults);
        faults.addAll(driver.checkPins(map));
        return faults;
    }

    private static void checkRows(BoardMap map, List<MapFault> faults) {
        Map<Signal, Integer> seen = new EnumMap<>(Signal.class);
        for (int i = 0; i < map.inputs().size(); i++) {
            InputPin pin = map.inputs().get(i);
            Integer first = seen.putIfAbsent(pin.signal(), i);
            if (first != null) {
                faults.add(MapFault.input(i, "signal", pin.signal().key() + " is already input " + (first + 1)));
            }
            checkInput(i, pin, faults);
        }
        Map<Output, Integer> driven = new EnumMap<>(Output.class);
        for (int i = 0; i < map.outputs().size(); i++) {
            OutputPin pin = map.outputs().get(i);
            Integer first = driven.putIfAbsent(pin.output(), i);
            if (first != null) {
                faults.add(MapFault.output(i, "output", pin.output().key() + " is already output " + (first + 1)));
            }
            checkOutput(i, pin, faults);
        }
    }

    private static void checkInput(int i, InputPin pin, List<MapFault> faults) {
        Signal signal = pin.signal();
        if (OF_THE_LOOP.contains(signal)) {
            faults.add(MapFault.input(
                    i, "signal", signal.key() + " is set by the loop itself; it cannot be wired to a pin"));
        }
        if (!pin.kind().input) {
            faults.add(MapFault.input(
                    i, "kind", pin.kind().word() + " is not a kind of input; use digital, pull-up or analogue"));
        } else if (signal.isSwitch() != pin.kind().twoState) {
            faults.add(MapFault.input(
                    i, "kind", mismatch(signal.key(), signal.isSwitch(), "digital or pull-up", "analogue")));
        }
        if (pin.inverted() && !pin.kind().twoState) {
            faults.add(MapFault.input(i, "invert", "only a switch can be inverted; give a negative scale instead"));
        }
        if (!(pin.filterMs() >= 0 && pin.filterMs() <= 1000)) {
            faults.add(MapFault.input(
                    i, "filter_ms", pin.filterMs() + " is outside 0..1000 ms: a longer filter would hide a fault"));
        } else if (pin.filterMs() > 0 && pin.kind().twoState) {
            faults.add(MapFault.input(i, "filter_ms", "a switch is debounced by the supervisor, not here"));
        }
        checkScale(pin.scale(), (key, words) -> faults.add(MapFault.input(i, key, words)));
        if (!pin.kind().twoState) {
            checkSpan(i, pin, faults);
        }
    }

    /** The scale is wrong when no count gives a value that the signal can have. */
    private static void checkSpan(int i, InputPin pin, List<MapFault> faults) {
        Scale scale = pin.scale();
        double a = scale.offset() + scale.perCount() * scale.leastCount();
        double b = scale.offset() + scale.perCount() * scale.greatestCount();
        if (Math.max(a, b) < pin.signal().min || Math.min(a, b) > pin.signal().max) {
            faults.add(MapFault.input(
                    i,
                    "scale",
                    "counts give " + Math.min(a, b) + ".." + Math.max(a, b) + " "
                            + pin.signal().unit.symbol + ", but " + pin.signal().key() + " is " + pin.signal().min
                            + ".."
                            + pin.signal().max));
        }
    }

    private static void checkOutput(int i, OutputPin pin, List<MapFault> faults) {
        Output output = pin.output();
        if (!pin.kind().output) {
            faults.add(MapFault.output(
                    i, "kind", pin.kind().word() + " is not a kind of output; use digital, pwm or analogue"));
        } else if (output.isSwitch() != pin.kind().twoState) {
            faults.add(MapFault.output(
                    i, "kind", mismatch(output.key(), output.isSwitch(), "digital", "pwm or analogue")));
        }
        if (pin.inverted() && !pin.kind().twoState) {
            faults.add(MapFault.output(i, "invert", "only a switch can be inverted; give a negative scale instead"));
        }
        if (pin.safe() != 0 && !BoardMap.MAY_STAY_ON.contains(output)) {
            faults.add(MapFault.output(
                    i, "safe", output.key() + " must be released (0) when nobody commands it, not " + pin.safe()));
        }
        checkScale(pin.scale(), (key, words) -> faults.add(MapFault.output(i, key, words)));
        checkReach(i, pin, faults);
    }

    /** The safe value must lie in the range of the counts, or a released output would have another value. */
    private static void checkReach(int i, OutputPin pin, List<MapFault> faults) {
        double wrongBy = Math.abs(pin.scale().value(pin.scale().raw(pin.safe())) - pin.safe());
        if (!pin.kind().twoState
                && pin.scale().perCount() != 0
                && !(wrongBy <= Math.abs(pin.scale().perCount()))) {
            faults.add(MapFault.output(
                    i,
                    "scale",
                    "the safe value " + pin.safe() + " is outside the range of the counts by " + wrongBy + " "
                            + pin.output().unit.symbol));
        }
    }

    private static void checkScale(Scale scale, FaultSink sink) {
        if (!Double.isFinite(scale.perCount()) || scale.perCount() == 0) {
            sink.fault("scale", scale.perCount() + " cannot be the value of one count; give a number other than 0");
        }
        if (!Double.isFinite(scale.offset())) {
            sink.fault("offset", scale.offset() + " is not a finite number; give one");
        }
        if (scale.bits() < 1 || scale.bits() > MAX_BITS) {
            sink.fault("bits", scale.bits() + " is outside 1.." + MAX_BITS);
        }
    }

    private static String mismatch(String key, boolean isSwitch, String forSwitch, String forNumber) {
        return key + (isSwitch ? " is a switch; its kind is " + forSwitch : " is a number; its kind is " + forNumber);
    }

    private interface FaultSink {
        void fault(String key, String words);
    }
}
