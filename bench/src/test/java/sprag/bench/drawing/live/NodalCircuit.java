package sprag.bench.drawing.live;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.Wire;

/**
 * The same schedules by another method: a resistor for everything that conducts, and the voltages by solving the nodal equations.
 * It knows nothing of reachability, potentials or bits. Coils pull above 8 V.
 */
final class NodalCircuit {
    private static final double WIRE_S = 1e3;
    private static final double LOAD_S = 1e-2;
    private static final double SOURCE_S = 1e5;
    /** Ties the pack's circuit, which touches nothing, and shows what floats. */
    private static final double LEAK_S = 1e-8;

    private static final double PULLS_V = 8;
    private static final double LOW_V = 12;
    private static final double PACK_V = 96;

    private final Schedule schedule;
    private final Set<String> set;
    private final Map<String, Integer> node = new HashMap<>();
    private final Set<String> pulled = new HashSet<>();
    private double[][] matrix;
    private double[] right;
    private double[] volts;

    NodalCircuit(Schedule schedule, Set<String> setControls) {
        this.schedule = schedule;
        this.set = setControls;
        for (Wire wire : schedule.wires()) {
            number(wire.from());
            number(wire.to());
        }
    }

    private void number(String terminal) {
        if (!terminal.isEmpty()) {
            node.putIfAbsent(terminal, node.size());
        }
    }

    /** Solves until no coil moves any more, every coil released at first. */
    void settle() {
        for (int round = 0; round < 12; round++) {
            solve(0);
            Set<String> now = new HashSet<>();
            for (Part part : schedule.parts().values()) {
                String n = part.name();
                boolean coil = part.kind().hasCoil() && differs(n, "coil_plus", "coil_minus", PULLS_V);
                boolean awake = part.kind() == PartKind.SUPERVISOR && differs(n, "supply", "ground", PULLS_V);
                boolean converts = part.kind() == PartKind.DCDC && differs(n, "plus", "minus", PACK_V / 2);
                if (coil || awake || converts) {
                    now.add(n);
                }
            }
            if (now.equals(pulled)) {
                return;
            }
            pulled.clear();
            pulled.addAll(now);
        }
        throw new IllegalStateException("never settles");
    }

    boolean pulled(String part) {
        return pulled.contains(part);
    }

    /** The voltage at a terminal with everything that floats drawn towards a voltage. */
    double[] solve(double towardsV) {
        matrix = new double[node.size()][node.size()];
        right = new double[node.size()];
        for (int n = 0; n < node.size(); n++) {
            matrix[n][n] = LEAK_S;
            right[n] = LEAK_S * towardsV;
        }
        for (Wire wire : schedule.wires()) {
            join(wire.from(), wire.to(), WIRE_S);
        }
        schedule.parts().values().forEach(this::stamp);
        volts = cholesky();
        return volts;
    }

    int node(String terminal) {
        return node.get(terminal);
    }

    private boolean differs(String part, String a, String b, double leastV) {
        Integer x = node.get(part + "." + a);
        Integer y = node.get(part + "." + b);
        return x != null && y != null && Math.abs(volts[x] - volts[y]) > leastV;
    }

    private void stamp(Part part) {
        String n = part.name();
        switch (part.kind()) {
            case SPLICE, CHASSIS -> {
                List<String> own = terminals(n);
                own.forEach(t -> join(own.get(0), t, WIRE_S));
            }
            case FUSE -> contacts(n, !set.contains(n + " out"));
            case RESISTOR -> pair(n, "in", "out", LOAD_S);
            case SHUNT, CURRENT_SENSOR -> {
                pair(n, "pack", "load", WIRE_S);
                pair(n, "pack", "sense_plus", WIRE_S);
                pair(n, "load", "sense_minus", WIRE_S);
            }
            case CONTACTOR, RELAY -> {
                pair(n, "coil_plus", "coil_minus", LOAD_S);
                contacts(n, pulled(n));
                pair(n, "aux_a", "aux_b", pulled(n) ? WIRE_S : 0);
            }
            case CUT_OFF -> contacts(n, !set.contains(n + " pressed or out"));
            case SWITCH -> {
                boolean second = set.contains(n + " to out_2");
                boolean closed = set.contains(n + " closed")
                        || n.matches("cover_switch|crash_switch") && !set.contains(n + " open");
                pair(n, "in", "out", closed ? WIRE_S : 0);
                if (node.containsKey(n + ".in_2")) {
                    pair(n, "in_2", "out_2", closed ? WIRE_S : 0);
                } else {
                    pair(n, "in", "out_2", second ? WIRE_S : 0);
                }
            }
            case KEY -> {
                pair(n, "in", "drive", set.contains(n + " to drive") ? WIRE_S : 0);
                pair(n, "in", "start", set.contains(n + " to start") ? WIRE_S : 0);
            }
            case LV_BATTERY -> {
                source(n + ".minus", 0);
                if (!set.contains(n + " off")) {
                    source(n + ".plus", LOW_V);
                }
            }
            case DCDC -> {
                pair(n, "plus", "minus", LOAD_S);
                if (pulled(n) && set.contains("dcdc_enable on")) {
                    source(n + ".out_plus", LOW_V);
                    source(n + ".out_minus", 0);
                }
            }
            default -> stampMore(part);
        }
    }

    private void stampMore(Part part) {
        String n = part.name();
        pair(n, "supply", "ground", LOAD_S);
        switch (part.kind()) {
            case PACK -> packs(part);
            case SUPERVISOR -> {
                pair(n, "sensor_ground", "ground", WIRE_S);
                for (String terminal : terminals(n)) {
                    boolean on = pulled(n) && set.contains(Wire.pinOf(terminal) + " on");
                    join(terminal, n + ".ground", on ? WIRE_S : 0);
                }
                if (pulled(n)) {
                    source(n + ".sensor_supply", 5);
                }
            }
            case LAMP, LOAD, INVERTER, HEATER, CHARGER, MONITOR, ISOLATION_MONITOR -> {
                pair(n, "plus", "minus", LOAD_S);
                List.of("u", "v", "w").forEach(phase -> pair(n, "plus", phase, LOAD_S));
            }
            case PEDAL, SENSOR -> {
                pair(n, "a", "b", LOAD_S);
                for (String wiper : List.of("wiper", "wiper_a", "wiper_b")) {
                    pair(n, "supply", wiper, LOAD_S);
                    pair(n, wiper, "ground", LOAD_S);
                }
            }
            default -> {}
        }
    }

    /** A pack is a source between its poles and touches nothing else: the leak carries no current through it. */
    private void packs(Part part) {
        long packs = schedule.parts().values().stream()
                .filter(p -> p.kind() == PartKind.PACK)
                .count();
        int plus = node.get(part.name() + ".plus");
        int minus = node.get(part.name() + ".minus");
        join(part.name() + ".plus", part.name() + ".minus", SOURCE_S);
        right[plus] += SOURCE_S * PACK_V / packs;
        right[minus] -= SOURCE_S * PACK_V / packs;
    }

    private List<String> terminals(String part) {
        return new ArrayList<>(node.keySet())
                .stream().filter(t -> Wire.partOf(t).equals(part)).sorted().toList();
    }

    private void contacts(String part, boolean closed) {
        pair(part, "in", "out", closed ? WIRE_S : 0);
        pair(part, "in_2", "out_2", closed ? WIRE_S : 0);
    }

    private void pair(String part, String a, String b, double siemens) {
        join(part + "." + a, part + "." + b, siemens);
    }

    private void join(String a, String b, double siemens) {
        Integer x = node.get(a);
        Integer y = node.get(b);
        if (x != null && y != null && !x.equals(y)) {
            matrix[x][x] += siemens;
            matrix[y][y] += siemens;
            matrix[x][y] -= siemens;
            matrix[y][x] -= siemens;
        }
    }

    private void source(String terminal, double sourceV) {
        Integer x = node.get(terminal);
        if (x != null) {
            matrix[x][x] += SOURCE_S;
            right[x] += SOURCE_S * sourceV;
        }
    }

    private double[] cholesky() {
        int n = right.length;
        double[][] low = new double[n][n];
        for (int i = 0; i < n; i++) {
            for (int j = 0; j <= i; j++) {
                double sum = matrix[i][j];
                for (int k = 0; k < j; k++) {
                    sum -= low[i][k] * low[j][k];
                }
                low[i][j] = i == j ? Math.sqrt(sum) : sum / low[j][j];
            }
        }
        double[] x = right.clone();
        for (int i = 0; i < n; i++) {
            for (int k = 0; k < i; k++) {
                x[i] -= low[i][k] * x[k];
            }
            x[i] /= low[i][i];
        }
        for (int i = n - 1; i >= 0; i--) {
            for (int k = i + 1; k < n; k++) {
                x[i] -= low[k][i] * x[k];
            }
            x[i] /= low[i][i];
        }
        return x;
    }
}
