package sprag.bench.review.sizing;

import static sprag.bench.review.finding.Weight.CAUTION;
import static sprag.bench.review.finding.Weight.NOTE;
import static sprag.bench.review.finding.Weight.STOP;
import static sprag.bench.vehicle.SizingParameter.CABLE_RATED_V;
import static sprag.bench.vehicle.SizingParameter.INSULATION_CREEPAGE_MM;
import static sprag.supervisor.vocabulary.Parameter.BUS_MAX_V;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.review.formula.DangerousVoltage;
import sprag.bench.review.formula.PublishedTable;
import sprag.bench.review.formula.VoltageBand;
import sprag.bench.vehicle.Vehicle;

/** What lies between the traction side and everything else. */
final class InsulationCalculations {
    /** Working voltages and least ways over a surface for them: pollution degree 3 (dust, damp), material group III. */
    private static final double[] CREEPAGE_V = {
        50, 63, 80, 100, 125, 160, 200, 250, 320, 400, 500, 630, 800, 1000, 1250, 1600
    };

    private static final double[] CREEPAGE_MM = {
        1.9, 2.0, 2.1, 2.2, 2.4, 2.5, 3.2, 4.0, 5.0, 6.3, 8.0, 10.0, 12.5, 16.0, 20.0, 25.0
    };

    private final Vehicle vehicle;

    InsulationCalculations(Vehicle vehicle) {
        this.vehicle = vehicle;
    }

    List<Calculation> all() {
        List<Calculation> all = new ArrayList<>(List.of(cable(), creepage()));
        if (VoltageBand.of(vehicle) == VoltageBand.CLASS_A) {
            all.add(classA());
        }
        return all;
    }

    private Calculation sum(String id, String title) {
        return new Calculation(vehicle, id, title);
    }

    private Calculation cable() {
        Calculation sum = sum("cable-voltage", "the greatest voltage on the traction cables");
        return sum.formula("bus.max_v: what the bus may come to while regenerating")
                .gives(sum.in(BUS_MAX_V), "V")
                .atMost("the cable's d.c. rating", sum.in(CABLE_RATED_V))
                .about(CABLE_RATED_V)
                .otherwise(STOP, "the insulation breaks down to the screen or the body")
                .source(Calculation.DATA_SHEET);
    }

    private Calculation creepage() {
        Calculation sum = sum("creepage", "the least way over a surface between traction and the body");
        double busV = sum.in(BUS_MAX_V);
        return sum.formula("held against the table at bus.max_v, straight lines between its rows, basic insulation")
                .gives(sum.in(INSULATION_CREEPAGE_MM), "mm")
                .atLeast("the way for that voltage in dust and damp", leastMm(busV))
                .about(INSULATION_CREEPAGE_MM)
                .otherwise(CAUTION, "dirt and damp on the surface carry current, which burns a track into it")
                .source("IEC 60664-1, table F.5, pollution degree 3, material group III, from memory");
    }

    /** Above the table the last row goes on in proportion. */
    static double leastMm(double volt) {
        int last = CREEPAGE_V.length - 1;
        return volt > CREEPAGE_V[last]
                ? CREEPAGE_MM[last] * volt / CREEPAGE_V[last]
                : PublishedTable.between(CREEPAGE_V, CREEPAGE_MM, volt);
    }

    private Calculation classA() {
        Calculation sum = sum("class-a-left", "the greatest voltage of the bus behind a pack of class A");
        return sum.formula("bus.max_v")
                .gives(sum.in(BUS_MAX_V), "V")
                .atMost("the end of voltage class A", DangerousVoltage.ABOVE_V)
                .otherwise(
                        NOTE,
                        "while it regenerates the bus may come above 60 V d.c.: treat it as class B, or write a lower"
                                + " bus.max_v that every part keeps")
                .source("ISO 6469-3 counts the highest working voltage, from memory");
    }
}
