package sprag.bench.trip.trace;

import java.io.ByteArrayInputStream;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import sprag.bench.vehicle.BadInput;

/**
 * Reads a recorded track (GPX 1.1): positions with times, and heights where they are given. The speed is the distance between two
 * positions divided by the time between them. It is smoothed over some seconds, because a receiver errs by some metres. The
 * slope is that of the heights over at least a hundred metres.
 */
final class GpxReader {
    private static final double EARTH_M = 6_371_008.8;
    private static final double EVEN_OVER_S = 4;
    private static final double STANDS_KPH = 2;
    private static final double PARKED_S = 180;
    private static final double SLOPE_OVER_M = 100;
    private static final double MOST_GRADE = 30;
    private static final double MOST_KPH = 250;
    private static final Duration LONGEST = Duration.ofHours(48);
    private static final double KPH_PER_MPS = 3.6;

    private record Point(int line, Instant time, double latitude, double longitude, double heightM) {}

    private final Path file;
    private final List<Point> points = new ArrayList<>();
    private double latitude;
    private double longitude;
    private double heightM;
    private Instant time;

    private GpxReader(Path file) {
        this.file = file;
    }

    static SpeedTrace read(Path file, String name, byte[] bytes) throws BadInput {
        GpxReader reader = new GpxReader(file);
        XMLInputFactory factory = XMLInputFactory.newFactory();
        factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
        factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
        try {
            XMLStreamReader xml = factory.createXMLStreamReader(new ByteArrayInputStream(bytes));
            reader.points(xml);
            xml.close();
        } catch (XMLStreamException broken) {
            int line = broken.getLocation() == null ? 1 : broken.getLocation().getLineNumber();
            throw reader.bad(line, "is not XML, or is damaged", "Export the track as GPX 1.1 again.");
        }
        return reader.trace(name);
    }

    private BadInput bad(int line, String found, String remedy) {
        return BadInput.of(file, Math.max(1, line), found, remedy);
    }

    private void points(XMLStreamReader xml) throws XMLStreamException, BadInput {
        boolean inPoint = false;
        while (xml.hasNext()) {
            int event = xml.next();
            String name = event == XMLStreamConstants.START_ELEMENT || event == XMLStreamConstants.END_ELEMENT
                    ? xml.getLocalName()
                    : "";
            if (event == XMLStreamConstants.START_ELEMENT && name.equals("trkpt")) {
                inPoint = true;
                begin(xml);
            } else if (event == XMLStreamConstants.START_ELEMENT && inPoint && name.equals("ele")) {
                heightM = number(xml, xml.getElementText(), "ele", -500, 9000);
            } else if (event == XMLStreamConstants.START_ELEMENT && inPoint && name.equals("time")) {
                time = time(xml, xml.getElementText());
            } else if (event == XMLStreamConstants.END_ELEMENT && name.equals("trkpt")) {
                inPoint = false;
                end(xml);
            }
        }
    }

    private void begin(XMLStreamReader xml) throws BadInput {
        latitude = number(xml, xml.getAttributeValue(null, "lat"), "lat", -90, 90);
        longitude = number(xml, xml.getAttributeValue(null, "lon"), "lon", -180, 180);
        heightM = Double.NaN;
        time = null;
    }

    private void end(XMLStreamReader xml) throws BadInput {
        int line = xml.getLocation().getLineNumber();
        if (time == null) {
            throw bad(line, "has a point without a time", "A trip needs times: export the track as it was recorded.");
        }
        Point last = points.isEmpty() ? null : points.get(points.size() - 1);
        if (last != null && time.isBefore(last.time())) {
            throw bad(line, "has a point that is earlier than the one before", "Put the points in order of time.");
        }
        if (last == null || time.isAfter(last.time())) {
            points.add(new Point(line, time, latitude, longitude, heightM));
        }
    }

    private double number(XMLStreamReader xml, String text, String what, double min, double max) throws BadInput {
        try {
            double value = Double.parseDouble(String.valueOf(text).strip());
            if (value >= min && value <= max) {
                return value;
            }
        } catch (NumberFormatException e) {
            // told below, with what stands there
        }
        throw bad(
                xml.getLocation().getLineNumber(),
                what + " = \"" + text + "\" is not a number in " + (int) min + ".." + (int) max,
                "Correct it, or take the point out.");
    }

    private Instant time(XMLStreamReader xml, String text) throws BadInput {
        try {
            return OffsetDateTime.parse(text.strip()).toInstant();
        } catch (DateTimeParseException e) {
            throw bad(
                    xml.getLocation().getLineNumber(),
                    "time = \"" + text + "\" is no time",
                    "Write times as 2024-05-01T07:30:00Z (ISO 8601).");
        }
    }

    private SpeedTrace trace(String name) throws BadInput {
        if (points.size() < 3) {
            throw bad(1, "holds fewer than three points (trkpt) with times", "Export the track as GPX 1.1.");
        }
        int n = points.size();
        Point last = points.get(n - 1);
        // The time is compared before it becomes nanoseconds, which hold 292 years.
        if (Duration.between(points.get(0).time(), last.time()).compareTo(LONGEST) > 0) {
            throw bad(last.line(), "lasts longer than 48 h", "Cut it into days.");
        }
        double[] wayM = new double[n];
        double[] timeS = new double[n];
        double[] heightsM = new double[n];
        for (int i = 0; i < n; i++) {
            Point at = points.get(i);
            Point before = points.get(Math.max(0, i - 1));
            timeS[i] = Duration.between(points.get(0).time(), at.time()).toNanos() / 1e9;
            wayM[i] = i == 0 ? 0 : wayM[i - 1] + distanceM(before, at);
            heightsM[i] = at.heightM();
        }
        return rows(name, timeS, wayM, heightsM);
    }

    /** One row for each second: receivers seldom give positions more often. */
    private SpeedTrace rows(String name, double[] timeS, double[] wayM, double[] heightsM) throws BadInput {
        int rows = (int) Math.floor(timeS[timeS.length - 1]) + 2;
        double[] at = new double[rows];
        double[] kph = new double[rows];
        double[] grade = new double[rows];
        for (int i = 0; i < rows; i++) {
            at[i] = i;
            double fromM = between(timeS, wayM, i - EVEN_OVER_S / 2);
            double toM = between(timeS, wayM, i + EVEN_OVER_S / 2);
            kph[i] = (toM - fromM) / EVEN_OVER_S * KPH_PER_MPS;
            kph[i] = kph[i] < STANDS_KPH || i == rows - 1 ? 0 : kph[i];
            if (kph[i] > MOST_KPH) {
                throw bad(1, "jumps: " + Math.round(kph[i]) + " km/h at " + i + " s", "Take the wrong points out.");
            }
            double hereM = between(timeS, wayM, i);
            grade[i] = grade(wayM, heightsM, hereM);
        }
        kph[0] = 0;
        return new SpeedTrace(name, "recorded track, " + timeS.length + " points", at, kph, grade, parked(kph));
    }

    /** A car that stands for minutes counts as parked. */
    private static boolean[] parked(double[] kph) {
        boolean[] parked = new boolean[kph.length];
        int from = 0;
        for (int i = 0; i <= kph.length; i++) {
            if (i == kph.length || kph[i] > 0) {
                for (int j = from + 10; i - from > PARKED_S && j < i - 1; j++) {
                    parked[j] = true;
                }
                from = i + 1;
            }
        }
        return parked;
    }

    private static double grade(double[] wayM, double[] heightsM, double hereM) {
        double behind = between(wayM, heightsM, hereM - SLOPE_OVER_M / 2);
        double ahead = between(wayM, heightsM, hereM + SLOPE_OVER_M / 2);
        double percent = (ahead - behind) / SLOPE_OVER_M * 100;
        return percent == percent ? Math.max(-MOST_GRADE, Math.min(MOST_GRADE, percent)) : 0;
    }

    /** The value at a place by a straight line between its neighbours; beyond the ends the nearest. */
    private static double between(double[] places, double[] values, double at) {
        int found = java.util.Arrays.binarySearch(places, at);
        int next = found >= 0 ? found : -found - 1;
        if (next == 0) {
            return values[0];
        }
        if (next >= places.length) {
            return values[places.length - 1];
        }
        double spread = places[next] - places[next - 1];
        double share = spread > 0 ? (at - places[next - 1]) / spread : 1;
        return values[next - 1] + share * (values[next] - values[next - 1]);
    }

    /** The distance between two points on a sphere (haversine). */
    private static double distanceM(Point a, Point b) {
        double north = Math.toRadians(b.latitude() - a.latitude()) / 2;
        double east = Math.toRadians(b.longitude() - a.longitude()) / 2;
        double squeeze = Math.cos(Math.toRadians(a.latitude())) * Math.cos(Math.toRadians(b.latitude()));
        double half = Math.sin(north) * Math.sin(north) + squeeze * Math.sin(east) * Math.sin(east);
        return 2 * EARTH_M * Math.asin(Math.min(1, Math.sqrt(half)));
    }
}
