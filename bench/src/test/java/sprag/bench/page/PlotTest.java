package sprag.bench.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.samskivert.mustache.MustacheException;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.IntToDoubleFunction;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.w3c.dom.Document;
import org.w3c.dom.Element;

/** Plots, scales and templates. */
class PlotTest {
    private static final Times SECONDS = new Times(10_001, row -> row * 10.0);
    private static final TimeMarks MARKS = new TimeMarks(
            List.of(
                    new TimeMarks.Band(0, 30_000, 0, "OFF"),
                    new TimeMarks.Band(30_000, 100_000, 1, "a <state> & more")),
            List.of(
                    new TimeMarks.Event(30_000, TimeMarks.Kind.STATE, "to the next"),
                    new TimeMarks.Event(50_000, TimeMarks.Kind.INTERLOCK, "first"),
                    new TimeMarks.Event(50_010, TimeMarks.Kind.INTERLOCK, "second"),
                    new TimeMarks.Event(70_000, TimeMarks.Kind.FAULT, "broken")));

    private static TimeAxis axis(double fromMs, double toMs, boolean isWide) {
        return new TimeAxis(fromMs, toMs, "s", 1000, isWide);
    }

    private static Plot plot(IntToDoubleFunction... values) {
        List<Plot.Line> lines = IntStream.range(0, values.length)
                .mapToObj(i -> new Plot.Line("line <" + i + ">", "meaning", i % 2 == 1, values[i]))
                .toList();
        return new Plot("Title", "V", values.length > 1 ? "A" : "", lines, List.of());
    }

    private static Document drawn(Plot plot, TimeAxis axis) throws Exception {
        return PageCheck.parse(plot.svg(axis, SECONDS, MARKS));
    }

    @Test
    void sixLines_drawn_differByDashAndByColour() throws Exception {
        IntToDoubleFunction line = row -> row;
        Plot plot = plot(line, line, line, line, line, line);
        for (boolean isWide : new boolean[] {true, false}) {
            List<Element> lines = PageCheck.all(drawn(plot, axis(0, 100_000, isWide)), "path", "line");
            assertEquals(6, distinct(lines, "stroke-dasharray").size());
            assertEquals(6, distinct(lines, "class").size());
        }
    }

    private static Set<String> distinct(List<Element> elements, String attribute) {
        return elements.stream().map(e -> e.getAttribute(attribute)).collect(Collectors.toSet());
    }

    @Test
    void anyPlot_drawn_hasBandsAndAMarkForEachKindOfEvent() throws Exception {
        Document svg = drawn(plot(row -> row), axis(0, 100_000, true));
        assertEquals(2, PageCheck.all(svg, "rect", "band").size());
        assertEquals(1, PageCheck.all(svg, "g", "event state").size());
        assertEquals(1, PageCheck.all(svg, "g", "event fault").size());
        List<Element> interlocks = PageCheck.all(svg, "g", "event interlock");
        assertEquals(1, interlocks.size(), "two events within a pixel share a mark");
        assertEquals("first\nsecond", interlocks.get(0).getTextContent());
    }

    @Test
    void aPartOfTheTime_drawn_showsOnlyWhatHappensInIt() throws Exception {
        Document svg = drawn(plot(row -> row), axis(60_000, 80_000, true));
        assertEquals(1, PageCheck.all(svg, "rect", "band").size());
        assertEquals(0, PageCheck.all(svg, "g", "event interlock").size());
        assertEquals(1, PageCheck.all(svg, "g", "event fault").size());
    }

    @Test
    void onePeakOfOneTick_inALongRun_isStillDrawn() throws Exception {
        Document svg = drawn(plot(row -> row == 5_003 ? 100 : 0), axis(0, 100_000, false));
        Element line = PageCheck.all(svg, "path", "line").get(0);
        assertEquals("100.0", line.getAttribute("data-high"));
        assertTrue(line.getAttribute("d").contains("," + line.getAttribute("data-top")), line.getAttribute("d"));
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource({"12, 12", "12.5, 12.5", "12.04, 12", "-0.5, -0.5", "-0.04, 0", "-3.26, -3.3", "1234567.8, 1234567.8"})
    void aLength_written_hasAtMostOneDecimal(double px, String text) {
        assertEquals(text, Svg.px(px));
    }

    @Test
    void noise_drawn_hasAtMostTwoPointsForEachPixel() throws Exception {
        TimeAxis axis = axis(0, 100_000, true);
        Document svg = drawn(plot(row -> row * 7919 % 400), axis);
        int points = PageCheck.all(svg, "path", "line").get(0).getAttribute("d").split("[M ]").length - 1;
        assertTrue(points <= 2 * (axis.rightPx() - axis.leftPx() + 1), points + " points");
    }

    @Test
    void aSteadyLine_drawn_needsTwoPoints() throws Exception {
        Document svg = drawn(plot(row -> 12.5), axis(0, 100_000, true));
        assertEquals(
                2, PageCheck.all(svg, "path", "line").get(0).getAttribute("d").split("[M ]").length - 1);
    }

    @Test
    void unknownValues_drawn_leaveAGap() throws Exception {
        Document svg = drawn(plot(row -> row > 4_000 && row < 6_000 ? Double.NaN : 1), axis(0, 100_000, true));
        assertEquals(
                2, PageCheck.all(svg, "path", "line").get(0).getAttribute("d").split("M").length - 1);
    }

    @ParameterizedTest(name = "{arguments}")
    @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
        LOW  | HIGH  | LEAST | TICKS                           | BECAUSE
        0    | 100   | 1     | 0 20 40 60 80 100               | steps of 2 times a power of ten
        -3   | 97    | 1     | -20 0 20 40 60 80 100           | the ends move to round steps
        12.5 | 12.5  | 1     | 12.0 12.2 12.4 12.6 12.8 13.0   | a steady value has room around it
        0    | 0.031 | 0     | 0.00 0.01 0.02 0.03 0.04        | small numbers keep their decimals
        """)
    void scale_around_hasRoundTicks(double low, double high, double least, String ticks, String because) {
        Scale scale = Scale.around(low, high, least, 5);
        assertEquals(ticks, scale.ticks().stream().map(scale::text).collect(Collectors.joining(" ")), because);
    }

    @Test
    void template_aNameThatNobodyGives_isAnError() {
        assertThrows(
                MustacheException.class,
                () -> Page.of(Page.class, "figure.html", "over", "title", Map.of("title", "x")));
    }

    @Test
    void page_textFromOutside_isEscapedEverywhere() throws Exception {
        String page = Page.of(Page.class, "cautions.html", "<i>over</i>", "a & \"b\" 'c' <script>", Map.of());
        assertFalse(page.contains("<i>"), "no markup from outside");
        assertTrue(page.contains("a &amp; &quot;b&quot; &#39;c&#39; &lt;script&gt;"));
        PageCheck.standsAlone(page);
    }
}
