package sprag.bench.review.formula;

import java.util.Arrays;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/** How high the voltage of a full pack is, and what changes with it. The words are those of {@code docs/kinds-of-cars.md}. */
public enum VoltageBand {
    /** Little shock hazard. */
    CLASS_A(
            0,
            "up to 60 V d.c.",
            "voltage class A: no shock hazard is assumed between the poles, and isolation need not be "
                    + "watched. Short-circuit current and arcs stay: fuse, precharge and covers are asked for all the "
                    + "same. bus.discharged_v must lie below the empty pack. A pack of 48 V stays in this class with "
                    + "at most 16 lfp or 14 nmc cells; what regeneration or a spinning motor adds counts too",
            "UN R100 (high voltage is more than 60 V d.c.) and ISO 6469-3 voltage class A, both from memory; "
                    + "49 CFR 571.305 S3 has the same limit; the counts of cells from 3.65 V and 4.2 V a cell"),
    /** Touching it kills. */
    CLASS_B(
            DangerousVoltage.ABOVE_V,
            "above 60 V d.c.",
            "voltage class B: covers, both poles switched, orange cables, isolation of at least 100 ohm a "
                    + "volt (d.c.) or 500 ohm a volt (with a.c. parts), dead after opening below 60 V",
            "UN R100 and ISO 6469-3, from memory; what is common practice is marked in the findings of check"),
    /** Few parts are made for it. */
    HIGH(
            400,
            "400 V and more",
            "voltage class B as well: covers, both poles switched, orange cables, isolation watched, dead after "
                    + "opening below 60 V. Contactors, fuse, precharge resistor, cables, connectors and their holders "
                    + "need that d.c. voltage on their label, and many parts that are sold for cars end at 450 V or "
                    + "500 V. What you build yourself needs longer ways over its surfaces",
            "the parts' labels; ways over surfaces by IEC 60664-1, table F.5, pollution degree 3, material "
                    + "group III, from memory; where parts end is common practice");

    /** In words, to stand behind "the pack is". */
    public final String title;
    /** Which cautions and limits change; clauses without a full stop at the end. */
    public final String changes;
    /** Where that comes from. */
    public final String source;

    private final double fromV;

    VoltageBand(double fromV, String title, String changes, String source) {
        this.fromV = fromV;
        this.title = title;
        this.changes = changes;
        this.source = source;
    }

    /** The band of a vehicle. 60 V exactly is class A; 400 V exactly is the highest. */
    public static VoltageBand of(Vehicle vehicle) {
        double fullV = vehicle.get(Parameter.PACK_MAX_V);
        return Arrays.stream(values())
                .filter(band -> band == CLASS_B ? fullV > band.fromV : fullV >= band.fromV)
                .reduce(CLASS_A, (lower, higher) -> higher);
    }
}
