package sprag.bench.drawing.sheet;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.drawing.draft.Answers;
import sprag.bench.drawing.draft.Drafter;
import sprag.bench.drawing.paper.Point;
import sprag.bench.drawing.paper.SvgInk;
import sprag.bench.review.wiring.circuit.DrawnCircuit;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.ScheduleFiles;
import sprag.bench.review.wiring.schedule.ScheduleReader;
import sprag.bench.review.wiring.schedule.Wire;
import sprag.bench.vehicle.VehicleReader;

/** The sheets can be read: everything is there once, nothing lies on anything else, words are large enough. */
class SheetPlanTest {
    private static final Path VEHICLES = Path.of("..", "config", "vehicles");
    /** A sheet of letter paper without its margins is that much smaller than one of A3. */
    private static final double LETTER_SHARE = (279.4 - 18) / Sheet.WIDTH_MM;

    private static final double LEAST_WORDS_MM = 2;
    private static final String HEADS =
            "wire,from,to,net,class,size_mm2,colour,length_m,fuse_a,from_pin_v,to_pin_v,current_a,twisted_with,carries,remark\n";

    static Schedule schedule(String vehicle) throws Exception {
        if (!vehicle.startsWith("draft of ")) {
            return ScheduleFiles.read(VEHICLES.resolve(vehicle)).orElseThrow();
        }
        Path folder = VEHICLES.resolve(vehicle.substring("draft of ".length()));
        Drafter.Result draft =
                Drafter.draft(VehicleReader.read(folder), Answers.read(Path.of("target")), new byte[0], new byte[0]);
        return ScheduleReader.read(
                        draft.wires().getBytes(StandardCharsets.UTF_8),
                        draft.parts().getBytes(StandardCharsets.UTF_8))
                .schedule();
    }

    private static Schedule changed(String vehicle, String from, String to) throws Exception {
        Path folder = VEHICLES.resolve(vehicle);
        String wires = Files.readString(folder.resolve(Schedule.WIRES_FILE));
        assertTrue(wires.contains(from), from);
        return ScheduleReader.read(
                        wires.replace(from, to).getBytes(StandardCharsets.UTF_8),
                        Files.readAllBytes(folder.resolve(Schedule.PARTS_FILE)))
                .schedule();
    }

    private static String svg(Sheet sheet, Schedule schedule) {
        SvgInk ink = new SvgInk("a sheet", Sheet.WIDTH_MM, sheet.heightMm());
        SheetPainter.draw(sheet, Marks.NONE, new DrawnCircuit(schedule)::netOf, "strip", ink);
        return ink.inPage();
    }

    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "yard-cart", "coupe", "flawed-van", "draft of coupe"})
    void sheets_ofAnyVehicle_showEachWireOnceAndNothingOnAnythingElse(String vehicle) throws Exception {
        Schedule schedule = schedule(vehicle);
        List<Sheet> sheets = SheetPlan.of(schedule, Marks.NONE);
        List<String> drawn = sheets.stream()
                .flatMap(s -> s.drawn().placed().routes().keySet().stream())
                .map(Wire::id)
                .sorted()
                .toList();
        assertEquals(schedule.wires().stream().map(Wire::id).sorted().toList(), drawn);
        for (Sheet sheet : sheets) {
            assertNothingOverlaps(sheet);
            assertWordsAreLarge(sheet, svg(sheet, schedule));
        }
    }

    private static void assertNothingOverlaps(Sheet sheet) {
        List<Map.Entry<Box, Point>> boxes =
                new ArrayList<>(sheet.drawn().placed().boxes().entrySet());
        for (int a = 0; a < boxes.size(); a++) {
            for (int b = a + 1; b < boxes.size(); b++) {
                double[] one = outer(boxes.get(a));
                double[] other = outer(boxes.get(b));
                boolean apart = one[2] <= other[0] || other[2] <= one[0] || one[3] <= other[1] || other[3] <= one[1];
                assertTrue(
                        apart,
                        sheet.title() + ": " + boxes.get(a).getKey().key() + " lies on "
                                + boxes.get(b).getKey().key());
            }
        }
        sheet.drawn().placed().routes().forEach((wire, route) -> {
            for (int i = 1; i < route.size(); i++) {
                Point p = route.get(i - 1);
                Point q = route.get(i);
                assertTrue(
                        Math.abs(p.x() - q.x()) < 0.02 || Math.abs(p.y() - q.y()) < 0.02,
                        wire.id() + " is neither upright nor level: " + route);
                for (Map.Entry<Box, Point> box : boxes) {
                    assertTrue(
                            !enters(p, q, box),
                            sheet.title() + ": " + wire.id() + " goes through "
                                    + box.getKey().key());
                }
            }
        });
    }

    private static double[] outer(Map.Entry<Box, Point> box) {
        Box.Size size = box.getKey().size();
        double left = box.getValue().x() - size.westMm();
        return new double[] {
            left, box.getValue().y(), left + size.outerWidthMm(), box.getValue().y() + size.heightMm()
        };
    }

    /** Whether a piece of a line comes into the frame, its border left aside. */
    private static boolean enters(Point p, Point q, Map.Entry<Box, Point> box) {
        double left = box.getValue().x() + 0.05;
        double top = box.getValue().y() + 0.05;
        double right = left + box.getKey().size().widthMm() - 0.1;
        double bottom = top + box.getKey().size().heightMm() - 0.1;
        return Math.max(p.x(), q.x()) > left
                && Math.min(p.x(), q.x()) < right
                && Math.max(p.y(), q.y()) > top
                && Math.min(p.y(), q.y()) < bottom;
    }

    private static void assertWordsAreLarge(Sheet sheet, String svg) {
        Matcher sizes = Pattern.compile("font-size=\"([\\d.]+)\"").matcher(svg);
        int count = 0;
        while (sizes.find()) {
            double onLetterMm = Double.parseDouble(sizes.group(1)) * LETTER_SHARE;
            assertTrue(onLetterMm >= LEAST_WORDS_MM, sheet.title() + ": words of " + onLetterMm + " mm");
            count++;
        }
        assertTrue(count > sheet.wires().size(), "words are there");
    }

    @Test
    void sheet_isAsHighAsItsDrawingNeeds_andAtMostAsItsPaper() throws Exception {
        for (Sheet sheet : SheetPlan.of(schedule("parcel-van"), Marks.NONE)) {
            double drawnMm = sheet.drawn().placed().heightMm() * sheet.scale();
            double freeMm = sheet.heightMm() - drawnMm - Sheet.STRIP_MM;
            assertTrue(freeMm >= 2 * Sheet.EDGE_MM, sheet.title() + " leaves " + freeMm + " mm");
            assertTrue(freeMm <= 2 * Sheet.EDGE_MM + 1, sheet.title() + " leaves " + freeMm + " mm");
            assertTrue(sheet.heightMm() <= Sheet.HEIGHT_MM, sheet.title());
            assertTrue(sheet.kind() != SheetKind.DATA || sheet.heightMm() < Sheet.HEIGHT_MM / 3, "two lines");
        }
    }

    @Test
    void sheets_sameScheduleTwice_areTheSame() throws Exception {
        Schedule schedule = schedule("yard-cart");
        List<String> once = SheetPlan.of(schedule, Marks.NONE).stream()
                .map(s -> svg(s, schedule))
                .toList();
        List<String> again = SheetPlan.of(schedule, Marks.NONE).stream()
                .map(s -> svg(s, schedule))
                .toList();
        assertEquals(once, again);
    }

    @Test
    void sheets_oneWireOfAnotherColour_moveNothing() throws Exception {
        Schedule before = schedule("yard-cart");
        Schedule after = changed(
                "yard-cart",
                "S005,brake_switch.out,supervisor.brake_pressed,brake_pressed,signal,0.5,green-black",
                "S005,brake_switch.out,supervisor.brake_pressed,brake_pressed,signal,0.5,green-white");
        assertEquals(0, moved(before, after));
    }

    @Test
    void sheets_oneWireMore_moveFewParts() throws Exception {
        Schedule before = schedule("yard-cart");
        Schedule after = changed(
                "yard-cart",
                "# Pedal, sensors, inverter\n",
                "# Pedal, sensors, inverter\nS040,node_control.9,cover_switch.in,lv_control,12v,0.75,red-grey,0.8,5,32,32,0.1,,,\n");
        int parts = SheetPlan.of(before, Marks.NONE).stream()
                .mapToInt(s -> s.drawn().placed().boxes().size())
                .sum();
        int moved = moved(before, after);
        assertTrue(moved <= parts / 3, moved + " of " + parts + " parts moved by more than 25 mm");
    }

    /** How many boxes of the old sheets stand elsewhere, by more than 25 mm, or are gone. */
    private static int moved(Schedule before, Schedule after) {
        Map<String, Point> now = new HashMap<>();
        for (Sheet sheet : SheetPlan.of(after, Marks.NONE)) {
            sheet.drawn().placed().boxes().forEach((box, at) -> now.put(sheet.title() + box.key(), at));
        }
        int moved = 0;
        for (Sheet sheet : SheetPlan.of(before, Marks.NONE)) {
            for (Map.Entry<Box, Point> box : sheet.drawn().placed().boxes().entrySet()) {
                Point at = now.get(sheet.title() + box.getKey().key());
                boolean stays = at != null
                        && Math.hypot(
                                        at.x() - box.getValue().x(),
                                        at.y() - box.getValue().y())
                                <= 25;
                moved += stays ? 0 : 1;
            }
        }
        return moved;
    }

    @Test
    void protectiveEarth_standsBesideTheMainsAndGroundsBesideTheirPlus() throws Exception {
        Map<SheetKind, List<String>> wires = new EnumMap<>(SheetKind.class);
        for (Sheet sheet : SheetPlan.of(schedule("parcel-van"), Marks.NONE)) {
            wires.computeIfAbsent(sheet.kind(), k -> new ArrayList<>())
                    .addAll(sheet.wires().stream().map(Wire::id).toList());
        }
        assertTrue(wires.get(SheetKind.CHARGING).containsAll(List.of("E008", "E009", "E010", "M001")), wires::toString);
        assertTrue(wires.get(SheetKind.COILS).containsAll(List.of("E007", "L032")), "brake lamps");
        assertTrue(wires.get(SheetKind.SUPPLY).containsAll(List.of("E001", "E002", "E003", "L001")), "battery");
    }

    @Test
    void secondThrowOfAContact_isJoinedToTheFirst() {
        String common = HEADS + "S1,bar.1,lever_switch.in,n,12v,1,red,1,,,,,,,\n"
                + "S2,lever_switch.out,supervisor.forward_switch,f,signal,1,red,1,,,,,,,\n"
                + "S3,lever_switch.out_2,supervisor.reverse_switch,r,signal,1,red,1,,,,,,,\n";
        assertTrue(elements(common).get(1).shared(), "out_2 has no in_2: it is fed by in");
        String own = common + "T1,pack.plus,lever_switch.in_2,p,traction,1,red,1,,,,,,,\n";
        assertTrue(!elements(own).get(1).shared(), "in_2 is on another sheet");
    }

    private static List<Box.Element> elements(String rows) {
        Schedule schedule =
                ScheduleReader.read(rows.getBytes(StandardCharsets.UTF_8), null).schedule();
        return SheetPlan.of(schedule, Marks.NONE).stream()
                .filter(s -> s.kind() == SheetKind.SIGNALS)
                .flatMap(s -> s.drawn().placed().boxes().keySet().stream())
                .filter(b -> b.key().equals("lever_switch"))
                .findFirst()
                .orElseThrow()
                .elements();
    }

    @Test
    void wireWithOneEnd_isDrawnToAnOpenEnd() {
        Schedule schedule = ScheduleReader.read(
                        (HEADS + "T1,pack.plus,,p,traction,,,,,,,,,,\n").getBytes(StandardCharsets.UTF_8), null)
                .schedule();
        String svg = svg(SheetPlan.of(schedule, Marks.NONE).get(0), schedule);
        assertTrue(svg.contains("open end"), svg);
        assertTrue(svg.contains("? ?"), "neither size nor colour is known");
    }

    @Test
    void manyBranches_areDividedUntilEachSheetCanBeRead() {
        StringBuilder rows = new StringBuilder(HEADS);
        for (int i = 0; i < 150; i++) {
            rows.append("L" + i + ",bar.1,lamp_" + i + ".plus,n,12v,1,red,1,10,32,32,,,,\n");
        }
        Schedule schedule = ScheduleReader.read(rows.toString().getBytes(StandardCharsets.UTF_8), null)
                .schedule();
        List<Sheet> sheets = SheetPlan.of(schedule, Marks.NONE);
        assertTrue(sheets.size() > 3, sheets.size() + " sheets");
        for (Sheet sheet : sheets) {
            assertEquals(1, sheet.scale(), 1e-9, sheet.title());
        }
    }
}
