package sprag.bench.review.wiring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.review.finding.Finding;

/** The way of the protective earth from inlet and chargers to the body of the van. A fault puts mains on the body without it. */
class EarthWiresTest {
    private static final String EARTH = "charger_2.earth";
    private static final String BODY = "chassis.charger";

    private static Draft van() {
        return Draft.of(Path.of("..", "config", "vehicles", "parcel-van"));
    }

    private static List<String> said(Draft draft, Rule rule) {
        return WiringCheck.findings(draft.schedule(), TestLimits.van()).stream()
                .filter(f -> f.id().equals(rule.id()))
                .map(Finding::sentence)
                .toList();
    }

    /** The last wire of the earth is led over another part, the wires before it as they are. */
    private static Draft over(String part, String kind, String in, String out, String mm2) {
        Draft draft = van().addPart(part, kind, "400", "32");
        draft.addLike(EARTH, BODY, part + out, BODY, "protective_earth_2");
        draft.set(part + out, BODY, "size_mm2", mm2);
        return draft.set(EARTH, BODY, "to", part + in);
    }

    @ParameterizedTest
    @CsvSource({
        "splice_earth, splice, .1, .2, 6, 0, 0, a splice is one place",
        "splice_earth, splice, .1, .2, 10, 0, 0, a thicker wire behind it",
        "splice_earth, splice, .1, .2, 4, 0, 2, a wire behind it that is thinner than the line of inlet and first charger",
        "connector_earth, connector, .in, .out, 6, 3, 0, a contact is no way for an earth",
        "fuse_earth, fuse, .in, .out, 6, 3, 0, nor is a fuse"
    })
    void earth_ledOverAPart_isAWayOnlyThroughAJoint(
            String part, String kind, String in, String out, String mm2, int missing, int thin, String because) {
        Draft draft = over(part, kind, in, out, mm2);
        assertEquals(missing, said(draft, Rule.EARTH_MISSING).size(), because + ": " + said(draft, Rule.EARTH_MISSING));
        List<String> thinner = said(draft, Rule.EARTH_THIN);
        assertEquals(thin, thinner.size(), because + ": " + thinner);
    }

    @Test
    void earth_throughAFuse_doesNotReachTheChassis_andThroughElectronicsOnlyPastThem() {
        List<String> fused = said(over("fuse_earth", "fuse", ".in", ".out", "6"), Rule.EARTH_MISSING);
        assertTrue(fused.stream().allMatch(s -> s.endsWith(" does not reach the chassis.")), fused.toString());
        Draft past = van().set(EARTH, BODY, "to", "supervisor.ground");
        List<String> electronics = said(past, Rule.EARTH_MISSING);
        assertEquals(3, electronics.size());
        assertTrue(electronics.stream().allMatch(s -> s.contains("only past a terminal that is not made for it")));
    }

    @Test
    void earth_drawnFromTheChassisToTheParts_isTheSame() {
        Draft draft = van();
        for (String[] ends :
                new String[][] {{"inlet.earth", "charger_1.earth"}, {"charger_1.earth", EARTH}, {EARTH, BODY}}) {
            draft.wire(ends[0], ends[1]).put("to", ends[0] + "!");
            draft.wire(ends[0], ends[0] + "!").put("from", ends[1]);
            draft.wire(ends[1], ends[0] + "!").put("to", ends[0]);
        }
        assertEquals(List.of(), said(draft, Rule.EARTH_MISSING));
        assertEquals(List.of(), said(draft, Rule.EARTH_THIN));
        draft.set(BODY, EARTH, "size_mm2", "1.5");
        assertEquals(3, said(draft, Rule.EARTH_THIN).size(), "thinner than the line of all three");
    }

    /** A charger that takes direct current only has no mains that could get to its case. */
    @Test
    void partWithoutALine_needsNoEarth() {
        Draft draft = van().remove("charger_1.line", "charger_2.line").remove(EARTH, BODY);
        draft.set("charger_1.earth", EARTH, "to", BODY);
        assertEquals(List.of(), said(draft, Rule.EARTH_MISSING));
        assertEquals(List.of(), said(draft, Rule.EARTH_THIN));
    }

    @Test
    void earthWire_ofUnknownSize_isNotCalledThin() {
        assertEquals(List.of(), said(van().set(EARTH, BODY, "size_mm2", ""), Rule.EARTH_THIN));
    }
}
