package sprag.bench.evidence.campaign;

import java.util.Optional;
import sprag.bench.drawing.live.Fault;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.VoltageClass;
import sprag.bench.review.wiring.schedule.Wire;
import sprag.bench.wired.WiredPlan;

/** What would notice a fault of the drawing that nothing noticed. The first row that fits speaks. */
enum WireRemedy {
    // @formatter:off
    PROTECTIVE   ("a measurement of the protective conductor at each service: nothing in the car sees it"),
    GROUND       ("the part behind it, when it is next asked to work; measure the ground at service"),
    TRACTION_BODY("an insulation monitor; until then a yearly measurement by hand"),
    MAINS_BODY   ("the residual-current device of the supply: press its test button at service"),
    ON_CHASSIS   ("a measurement of the wire against the chassis at service, with its source off"),
    BROKEN_DATA  ("nothing needs to, unless somebody reads what it carries: that reading is then missing"),
    BROKEN       ("what it feeds or reports, when that is next needed; a look at the crimps at service"),
    BRIDGED      ("a measurement between the two terminals before the first use; an empty place between them"),
    CUT_OFF      ("the cut-off and the loop opened on purpose at every service: see everything drop"),
    WATCHDOG     ("the beat stopped on purpose at every service: see the coils drop"),
    OUTPUT       ("a read-back of the output, compared with what was asked"),
    TRACTION     ("an auxiliary contact on the relay, or a voltage reading behind it"),
    STUCK_CLOSED ("a read-back of what it switches, compared with what was asked"),
    STUCK_OPEN   ("what is behind it, when that is next needed");
    // @formatter:on

    private final String words;

    WireRemedy(String words) {
        this.words = words;
    }

    /** Where a wire leads, and what would notice its fault. */
    static String of(WiredPlan plan, String key) {
        Optional<Fault> fault = plan.fault(key);
        return fault.map(f -> place(plan, f) + row(plan, f).words).orElse(BROKEN.words);
    }

    private static String place(WiredPlan plan, Fault fault) {
        return wire(plan, fault).map(w -> w.from() + " to " + w.to() + ": ").orElse("");
    }

    private static Optional<Wire> wire(WiredPlan plan, Fault fault) {
        boolean ofWire = fault.kind() == Fault.Kind.BROKEN || fault.kind() == Fault.Kind.CHAFED;
        return plan.schedule().wires().stream()
                .filter(w -> ofWire && w.id().equals(fault.where()))
                .findFirst();
    }

    private static WireRemedy row(WiredPlan plan, Fault fault) {
        VoltageClass of = wire(plan, fault).map(Wire::voltageClass).orElse(VoltageClass.SIGNAL);
        return switch (fault.kind()) {
            case BROKEN -> broken(plan, fault, of);
            case CHAFED ->
                of == VoltageClass.TRACTION ? TRACTION_BODY : of == VoltageClass.MAINS ? MAINS_BODY : ON_CHASSIS;
            case BRIDGED -> BRIDGED;
            case STUCK_CLOSED -> closed(plan, fault);
            default -> STUCK_OPEN;
        };
    }

    private static WireRemedy broken(WiredPlan plan, Fault fault, VoltageClass of) {
        if (of == VoltageClass.EARTH) {
            boolean protective = wire(plan, fault)
                    .filter(w -> w.net().contains("protective"))
                    .isPresent();
            return protective ? PROTECTIVE : GROUND;
        }
        boolean data =
                wire(plan, fault).filter(w -> w.from().contains(".data_")).isPresent();
        return data ? BROKEN_DATA : BROKEN;
    }

    private static WireRemedy closed(WiredPlan plan, Fault fault) {
        String name = plan.partOf(fault);
        Part part = plan.schedule().parts().get(name);
        PartKind kind = part == null ? PartKind.OTHER : part.kind();
        if (kind == PartKind.CUT_OFF) {
            return CUT_OFF;
        }
        if (kind == PartKind.SUPERVISOR) {
            return OUTPUT;
        }
        boolean traction = plan.schedule().wires().stream()
                .anyMatch(w -> w.voltageClass() == VoltageClass.TRACTION
                        && (Wire.partOf(w.from()).equals(name)
                                || Wire.partOf(w.to()).equals(name)));
        return traction ? TRACTION : name.contains("watchdog") ? WATCHDOG : STUCK_CLOSED;
    }
}
