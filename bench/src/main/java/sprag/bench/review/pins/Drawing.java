package sprag.bench.review.pins;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import sprag.bench.review.wiring.WiringCheck;
import sprag.bench.review.wiring.circuit.SwitchSupply;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.ScheduleFiles;
import sprag.bench.review.wiring.schedule.VoltageClass;
import sprag.bench.review.wiring.schedule.Wire;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Problem;

/** What the wiring schedule says about a signal, an output or a fuse, for a person at the car. */
public final class Drawing {
    /**
     * A fuse of the 12 V side.
     *
     * @param ratedA its rating, NaN when the list of parts does not say
     * @param behind the wire behind it, empty when there is none
     */
    public record Fuse(String name, double ratedA, String behind) {}

    private final Schedule schedule;

    public Drawing(Schedule schedule) {
        this.schedule = schedule;
    }

    public static Drawing read(Path folder) throws BadInput {
        Schedule schedule = ScheduleFiles.read(folder).orElse(null);
        if (schedule == null) {
            String what = "is missing: the steps are made from the wiring schedule";
            Path wires = folder.resolve(Schedule.WIRES_FILE);
            throw new BadInput(List.of(new Problem(
                    wires, 1, 1, "", what, "a schedule", "", "Write it; docs/checking.md tells its columns.")));
        }
        return new Drawing(schedule);
    }

    /** What a closed switch joins a signal's wire to. */
    public SwitchSupply supplyOf(String key) {
        return SwitchSupply.of(schedule, key);
    }

    /** What to know before outputs are tried, when no watchdog relay lies in the supply of the coils. */
    public Optional<String> unguardedOutputs() {
        return WiringCheck.unguardedOutputs(schedule);
    }

    /** Whether any wire carries it. */
    boolean has(String key) {
        return !wiresOf(key).isEmpty();
    }

    /** The wires that carry a signal or an output, e.g. {@code wire S002, black-red, from key_switch.drive}. */
    public String wiring(String key) {
        List<Wire> wires = wiresOf(key);
        if (wires.isEmpty()) {
            return "the schedule has no wire for it";
        }
        Wire wire = wires.get(0);
        String colour = wire.colour().isEmpty() ? "" : ", " + wire.colour();
        return "wire " + wire.id() + colour + ", " + wire.from() + " to " + wire.to()
                + (wire.carries().contains(key) ? " (carries it with others)" : "");
    }

    /** The part at the far end of a signal or output, e.g. {@code contactor_negative}; empty when the schedule does not say. */
    public String farPart(String key) {
        for (Wire wire : wiresOf(key)) {
            if (wire.carries().contains(key)) {
                continue; // a wire that carries several signals does not say which part uses this one
            }
            for (String end : List.of(wire.from(), wire.to())) {
                String part = partOf(end);
                if (!part.isEmpty() && kind(part) != PartKind.SUPERVISOR) {
                    return part;
                }
            }
        }
        return "";
    }

    private List<Wire> wiresOf(String key) {
        List<Wire> found = new ArrayList<>();
        for (Wire wire : schedule.wires()) {
            if (isPinOf(wire.from(), key)
                    || isPinOf(wire.to(), key)
                    || wire.carries().contains(key)) {
                found.add(wire);
            }
        }
        return found;
    }

    private boolean isPinOf(String terminal, String key) {
        return terminal.endsWith("." + key) && kind(partOf(terminal)) == PartKind.SUPERVISOR;
    }

    private PartKind kind(String part) {
        Part found = schedule.parts().get(part);
        return found == null ? PartKind.OTHER : found.kind();
    }

    private static String partOf(String terminal) {
        int dot = terminal.indexOf('.');
        return dot < 0 ? "" : terminal.substring(0, dot);
    }

    /** The fuses of the 12 V side, in the order of the schedule. */
    public List<Fuse> lowFuses() {
        List<Fuse> fuses = new ArrayList<>();
        for (Part part : schedule.parts().values()) {
            boolean low = schedule.wires().stream()
                    .anyMatch(w -> w.voltageClass() == VoltageClass.LOW_VOLTAGE && touches(w, part.name()));
            if (part.kind() == PartKind.FUSE && low) {
                fuses.add(new Fuse(part.name(), part.ratedA(), behind(part.name())));
            }
        }
        return fuses;
    }

    private String behind(String fuse) {
        for (Wire wire : schedule.wires()) {
            if (wire.from().equals(fuse + ".out") || wire.to().equals(fuse + ".out")) {
                String far = wire.from().startsWith(fuse + ".") ? wire.to() : wire.from();
                return String.format(Locale.ROOT, "wire %s, %s, at %s", wire.id(), wire.colour(), far);
            }
        }
        return "";
    }

    private static boolean touches(Wire wire, String part) {
        return partOf(wire.from()).equals(part) || partOf(wire.to()).equals(part);
    }
}
