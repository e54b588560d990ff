package sprag.bench.trip.trace;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.trip.Trips;
import sprag.bench.vehicle.BadInput;

class TraceReaderTest {
    @TempDir
    Path folder;

    private SpeedTrace read(String name, String text) throws IOException, BadInput {
        return TraceReader.read(Files.writeString(folder.resolve(name), text));
    }

    /** 40 CFR 86 appendix I (7.45 mi, 56.7 mph) and UN GTR 15 (23 266 m, 131.3 km/h). */
    @ParameterizedTest
    @CsvSource({"udds, 11990.2, 91.25, 1369", "wltc3b, 23266.28, 131.3, 1800"})
    void shippedTrace_ofARegulation_hasItsDistanceAndTopSpeed(String name, double metres, double kph, double endS)
            throws BadInput {
        SpeedTrace trace = Trips.shipped(name);
        assertEquals(metres, trace.distanceM(), 0.5);
        assertEquals(kph, trace.topKph(), 0.01);
        assertEquals(endS, trace.endS());
        assertTrue(trace.source().contains("public regulation"), trace.source());
    }

    /** The check sum that UN GTR 15 prints for class 3b. */
    @Test
    void wltc3b_sumOfSamples_isTheCheckSumOfTheRegulation() throws BadInput {
        SpeedTrace trace = Trips.shipped("wltc3b");
        double sum = 0;
        for (int i = 0; i < trace.rows(); i++) {
            sum += trace.speedMps(i) * 3.6;
        }
        assertEquals(83758.6, sum, 0.05);
    }

    @ParameterizedTest
    @CsvSource({"commute, 4437.8, false", "delivery-day, 28800, true"})
    void shippedTrace_invented_saysSoAndParks(String name, double endS, boolean isDay) throws BadInput {
        SpeedTrace trace = Trips.shipped(name);
        assertTrue(trace.source().startsWith("Invented"));
        assertTrue(trace.hasParking());
        assertEquals(endS, trace.endS(), 0.5);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "time_s,speed_kph\\n0,0\\n1,-3\\n      | speed_kph = \"-3\"",
                "time_s,speed_kph\\n0,0\\n1,x\\n       | speed_kph = \"x\"",
                "time_s,speed_kph\\n0,0\\n1,NaN\\n     | speed_kph = \"NaN\"",
                "time_s,speed_kph\\n0,0\\n1,251\\n     | speed_kph = \"251\"",
                "time_s,speed_kph\\n1,0\\n2,3\\n       | Begin the trace at 0",
                "time_s,speed_kph\\n0,0\\n0,3\\n       | not later than the row before",
                "time_s,speed_kph\\n0,0\\n             | holds no trace",
                "time_s,speed\\n0,0\\n1,3\\n           | speed is no column",
                "time_s,time_s,speed_kph\\n0,0,0\\n1,1,1\\n | stands twice",
                "time_s,speed_kph,stop\\n0,0,0\\n1,5,1\\n   | Only a car that stands can be parked",
                "time_s,speed_kph,grade_percent\\n0,0,0\\n1,5,31\\n | grade_percent = \"31\"",
                "<gpx><trk>                            | is not XML",
                "<gpx></gpx>                           | fewer than three points",
            })
    void trace_damaged_isRefusedWithPlaceAndRemedy(String text, String message) {
        BadInput bad = assertThrows(BadInput.class, () -> read("t.csv", text.replace("\\n", "\n")));
        assertTrue(bad.getMessage().contains(message), bad.getMessage());
        assertTrue(bad.getMessage().contains("t.csv:"), bad.getMessage());
    }

    private static String point(double longitude, int second, String more) {
        return String.format(
                java.util.Locale.ROOT,
                "<trkpt lat=\"0\" lon=\"%.7f\">%s<time>2024-05-01T07:%02d:%02dZ</time></trkpt>%n",
                longitude,
                more,
                second / 60,
                second % 60);
    }

    /** On the equator a degree is 111.195 km on a sphere of 6371.0088 km (IUGG mean radius). */
    @Test
    void track_evenSpeedUphill_hasThatSpeedAndSlope() throws IOException, BadInput {
        StringBuilder gpx = new StringBuilder("<gpx version=\"1.1\"><trk><trkseg>");
        for (int s = 0; s <= 120; s++) {
            gpx.append(point(s * 10 / 111195.08, s, "<ele>" + s * 0.5 + "</ele>"));
        }
        SpeedTrace trace = read("t.gpx", gpx + "</trkseg></trk></gpx>");
        int middle = trace.rowAt(60, 0);
        assertEquals(36, trace.speedMps(middle) * 3.6, 0.01);
        assertEquals(5, trace.gradePercent(middle), 0.01);
        assertEquals(0, trace.speedMps(trace.rows() - 1));
        assertEquals(1200, trace.distanceM(), 25);
        assertFalse(trace.hasParking());
    }

    @Test
    void track_withoutTimesOrBackwards_isRefused() {
        String bare = "<gpx><trkpt lat=\"0\" lon=\"0\"></trkpt></gpx>";
        assertTrue(assertThrows(BadInput.class, () -> read("t.gpx", bare))
                .getMessage()
                .contains("without a time"));
        String back = "<gpx>" + point(0, 5, "") + point(0, 4, "") + "</gpx>";
        assertTrue(assertThrows(BadInput.class, () -> read("t.gpx", back))
                .getMessage()
                .contains("earlier"));
        String pole = "<gpx><trkpt lat=\"91\" lon=\"0\"></trkpt></gpx>";
        assertTrue(assertThrows(BadInput.class, () -> read("t.gpx", pole))
                .getMessage()
                .contains("lat = \"91\""));
    }

    /** A wrong year in one point makes centuries, which do not fit nanoseconds in a long. */
    @Test
    void track_longerThanTwoDays_isRefused() throws IOException, BadInput {
        assertEquals(48 * 3600, lasting("2026-01-03T00:00:00Z").endS(), 1);
        for (String end : new String[] {"2026-01-03T00:00:00.001Z", "3026-01-01T00:00:00Z"}) {
            assertTrue(assertThrows(BadInput.class, () -> lasting(end))
                    .getMessage()
                    .contains("longer than 48 h"));
        }
    }

    private SpeedTrace lasting(String end) throws IOException, BadInput {
        String point = "<trkpt lat=\"0\" lon=\"0\"><time>%s</time></trkpt>";
        return read(
                "t.gpx",
                "<gpx>" + point.formatted("2026-01-01T00:00:00Z") + point.formatted("2026-01-01T00:00:01Z")
                        + point.formatted(end) + "</gpx>");
    }

    /** An outside entity must not be read. */
    @Test
    void track_withADoctype_readsNoOtherFile() {
        String evil = "<!DOCTYPE x [<!ENTITY e SYSTEM \"file:///etc/hostname\">]><gpx><trkpt lat=\"&e;\"/></gpx>";
        assertThrows(BadInput.class, () -> read("t.gpx", evil));
    }
}
