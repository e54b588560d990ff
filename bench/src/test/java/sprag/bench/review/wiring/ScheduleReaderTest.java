package sprag.bench.review.wiring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.review.wiring.schedule.Flaw;
import sprag.bench.review.wiring.schedule.ScheduleReader;
import sprag.bench.review.wiring.schedule.VoltageClass;
import sprag.bench.review.wiring.schedule.Wire;

@Execution(ExecutionMode.CONCURRENT)
class ScheduleReaderTest {
    private static final String HEADING =
            "wire,from,to,net,class,size_mm2,colour,length_m,fuse_a,from_pin_v,to_pin_v,current_a,twisted_with,carries,remark\n";
    private static final String ROW = "T1,pack.plus,fuse_main.in,plus,traction,35,orange,0.5,200,150,150,60,,,\n";

    private static ScheduleReader.Result read(String text) {
        return ScheduleReader.read(text.getBytes(StandardCharsets.UTF_8), null);
    }

    private static String flaws(String text) {
        return String.join("\n", read(text).wireFlaws().stream().map(Flaw::text).toList());
    }

    @Test
    void cellWithAColon_isQuotedWhole() {
        Flaw flaw = read(HEADING + ROW.replace(",35,", ",35: mm2,")).wireFlaws().get(0);
        assertEquals("\"35: mm2\" is not a number of 0 or more", flaw.what());
        assertEquals("Write digits only, without a unit, as in 2.5.", flaw.remedy());
    }

    @Test
    void unknownKindOfPart_saysWhatIsWrong_andAllKindsInTheRemedy() {
        byte[] parts = "part,kind\nfuse_main,fuze\n".getBytes(StandardCharsets.UTF_8);
        byte[] wires = (HEADING + ROW).getBytes(StandardCharsets.UTF_8);
        Flaw flaw = ScheduleReader.read(wires, parts).partFlaws().get(0);
        assertEquals("\"fuze\" is no known kind of part", flaw.what());
        assertTrue(flaw.remedy().startsWith("Did you mean fuse? All kinds: contactor, "), flaw.remedy());
    }

    @Test
    void goodRow_isRead() {
        Wire wire = read(HEADING + ROW).schedule().wires().get(0);
        assertEquals("T1", wire.id());
        assertEquals(35, wire.sizeMm2());
        assertEquals(2, wire.line());
        assertEquals(VoltageClass.TRACTION, wire.voltageClass());
        assertTrue(wire.carries().isEmpty());
    }

    @Test
    void whatSpreadsheetsWrite_isReadAlike() {
        String plain = HEADING + ROW;
        List<Wire> expected = read(plain).schedule().wires();
        assertEquals(expected, read('\uFEFF' + plain).schedule().wires(), "byte-order mark");
        assertEquals(expected, read(plain.replace("\n", "\r\n")).schedule().wires(), "line ends of one system");
        assertEquals(expected, read(plain.replace("\n", "\r")).schedule().wires(), "line ends of another");
        assertEquals(expected, read(plain.replace(",", "\t")).schedule().wires(), "tabs");
        assertEquals(
                expected,
                read(plain.replace(",", ";").replace("0.5", "0,5")).schedule().wires(),
                "semicolons and decimal commas");
        assertEquals(
                expected,
                ScheduleReader.read(plain.getBytes(StandardCharsets.UTF_16), null)
                        .schedule()
                        .wires(),
                "two bytes a letter");
        assertEquals(expected, read(plain + ",,,,,,,,,,,,,,\n").schedule().wires(), "an empty row at the end");
        assertEquals(expected, read(plain.replace("\n", ",,\n")).schedule().wires(), "empty columns at the end");
        assertEquals(expected, read(HEADING.toUpperCase() + ROW).schedule().wires(), "capitals in the heading");
    }

    @Test
    void quotedCells_keepSeparatorsQuotesAndLineBreaks() {
        String row = "\"T,1\",pack.plus,fuse_main.in,\"pl\"\"us\",traction,35,orange,0.5,,,,,,,\"two\nlines\"\n";
        ScheduleReader.Result result = read(HEADING + row + ROW);
        assertTrue(result.isGood(), () -> result.wireFlaws().toString());
        assertEquals("T,1", result.schedule().wires().get(0).id());
        assertEquals("pl\"us", result.schedule().wires().get(0).net());
        assertEquals(4, result.schedule().wires().get(1).line(), "the line break within a cell counts");
    }

    @Test
    void oldCodePage_isRead() {
        String row = ROW.replace("orange", "blaugr\u00fcn");
        byte[] bytes = (HEADING + row).getBytes(Charset.forName("windows-1252"));
        assertEquals(
                "blaugr\u00fcn",
                ScheduleReader.read(bytes, null).schedule().wires().get(0).colour());
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', quoteCharacter = '~', textBlock = """
        REPLACE         | BY                 | SAYS                                          | BECAUSE
        ,35,            | ,35 mm2,           | line 2, column size_mm2: "35 mm2" is not a number | a unit in the cell
        ,35,            | ,-35,              | column size_mm2: "-35" is not a number        | less than nothing
        ,35,            | ,1e9,              | column size_mm2: "1e9" is not a number        | no exponents
        ,35,            | ,NaN,              | column size_mm2: "NaN" is not a number        | a number's shape, not a word
        ,traction,      | ,hv,               | column class: "hv" is none of the words of this column. Use traction, 12v  | another word
        ,plus,traction  | ,,traction         | column net: is empty                          | merged cells leave it so
        pack.plus,      | pack plus,         | column from: "pack plus" is no terminal       | a blank for the dot
        pack.plus,fuse_main.in | ,           | are both empty                                | a wire without ends
        T1,             | ,                  | column wire: is empty                         | no number
        ,0.5,           | ,0,5,              | lies beyond the 15 columns                    | a decimal comma splits the cell
        """)
    void badCell_isNamedByLineAndColumn(String replace, String by, String says, String because) {
        String target = because.contains("decimal")
                ? ROW.replace("0.5", "0,5").replace(",,,\n", ",,x,y\n")
                : ROW.replace(replace, by == null ? "" : by);
        String flaws = flaws(HEADING + target);
        assertTrue(flaws.contains(says), because + ": " + flaws);
    }

    @Test
    void heading_missingUnknownOrDoubled_isNamed() {
        String missing = flaws(HEADING.replace("size_mm2,", "") + ROW.replace(",35,", ","));
        assertTrue(missing.contains("size_mm2: is missing"), missing);
        String unknown = flaws(HEADING.replace("colour", "color") + ROW);
        assertTrue(unknown.contains("\"color\" is no known column. Did you mean colour?"), unknown);
        String doubled = flaws(HEADING.replace("remark", "colour") + ROW);
        assertTrue(doubled.contains("stands twice"), doubled);
        String wrongSeparator = flaws((HEADING + ROW).replace(',', '|'));
        assertTrue(wrongSeparator.contains("separator is probably neither"), wrongSeparator);
        assertTrue(flaws("").contains("is empty"), "an empty file");
        assertTrue(flaws(HEADING).contains("no wire below"), "a heading alone");
    }

    @Test
    void rowWithAnotherSeparator_isNamed() {
        String flaws = flaws(HEADING + ROW + ROW.replace(',', ';'));
        assertTrue(flaws.contains("line 3") && flaws.contains("another separator"), flaws);
    }

    @Test
    void quoteNeverClosed_isNamedWhereItOpens() {
        String flaws = flaws(HEADING + ROW + "\"T2,pack.plus\n" + ROW);
        assertTrue(flaws.contains("line 3") && flaws.contains("never closed"), flaws);
    }

    @Test
    void textBehindAClosedQuote_isNamed() {
        String flaws = flaws(HEADING + ROW + "\"T2\"x,pack.plus\n");
        assertTrue(flaws.contains("line 3, column number 1") && flaws.contains("text behind a closed one"), flaws);
    }

    @Test
    void tableBeyondALimit_isRefusedWithLineAndLimit_atTheLimitItIsRead() {
        String letters = "x".repeat(2_000);
        assertTrue(read(HEADING + ROW.replace("plus,traction", letters + ",traction"))
                .isGood());
        String cell = flaws(HEADING + ROW + ROW.replace("plus,traction", letters + "x,traction"));
        assertTrue(cell.contains("line 3, column number 4") && cell.contains("at most 2000"), cell);
        String cells = flaws(HEADING + ROW + ROW.strip() + ",".repeat(86) + "\n");
        assertTrue(cells.contains("line 3, column number 101") && cells.contains("at most 100"), cells);
        assertTrue(read(HEADING + ROW.strip() + ",".repeat(85) + "\n").isGood());
        String rows = flaws(HEADING + "a,b.c,,n,12v,,,,,,,,,,\n".repeat(200_001));
        assertTrue(rows.contains("line 200002") && rows.contains("At most 200000"), rows);
    }

    @Test
    void zeroBytes_areNoText() {
        String flaws = flaws(HEADING + "T1,pack.plus,\0\n");
        assertTrue(flaws.contains("line 2") && flaws.contains("zero byte"), flaws);
    }

    @Test
    void partList_withUnknownKindOrDoubledPart_isNamed() {
        String parts = "part,kind,rated_v\npack,packs,100\nfuse_main,fuse,x\nfuse_main,fuse,5\n";
        ScheduleReader.Result result = ScheduleReader.read(
                (HEADING + ROW).getBytes(StandardCharsets.UTF_8), parts.getBytes(StandardCharsets.UTF_8));
        String flaws = result.partFlaws().toString();
        assertTrue(flaws.contains("Did you mean pack?"), flaws);
        assertTrue(flaws.contains("rated_v"), flaws);
        assertTrue(flaws.contains("listed twice, first on line 3"), flaws);
        assertFalse(result.isGood());
    }

    /** Whatever bytes come, the reader ends with a schedule or with flaws, never with an exception. */
    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 5, 8, 13, 21, 34, 55, 89, 144, 233})
    void brokenBytes_neverThrow(long seed) {
        Random random = new Random(seed);
        byte[] good = (HEADING + ROW.repeat(20)).getBytes(StandardCharsets.UTF_8);
        for (int round = 0; round < 200; round++) {
            ByteArrayOutputStream broken = new ByteArrayOutputStream();
            for (byte b : good) {
                switch (random.nextInt(60)) {
                    case 0 -> broken.write(random.nextInt(256));
                    case 1 -> {}
                    case 2 -> broken.write(",;\t\"\n\r#.".charAt(random.nextInt(8)));
                    default -> broken.write(b);
                }
            }
            ScheduleReader.Result result = ScheduleReader.read(broken.toByteArray(), broken.toByteArray());
            assertTrue(!result.isGood() || !result.schedule().wires().isEmpty());
        }
    }

    @Test
    void twentyThousandRows_areReadAndReviewed() {
        StringBuilder text = new StringBuilder(HEADING);
        for (int i = 0; i < 20_000; i++) {
            text.append("W")
                    .append(i)
                    .append(",relay_")
                    .append(i / 2)
                    .append(i % 2 == 0 ? ".in" : ".out")
                    .append(",bar_")
                    .append(i / 10)
                    .append('.')
                    .append(i)
                    .append(",net_")
                    .append(i / 10)
                    .append(",12v,1,red,1,,32,32,,,,\n");
        }
        ScheduleReader.Result result = read(text.toString());
        assertTrue(result.isGood(), () -> result.wireFlaws().toString());
        assertEquals(20_000, result.schedule().wires().size());
        assertFalse(WiringCheck.findings(result.schedule(), TestLimits.van()).isEmpty(), "no pack, for one");
    }
}
