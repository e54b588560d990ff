package sprag.bench.review.sizing;

import static sprag.bench.review.finding.Weight.CAUTION;
import static sprag.bench.review.finding.Weight.NOTE;
import static sprag.bench.review.finding.Weight.STOP;
import static sprag.bench.vehicle.CarParameter.BOX_CONTACT_MOHM;
import static sprag.bench.vehicle.CarParameter.BOX_FUSE_A;
import static sprag.bench.vehicle.CarParameter.CELLS_RESISTANCE_MOHM;
import static sprag.bench.vehicle.SizingParameter.CABLE_AMBIENT_C;
import static sprag.bench.vehicle.SizingParameter.CABLE_BUNDLED;
import static sprag.bench.vehicle.SizingParameter.CABLE_DROP_SHARE;
import static sprag.bench.vehicle.SizingParameter.CABLE_INSULATION_C;
import static sprag.bench.vehicle.SizingParameter.CABLE_LASTING_A;
import static sprag.bench.vehicle.SizingParameter.CABLE_MAIN_LENGTH_M;
import static sprag.bench.vehicle.SizingParameter.CABLE_MAIN_MM2;
import static sprag.bench.vehicle.SizingParameter.CABLE_STRANDS;
import static sprag.bench.vehicle.SizingParameter.FUSE_BREAKS_A;
import static sprag.bench.vehicle.SizingParameter.FUSE_POINT_1_A;
import static sprag.bench.vehicle.SizingParameter.FUSE_POINT_1_S;
import static sprag.bench.vehicle.SizingParameter.FUSE_POINT_2_A;
import static sprag.bench.vehicle.SizingParameter.FUSE_POINT_2_S;
import static sprag.bench.vehicle.SizingParameter.FUSE_POINT_3_A;
import static sprag.bench.vehicle.SizingParameter.FUSE_POINT_3_S;
import static sprag.bench.vehicle.SizingParameter.FUSE_RATED_V;
import static sprag.supervisor.vocabulary.Parameter.PACK_CELLS;
import static sprag.supervisor.vocabulary.Parameter.PACK_DISCHARGE_MAX_A;
import static sprag.supervisor.vocabulary.Parameter.PACK_MAX_V;
import static sprag.supervisor.vocabulary.Parameter.PACK_NOMINAL_V;
import static sprag.supervisor.vocabulary.Parameter.PACK_OVER_FACTOR;
import static sprag.supervisor.vocabulary.Parameter.PACK_OVER_MS;

import java.util.List;
import sprag.bench.review.formula.Ampacity;
import sprag.bench.review.formula.Conductor;
import sprag.bench.review.formula.Fuse;
import sprag.bench.vehicle.Vehicle;

/** The main cable and the main fuse. */
final class CableCalculations {
    private final Vehicle vehicle;

    CableCalculations(Vehicle vehicle) {
        this.vehicle = vehicle;
    }

    List<Calculation> all() {
        return List.of(
                ampacity(),
                sizeInTable(),
                airInTable(),
                drop(),
                fuseGuardsCable(),
                fuseCarries(),
                fuseStandsTrip(),
                fuseVoltage(),
                shortCircuit(),
                cableStandsShort());
    }

    private Calculation sum(String id, String title) {
        return new Calculation(vehicle, id, title);
    }

    private static double cableA(Calculation sum) {
        return Ampacity.ampacityA(
                sum.in(CABLE_MAIN_MM2), sum.in(CABLE_INSULATION_C), sum.in(CABLE_AMBIENT_C), sum.in(CABLE_BUNDLED));
    }

    /** Pack at 25 °C, both cables at 20 °C, two contactors: the least that can be in the way. */
    static double loopOhm(Calculation sum) {
        double packOhm = sum.in(PACK_CELLS) * sum.in(CELLS_RESISTANCE_MOHM) / 1000;
        double cableOhm = Conductor.leastOhm(sum.in(CABLE_MAIN_MM2), 2 * sum.in(CABLE_MAIN_LENGTH_M), 20);
        return packOhm + cableOhm + 2 * sum.in(BOX_CONTACT_MOHM) / 1000;
    }

    private static Fuse fuse(Calculation sum) {
        return new Fuse(
                new double[] {sum.in(FUSE_POINT_1_A), sum.in(FUSE_POINT_2_A), sum.in(FUSE_POINT_3_A)},
                new double[] {sum.in(FUSE_POINT_1_S), sum.in(FUSE_POINT_2_S), sum.in(FUSE_POINT_3_S)});
    }

    private Calculation ampacity() {
        Calculation sum = sum("main-cable-ampacity", "the lasting current in the main cable");
        double cableA = cableA(sum);
        return sum.formula("held against the ampacity for size, insulation, air and bundling")
                .gives(sum.in(CABLE_LASTING_A), "A")
                .atMost("what the cable carries", cableA)
                .about(CABLE_MAIN_MM2)
                .otherwise(STOP, "the insulation ages, softens and shorts")
                .source(Ampacity.SOURCE);
    }

    private Calculation sizeInTable() {
        Calculation sum = sum("main-cable-beyond-table", "the size of the main cable");
        return sum.formula("held against the largest size of the table of ampacities, 4/0 AWG")
                .gives(sum.in(CABLE_MAIN_MM2), "mm²")
                .atMost("the largest size of the table", Ampacity.LARGEST_MM2)
                .about(CABLE_MAIN_MM2)
                .otherwise(NOTE, "the copper above that size is not counted; the cable maker's own figure may be more")
                .source(Ampacity.SOURCE);
    }

    private Calculation airInTable() {
        Calculation sum = sum("cable-air-beyond-table", "the air around the cables");
        double airC = sum.in(CABLE_AMBIENT_C);
        sum.formula("held against the air that the table of ampacities and its note 1 are made for, 30 to 50 °C")
                .gives(airC, "°C");
        return (airC < Ampacity.TABLE_AIR_C
                        ? sum.atLeast("the air of the table", Ampacity.TABLE_AIR_C)
                                .otherwise(NOTE, "the cables count as if the air had 30 °C; cooler air is not counted")
                        : sum.atMost("the hottest air of the table", Ampacity.ENGINE_SPACE_C)
                                .otherwise(
                                        CAUTION,
                                        "no published figure stands behind the ampacities; they follow a straight line"
                                                + " to nothing at the insulation's limit: ask the cable's maker"))
                .about(CABLE_AMBIENT_C)
                .source(Ampacity.SOURCE);
    }

    private Calculation drop() {
        Calculation sum = sum("main-cable-drop", "the voltage lost in the main cable, there and back");
        double lastingA = sum.in(CABLE_LASTING_A);
        double conductorC =
                Conductor.conductorC(lastingA / cableA(sum), sum.in(CABLE_INSULATION_C), sum.in(CABLE_AMBIENT_C));
        Conductor.Strands strands = Conductor.Strands.values()[(int) sum.in(CABLE_STRANDS)];
        double ohm = Conductor.greatestOhm(
                strands,
                sum.in(CABLE_MAIN_MM2),
                2 * sum.in(CABLE_MAIN_LENGTH_M),
                sum.in("temperature of the copper", conductorC, "°C"));
        return sum.formula("I times the greatest resistance of such a conductor, as warm as that current makes it")
                .gives(lastingA * ohm, "V")
                .atMost("the allowed share of the nominal voltage", sum.in(CABLE_DROP_SHARE) * sum.in(PACK_NOMINAL_V))
                .about(CABLE_MAIN_MM2)
                .otherwise(CAUTION, "that much is lost as heat under the floor")
                .source("IEC 60228, second-hand, and 0.393 % per kelvin for copper; 3 % is common practice on boats"
                        + " (ABYC)");
    }

    private Calculation fuseGuardsCable() {
        Calculation sum = sum("main-fuse-guards-cable", "the rating of the main fuse");
        double cableA = cableA(sum);
        return sum.formula("held against the ampacity of the cable behind it")
                .gives(sum.in(BOX_FUSE_A), "A")
                .atMost("what the cable carries", cableA)
                .about(BOX_FUSE_A)
                .otherwise(STOP, "the cable burns before the fuse melts")
                .source(Ampacity.SOURCE);
    }

    private Calculation fuseCarries() {
        Calculation sum = sum("main-fuse-carries-load", "the lasting current as a share of the main fuse's rating");
        return sum.formula("lasting current / fuse rating")
                .gives(sum.in(CABLE_LASTING_A) / sum.in(BOX_FUSE_A), "")
                .atMost("the usual share", 0.8)
                .about(BOX_FUSE_A)
                .otherwise(CAUTION, "the fuse ages and melts one day without a fault")
                .source("no rule is known; 75 to 80 % is common practice");
    }

    private Calculation fuseStandsTrip() {
        Calculation sum = sum("main-fuse-outlasts-trip", "the time the main fuse stands the over-current limit");
        double overA = sum.in(PACK_DISCHARGE_MAX_A) * sum.in(PACK_OVER_FACTOR);
        return sum.formula("time-current points at pack.discharge_max_a times pack.over_factor")
                .gives(fuse(sum).secondsAt(overA) * 1000, "ms")
                .atLeast("pack.over_ms", sum.in(PACK_OVER_MS))
                .about(FUSE_POINT_1_S)
                .otherwise(CAUTION, "the fuse melts before the supervisor can open the contactors")
                .source("the fuse's time-current curve, straight between its points in double-logarithmic scales");
    }

    private Calculation fuseVoltage() {
        Calculation sum = sum("main-fuse-voltage", "the voltage that the main fuse must clear");
        return sum.formula("pack voltage when full")
                .gives(sum.in(PACK_MAX_V), "V")
                .atMost("the fuse's d.c. rating", sum.in(FUSE_RATED_V))
                .about(FUSE_RATED_V)
                .otherwise(STOP, "it melts and keeps arcing")
                .source(Calculation.DATA_SHEET);
    }

    private Calculation shortCircuit() {
        Calculation sum = sum("main-fuse-breaking-capacity", "the prospective short-circuit current of the pack");
        double packOhm = sum.in(PACK_CELLS) * sum.in(CELLS_RESISTANCE_MOHM) / 1000;
        return sum.formula("full pack / resistance of its cells, a short right behind the fuse")
                .gives(Fuse.shortCircuitA(sum.in(PACK_MAX_V), packOhm), "A")
                .atMost("the fuse's d.c. breaking capacity", sum.in(FUSE_BREAKS_A))
                .about(FUSE_BREAKS_A)
                .otherwise(STOP, "the fuse bursts instead of clearing")
                .source("Ohm's law; the breaking capacity is the data sheet's");
    }

    private Calculation cableStandsShort() {
        Calculation sum =
                sum("main-fuse-saves-cable", "the time the main fuse takes on a short at the end of the cable");
        double shortA = Fuse.shortCircuitA(sum.in(PACK_MAX_V), loopOhm(sum));
        double standsS = Conductor.shortCircuitS(sum.in(CABLE_MAIN_MM2), shortA);
        return sum.formula("time-current points at full pack / resistance of pack, cables and contacts")
                .gives(fuse(sum).secondsAt(shortA) * 1000, "ms")
                .atMost("what the cable stands, (k S / I)²", standsS * 1000)
                .about(CABLE_MAIN_MM2)
                .otherwise(STOP, "the cable's insulation burns before the fuse has cleared")
                .source("adiabatic rise, k = 143 for cross-linked insulation (IEC 60364-4-43, from memory)");
    }
}
