package sprag.bench.drawing.live;

import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import sprag.bench.drawing.live.CircuitPlan.Role;
import sprag.bench.drawing.live.element.Consumer;
import sprag.bench.drawing.live.element.Control;
import sprag.bench.drawing.live.element.Gate;
import sprag.bench.drawing.live.element.Pole;
import sprag.bench.drawing.live.element.Potential;

/**
 * A circuit that remembers: from moment to moment its coils go on from where they stood. It is worked out again only when something
 * has moved, for every position of the main contacts at once: bit 0 to 2 of a lane say where they are.
 */
public final class RunningCircuit {
    private static final int POSITION_BITS = 3;
    private static final int POSITIONS = 1 << POSITION_BITS;
    /** In lanes with this bit the DC-DC converter gives nothing, in those with the next one the 12 V battery. */
    private static final int NO_CONVERTER = POSITIONS;

    private static final int NO_BATTERY = POSITIONS << 1;
    private static final int ALL_CLOSED = POSITIONS - 1;
    private static final long[] PATTERN = {
        0xAAAAAAAAAAAAAAAAL, 0xCCCCCCCCCCCCCCCCL, 0xF0F0F0F0F0F0F0F0L, 0xFF00FF00FF00FF00L, 0xFFFF0000FFFF0000L
    };

    private final CircuitPlan plan;
    private final SwitchCircuit circuit;
    private final boolean[] set;
    private final long[] sinceMs;
    private final BitSet blown = new BitSet();
    private final BitSet all;
    private final int[] batteries;
    private final Set<String> restless = new TreeSet<>();
    private double timerMs;
    private Fault fault = Fault.NOTHING;
    private Flow flow;
    private int lane;
    private boolean moved = true;

    /** A circuit at rest, nothing broken. */
    public RunningCircuit(CircuitPlan plan) {
        this.plan = plan;
        circuit = plan.circuit;
        set = new boolean[circuit.controls.size()];
        sinceMs = new long[plan.timers.size()];
        Arrays.fill(sinceMs, -1);
        all = plan.everyControl();
        batteries = circuit.controls(Control.Kind.BATTERY);
        flow = new Flow(netlist());
    }

    private Netlist netlist() {
        return new Netlist(circuit, fault, new Netlist.Setup(all, blown, new BitSet()));
    }

    /** How long each timer relay waits. */
    public void timers(double delayMs) {
        timerMs = delayMs;
    }

    /** Lets something break; what was broken before is whole again, except for fuses that have blown. */
    public void inject(Fault what) {
        fault = what;
        rebuild();
    }

    private void rebuild() {
        Flow next = new Flow(netlist());
        System.arraycopy(flow.fed, 0, next.fed, 0, flow.fed.length);
        flow = next;
        moved = true;
    }

    /** Moves a control. */
    public void set(int control, boolean on) {
        moved |= set[control] != on;
        set[control] = on;
    }

    /** Says where the main contacts are. */
    public void contacts(boolean negative, boolean precharge, boolean positive) {
        int now = (negative ? 1 : 0) + (precharge ? 2 : 0) + (positive ? POSITIONS / 2 : 0);
        flow.carryOver(lane, now);
        moved |= now != lane;
        lane = now;
    }

    /** Works out what is joined to what. Returns whether anything may have changed. */
    public boolean settle(long nowMs) {
        boolean changed = false;
        for (int round = 0; round <= plan.timers.size() + 1; round++) {
            runTimers(nowMs);
            if (!moved) {
                break;
            }
            follow();
            changed = true;
        }
        return changed;
    }

    private void runTimers(long nowMs) {
        for (int t = 0; t < sinceMs.length; t++) {
            CircuitPlan.Timer timer = plan.timers.get(t);
            boolean fed = (flow.fed[timer.coil()] >>> lane & 1) != 0;
            sinceMs[t] = !fed ? -1 : sinceMs[t] < 0 ? nowMs : sinceMs[t];
            set(timer.position(), fed && nowMs - sinceMs[t] >= timerMs);
        }
    }

    private void follow() {
        spread();
        boolean progress = true;
        while (progress && (flow.shorted() >>> lane & 1) != 0) {
            progress = endShort();
            if (progress) {
                spread();
            }
        }
        for (int c = 0; c < flow.fed.length; c++) {
            if ((flow.unsettled >>> lane & 1) != 0
                    && circuit.consumers.get(c).kind() == Consumer.Kind.COIL
                    && flow.isRestless(c, lane)) {
                restless.add(circuit.consumers.get(c).part());
            }
        }
        // Coils that chatter go on doing so.
        moved = (flow.unsettled >>> lane & 1) != 0;
    }

    private void spread() {
        for (int c = 0; c < set.length; c++) {
            flow.controls()[c] = set[c] ? -1 : 0;
        }
        for (Map.Entry<Role, Integer> position : plan.positions.entrySet()) {
            flow.controls()[position.getValue()] = PATTERN[position.getKey().ordinal()];
        }
        flow.controls()[plan.converterDead] |= PATTERN[POSITION_BITS];
        for (Pole pole : circuit.poles) {
            int told = pole.gate().control();
            if (isOfConverter(pole) && told != plan.converterDead && told != Gate.NONE) {
                flow.controls()[told] &= ~PATTERN[POSITION_BITS];
            }
        }
        for (int battery : batteries) {
            flow.controls()[battery] |= PATTERN[POSITION_BITS + 1];
        }
        flow.follow(lane);
    }

    /** A fuse blows, or a source without a fuse gives nothing any more. Returns false when neither can be. */
    private boolean endShort() {
        Tracer tracer = new Tracer(circuit, fault, blown);
        tracer.look(flow, 1L << lane);
        int fuse = tracer.fuseOfShort();
        if (fuse != Gate.NONE) {
            blown.set(fuse);
            rebuild();
            return true;
        }
        boolean sensors = isShorted(Potential.SENSOR) && !set[plan.sensorDown];
        boolean low = !sensors && isShorted(Potential.LOW_VOLTAGE);
        boolean progress = sensors;
        set[plan.sensorDown] |= sensors;
        for (int battery : batteries) {
            progress |= low && !set[battery];
            set[battery] |= low;
        }
        return progress;
    }

    private boolean isShorted(Potential potential) {
        return circuit.poles.stream()
                .filter(p -> p.potential() == potential)
                .anyMatch(p -> (flow.shortedAt(flow.netlist.net[p.node()]) >>> lane & 1) != 0);
    }

    /** Whether the coils of a role all pull. */
    public boolean pulls(Role role) {
        for (int coil : plan.coils.get(role)) {
            if ((flow.fed[coil] >>> lane & 1) == 0) {
                return false;
            }
        }
        return true;
    }

    /** Whether a role is drawn. */
    public boolean has(Role role) {
        return plan.coils.containsKey(role);
    }

    /** Whether a consumer works now. */
    public boolean works(int consumer) {
        return (flow.fed[consumer] >>> lane & 1) != 0;
    }

    /** Whether a consumer would work with the main contacts closed. */
    public boolean worksClosed(int consumer) {
        return (flow.fed[consumer] >>> ALL_CLOSED & 1) != 0;
    }

    /** Whether a consumer would work on the 12 V battery alone. */
    public boolean worksOnBattery(int consumer) {
        return (flow.fed[consumer] >>> (lane | NO_CONVERTER) & 1) != 0;
    }

    private boolean isOfConverter(Pole pole) {
        int by = pole.gate().consumer();
        return by != Gate.NONE && circuit.consumers.get(by).kind() == Consumer.Kind.TRACTION;
    }

    /**
     * Whether a converter, with the main contacts closed, feeds a 12 V side: the battery, or another consumer without it.
     *
     * @param converter its consumer of traction voltage
     * @param other which consumer
     */
    public boolean feeds(int converter, int other) {
        boolean gives = true;
        boolean reached = true;
        for (Pole pole : circuit.poles) {
            if (pole.gate().consumer() == converter) {
                gives &= (pole.gate().mask(flow.controls(), flow.fed) >>> ALL_CLOSED & 1) != 0;
                reached &= (flow.hard(pole.node(), pole.potential()) >>> (lane | NO_CONVERTER) & 1) != 0;
            }
        }
        return gives && (reached || (flow.fed[other] >>> (ALL_CLOSED | NO_BATTERY) & 1) != 0);
    }

    /** Whether a terminal is joined to a source of a potential without a load between. */
    public boolean hard(int terminal, Potential potential) {
        return (flow.hard(terminal, potential) >>> lane & 1) != 0;
    }

    /** Whether a terminal is joined to a source of a potential, if only through a load. */
    public boolean soft(int terminal, Potential potential) {
        return (flow.soft(terminal, potential) >>> lane & 1) != 0;
    }

    /** Whether some source is joined to a terminal without a load between. */
    public boolean isHeld(int terminal) {
        for (Potential potential : Potential.values()) {
            if (hard(terminal, potential)) {
                return true;
            }
        }
        return false;
    }

    /** What a terminal carries, in the signs of the table of {@code live}. */
    public String carries(int terminal) {
        return LiveTable.cell(flow, flow.netlist.net[terminal], 1L << lane).text();
    }

    /** Whether a way of {@link CircuitPlan#contacts()} conducts. */
    public boolean conducts(int way) {
        boolean stuck = fault.index() == way;
        boolean open = blown.get(way) || stuck && fault.kind() == Fault.Kind.STUCK_OPEN;
        boolean closed = stuck && fault.kind() == Fault.Kind.STUCK_CLOSED;
        long gate = circuit.links.get(way).gate().mask(flow.controls(), flow.fed);
        return !open && (closed || (gate >>> lane & 1) != 0);
    }

    /** Whether wires join two terminals. */
    public boolean joins(int a, int b) {
        return flow.netlist.joins(a, b);
    }

    /** Whether a consumer's ends have full current from their sources in a position of the main contacts. */
    public boolean hardAt(int position, int consumer) {
        return (flow.fed[consumer] >>> position & 1) != 0;
    }

    /** Whether current reaches one end of a consumer through a load and the other without one, in a position of the main contacts. */
    public boolean softAt(int position, int consumer) {
        Consumer c = circuit.consumers.get(consumer);
        Potential plus = Potential.values()[c.kind().plus];
        Potential minus = Potential.values()[c.kind().minus];
        long through =
                flow.soft(c.a(), plus) & flow.hard(c.b(), minus) | flow.hard(c.a(), plus) & flow.soft(c.b(), minus);
        return ((through & flow.chain()) >>> position & 1) != 0;
    }

    /** Whether the traction circuit is joined to the chassis or to the 12 V side. */
    public boolean leaks() {
        return (flow.mixed() >>> lane & 1) != 0;
    }

    /** The fuses that have blown. */
    public List<String> blown() {
        return blown.stream()
                .mapToObj(l -> circuit.links.get(l).part())
                .distinct()
                .toList();
    }

    /** The relays that once went on pulling and releasing. */
    public Set<String> restless() {
        return restless;
    }
}
