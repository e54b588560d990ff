package sprag.bench.loop.bus;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import sprag.bench.cli.Nearest;
import sprag.hal.bus.BusMap;
import sprag.hal.bus.BusMessage;

/**
 * The faults of a simulated bus: {@code message.NAME.FAULT} for one message, and {@code data_bus.FAULT} for all. A late message takes
 * its milliseconds: {@code message.monitor_pack.late=80}.
 */
public final class BusFaults {
    /** Both wires are cut: nothing is heard, nothing arrives. */
    static final String CUT = "data_bus.cut";
    /** The supervisor's own adapter has left the bus. */
    static final String OFF = "data_bus.bus_off";
    /** An urgent identifier is sent without a pause: nothing else gets through. */
    static final String FLOODED = "data_bus.flooded";

    private static final List<String> OF_ALL = List.of(CUT, OFF, FLOODED);
    private static final String OF_MESSAGE = "message.";
    private static final double USUAL_LATE_MS = 300;
    private static final double MOST_LATE_MS = 10_000;

    private final BusMap map;
    private final List<Map<FrameFault, Double>> ofMessage = new ArrayList<>();
    private final List<String> ofAll = new ArrayList<>();

    BusFaults(BusMap map) {
        this.map = map;
        map.messages().forEach(m -> ofMessage.add(new EnumMap<>(FrameFault.class)));
    }

    /** Whether a name is that of a fault of a bus, sound or not. */
    public static boolean isOne(String what) {
        return what.startsWith(OF_MESSAGE) || what.startsWith("data_bus.");
    }

    /** Every fault that a bus can have. */
    public static List<String> names(BusMap map) {
        List<String> names = new ArrayList<>(OF_ALL);
        for (BusMessage message : map.messages()) {
            for (FrameFault fault : FrameFault.values()) {
                if (fault.appliesTo(message)) {
                    names.add(OF_MESSAGE + message.name() + "." + fault.key());
                }
            }
        }
        return names;
    }

    /**
     * What is wrong with a fault's name, empty when nothing is.
     *
     * @param what name, with or without a magnitude
     * @param map the bus, null when there is none
     */
    public static String complaint(String what, BusMap map) {
        if (map == null) {
            return "It needs a data bus: name one with about.bus.";
        }
        if (!names(map).contains(nameOf(what))) {
            return Nearest.hint(nameOf(what), names(map));
        }
        if (!what.contains("=")) {
            return "";
        }
        boolean isLate = nameOf(what).endsWith("." + FrameFault.LATE.key());
        return isLate && magnitude(what) >= 1 && magnitude(what) <= MOST_LATE_MS
                ? ""
                : "Only a late message takes a number: 1 to 10000 ms.";
    }

    private static String nameOf(String what) {
        return what.replaceFirst("=.*", "").strip();
    }

    private static double magnitude(String what) {
        try {
            return what.contains("=")
                    ? Double.parseDouble(what.replaceFirst(".*=", "").strip())
                    : USUAL_LATE_MS;
        } catch (NumberFormatException e) {
            return Double.NaN;
        }
    }

    void inject(String what) {
        demand(what);
        if (OF_ALL.contains(what)) {
            ofAll.remove(what);
            ofAll.add(what);
        } else {
            ofMessage.get(messageOf(what)).put(faultOf(what), magnitude(what));
        }
    }

    void clear(String what) {
        demand(what);
        if (OF_ALL.contains(what)) {
            ofAll.remove(what);
        } else {
            ofMessage.get(messageOf(what)).remove(faultOf(what));
        }
    }

    /** Every fault that is present, with its magnitude where it has one. */
    List<String> present() {
        List<String> names = new ArrayList<>(ofAll);
        for (int m = 0; m < ofMessage.size(); m++) {
            String message = OF_MESSAGE + map.messages().get(m).name() + ".";
            ofMessage
                    .get(m)
                    .forEach((fault, size) ->
                            names.add(message + fault.key() + (fault == FrameFault.LATE ? "=" + size : "")));
        }
        return names;
    }

    /** What a fault is, in words.
     *
     * @param what a name without complaint
     */
    public static String meaning(String what) {
        return switch (nameOf(what)) {
            case CUT -> "both wires of the data bus are cut";
            case OFF -> "the supervisor's own adapter has left the bus";
            case FLOODED -> "an urgent identifier is sent without a pause: nothing else gets through";
            default -> {
                String name = nameOf(what);
                yield name.substring(OF_MESSAGE.length(), name.lastIndexOf('.')) + ": " + faultOf(what).meaning;
            }
        };
    }

    /** The usual size of a fault (ms), NaN when it has none. */
    public static double usual(String what) {
        return nameOf(what).endsWith("." + FrameFault.LATE.key()) ? USUAL_LATE_MS : Double.NaN;
    }

    private void demand(String what) {
        String complaint = complaint(what, map);
        if (!complaint.isEmpty()) {
            throw new IllegalArgumentException("\"" + what + "\" is no fault of this bus. " + complaint);
        }
    }

    private int messageOf(String what) {
        String name = nameOf(what);
        String message = name.substring(OF_MESSAGE.length(), name.lastIndexOf('.'));
        for (int i = 0; i < map.messages().size(); i++) {
            if (map.messages().get(i).name().equals(message)) {
                return i;
            }
        }
        throw new IllegalArgumentException("no message " + message);
    }

    private static FrameFault faultOf(String what) {
        String name = nameOf(what);
        String key = name.substring(name.lastIndexOf('.') + 1);
        for (FrameFault fault : FrameFault.values()) {
            if (fault.key().equals(key)) {
                return fault;
            }
        }
        throw new IllegalArgumentException("no fault " + key);
    }

    boolean has(String what) {
        return ofAll.contains(what);
    }

    boolean has(int message, FrameFault fault) {
        return ofMessage.get(message).containsKey(fault);
    }

    double lateMs(int message) {
        return ofMessage.get(message).getOrDefault(FrameFault.LATE, 0.0);
    }
}
