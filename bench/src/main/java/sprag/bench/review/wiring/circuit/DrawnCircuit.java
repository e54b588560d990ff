package sprag.bench.review.wiring.circuit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Predicate;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.Wire;

/**
 * What a schedule joins: terminals in nets, and nets linked through parts that can conduct.
 *
 * <p>Wires, splices and the chassis make nets. Fuses, contacts, resistors and shunts link two nets. A load, a source, a
 * coil links nothing: current that went through it is another circuit's business.
 */
public final class DrawnCircuit {
    /** Why two nets are linked. */
    public enum LinkKind {
        /** Always conducts: a shunt, the path through a current sensor. */
        SHUNT,
        /** Conducts until it melts. */
        FUSE,
        /** Conducts when closed. */
        CONTACT,
        /** Conducts while the coil is off. */
        REST_CONTACT,
        /** An auxiliary contact that reports. */
        AUXILIARY,
        /** Conducts, but limits the current. */
        RESISTOR
    }

    /**
     * A part that links two nets.
     *
     * @param inTerminal index of the terminal on one side
     * @param outTerminal index of the terminal on the other side
     */
    public record Link(Part part, LinkKind kind, int inTerminal, int outTerminal) {}

    private final Schedule schedule;
    private final Map<String, Integer> index = new HashMap<>();
    private final List<String> terminals = new ArrayList<>();
    private final List<String> pins = new ArrayList<>();
    private final Map<String, List<Integer>> byPart = new LinkedHashMap<>();
    private final List<Part> partAt = new ArrayList<>();
    private final List<List<Wire>> wiresAt = new ArrayList<>();
    private final List<Link> links = new ArrayList<>();
    private final Map<Wire, Integer> terminalOf = new IdentityHashMap<>();
    private final Map<String, List<Integer>> linksOf = new HashMap<>();
    private int[] joined;
    private int[] net;
    private int netCount;
    private int[][] linksAt;

    public DrawnCircuit(Schedule schedule) {
        this.schedule = schedule;
        collectTerminals();
        joinNets();
        for (Map.Entry<String, List<Integer>> entry : byPart.entrySet()) {
            linkPart(schedule.parts().get(entry.getKey()), entry.getValue());
        }
        indexLinks();
    }

    private void collectTerminals() {
        for (Wire wire : schedule.wires()) {
            for (String terminal : List.of(wire.from(), wire.to())) {
                if (!terminal.isEmpty()) {
                    int number = terminalOf(terminal);
                    wiresAt.get(number).add(wire);
                    terminalOf.put(wire, number);
                }
            }
        }
    }

    private int terminalOf(String name) {
        Integer known = index.get(name);
        if (known != null) {
            return known;
        }
        int number = terminals.size();
        index.put(name, number);
        terminals.add(name);
        pins.add(Wire.pinOf(name).intern());
        wiresAt.add(new ArrayList<>(2));
        partAt.add(schedule.parts().get(Wire.partOf(name)));
        byPart.computeIfAbsent(Wire.partOf(name), p -> new ArrayList<>()).add(number);
        return number;
    }

    private void joinNets() {
        joined = new int[terminals.size()];
        Arrays.setAll(joined, i -> i);
        for (Wire wire : schedule.wires()) {
            if (wire.hasBothEnds()) {
                join(index.get(wire.from()), index.get(wire.to()));
            }
        }
        for (List<Integer> pins : byPart.values()) {
            PartKind kind = partAt.get(pins.get(0)).kind();
            if (kind == PartKind.SPLICE || kind == PartKind.CHASSIS) {
                pins.forEach(pin -> join(pins.get(0), pin));
            }
        }
        net = new int[terminals.size()];
        Map<Integer, Integer> compact = new HashMap<>();
        for (int t = 0; t < net.length; t++) {
            net[t] = compact.computeIfAbsent(root(t), r -> compact.size());
        }
        netCount = compact.size();
    }

    private void join(int a, int b) {
        joined[root(a)] = root(b);
    }

    private int root(int t) {
        int at = t;
        while (joined[at] != at) {
            joined[at] = joined[joined[at]];
            at = joined[at];
        }
        return at;
    }

    private void linkPart(Part part, List<Integer> pins) {
        Map<String, Integer> byPin = new TreeMap<>();
        pins.forEach(t -> byPin.put(this.pins.get(t), t));
        switch (part.kind()) {
            case FUSE -> linkPairs(part, LinkKind.FUSE, byPin, "in", "out");
            case RESISTOR -> linkPairs(part, LinkKind.RESISTOR, byPin, "in", "out");
            case SHUNT -> {
                linkPairs(part, LinkKind.SHUNT, byPin, "pack", "load");
                linkPairs(part, LinkKind.SHUNT, byPin, "pack", "sense_plus");
                linkPairs(part, LinkKind.SHUNT, byPin, "load", "sense_minus");
            }
            case CURRENT_SENSOR -> linkPairs(part, LinkKind.SHUNT, byPin, "pack", "load");
            case KEY -> {
                linkPairs(part, LinkKind.CONTACT, byPin, "in", "drive");
                linkPairs(part, LinkKind.CONTACT, byPin, "in", "start");
                linkPairs(part, LinkKind.CONTACT, byPin, "in", "out");
            }
            case CONTACTOR, RELAY, TIMER, CUT_OFF, SWITCH -> {
                linkPairs(part, LinkKind.CONTACT, byPin, "in", "out");
                linkPairs(part, LinkKind.REST_CONTACT, byPin, "in", "rest");
                linkPairs(part, LinkKind.AUXILIARY, byPin, "aux_a", "aux_b");
            }
            default -> {}
        }
    }

    /** Links in with out, in_2 with out_2 and so on; an out_2 without its own in_2 is a second contact of in. */
    private void linkPairs(Part part, LinkKind kind, Map<String, Integer> byPin, String in, String out) {
        for (Map.Entry<String, Integer> entry : byPin.entrySet()) {
            String pin = entry.getKey();
            boolean numbered = pin.startsWith(out + "_") && Character.isDigit(pin.charAt(pin.length() - 1));
            if (pin.equals(out) || numbered) {
                Integer own = byPin.get(in + pin.substring(out.length()));
                Integer other = own == null ? byPin.get(in) : own;
                if (other != null) {
                    links.add(new Link(part, kind, other, entry.getValue()));
                }
            }
        }
    }

    private void indexLinks() {
        int[] count = new int[netCount];
        for (Link link : links) {
            count[net[link.inTerminal()]]++;
            count[net[link.outTerminal()]]++;
        }
        linksAt = new int[netCount][];
        Arrays.setAll(linksAt, n -> new int[count[n]]);
        Arrays.fill(count, 0);
        for (int i = 0; i < links.size(); i++) {
            int a = net[links.get(i).inTerminal()];
            int b = net[links.get(i).outTerminal()];
            linksAt[a][count[a]++] = i;
            linksAt[b][count[b]++] = i;
            linksOf.computeIfAbsent(links.get(i).part().name(), p -> new ArrayList<>())
                    .add(i);
        }
    }

    /** The numbers of the links that a part makes. */
    public List<Integer> linksOf(Part part) {
        return linksOf.getOrDefault(part.name(), List.of());
    }

    public int terminalCount() {
        return terminals.size();
    }

    public int netCount() {
        return netCount;
    }

    public List<Link> links() {
        return links;
    }

    /** The numbers of the links that touch a net. */
    public int[] linksAt(int netNumber) {
        return linksAt[netNumber];
    }

    /** The net on the other side of a link. */
    public int across(int linkNumber, int netNumber) {
        Link link = links.get(linkNumber);
        int a = net[link.inTerminal()];
        return a == netNumber ? net[link.outTerminal()] : a;
    }

    public int netIn(Link link) {
        return net[link.inTerminal()];
    }

    public int netOut(Link link) {
        return net[link.outTerminal()];
    }

    /** The net of a terminal; -1 when no wire has that terminal. */
    public int netOf(String terminal) {
        Integer t = index.get(terminal);
        return t == null ? -1 : net[t];
    }

    public int netOf(int terminal) {
        return net[terminal];
    }

    /** The net of a wire. */
    public int netOf(Wire wire) {
        return net[terminalOf.get(wire)];
    }

    public String terminal(int number) {
        return terminals.get(number);
    }

    public String pin(int number) {
        return pins.get(number);
    }

    public Part part(int number) {
        return partAt.get(number);
    }

    public List<Wire> wiresAt(int number) {
        return wiresAt.get(number);
    }

    /** The terminals of a part that wires name. */
    public List<Integer> terminalsOf(Part part) {
        return byPart.getOrDefault(part.name(), List.of());
    }

    /** The nets of all terminals that a test picks. */
    public BitSet nets(Predicate<Integer> terminal) {
        BitSet picked = new BitSet(netCount);
        for (int t = 0; t < terminals.size(); t++) {
            if (terminal.test(t)) {
                picked.set(net[t]);
            }
        }
        return picked;
    }

    /** The nets of a certain terminal of all parts of a kind. */
    public BitSet nets(PartKind kind, String pin) {
        return nets(t -> partAt.get(t).kind() == kind && pin(t).equals(pin));
    }

    /** The switches of loops: closed while all is well, since what they lead to is told of a loop that has opened. */
    public Set<Part> loopSwitches() {
        BitSet ends = nets(t -> pin(t).endsWith("_loop_closed"));
        Set<Part> loops = new HashSet<>();
        for (int t = 0; t < terminals.size(); t++) {
            if (partAt.get(t).kind() == PartKind.SWITCH && ends.get(net[t])) {
                loops.add(partAt.get(t));
            }
        }
        return loops;
    }

    /** Every net that can be reached from some, through the links that a test lets pass. */
    public BitSet reach(BitSet from, Predicate<Link> passes) {
        BitSet seen = (BitSet) from.clone();
        int[] queue = new int[netCount];
        int tail = 0;
        for (int n = from.nextSetBit(0); n >= 0; n = from.nextSetBit(n + 1)) {
            queue[tail++] = n;
        }
        for (int head = 0; head < tail; head++) {
            for (int number : linksAt[queue[head]]) {
                int next = across(number, queue[head]);
                if (!seen.get(next) && passes.test(links.get(number))) {
                    seen.set(next);
                    queue[tail++] = next;
                }
            }
        }
        return seen;
    }

    /** Gives each net the number of its region. Nets are in one region when links that pass the test join them. */
    public int[] regions(Predicate<Link> passes) {
        int[] region = new int[netCount];
        Arrays.fill(region, -1);
        int[] queue = new int[netCount];
        int count = 0;
        for (int start = 0; start < netCount; start++) {
            if (region[start] >= 0) {
                continue;
            }
            int tail = 0;
            queue[tail++] = start;
            region[start] = count;
            for (int head = 0; head < tail; head++) {
                for (int number : linksAt[queue[head]]) {
                    int next = across(number, queue[head]);
                    if (region[next] < 0 && passes.test(links.get(number))) {
                        region[next] = count;
                        queue[tail++] = next;
                    }
                }
            }
            count++;
        }
        return region;
    }

    /** The parts on a shortest way from some nets to one net, in order; empty when there is none or nothing between. */
    public List<Part> way(BitSet from, int to, Predicate<Link> passes) {
        int[] by = new int[netCount];
        Arrays.fill(by, -2);
        int[] queue = new int[netCount];
        int tail = 0;
        for (int n = from.nextSetBit(0); n >= 0; n = from.nextSetBit(n + 1)) {
            by[n] = -1;
            queue[tail++] = n;
        }
        for (int head = 0; head < tail; head++) {
            for (int number : linksAt[queue[head]]) {
                int next = across(number, queue[head]);
                if (by[next] == -2 && passes.test(links.get(number))) {
                    by[next] = number;
                    queue[tail++] = next;
                }
            }
        }
        List<Part> parts = new ArrayList<>();
        for (int at = to; by[at] >= 0; at = across(by[at], at)) {
            parts.add(0, links.get(by[at]).part());
        }
        return parts;
    }
}
