package sprag.bench.lesson;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.Set;
import sprag.bench.car.FaultSpec;
import sprag.bench.cli.Numbers;
import sprag.bench.lesson.Sandbox.Played;
import sprag.bench.loop.measure.Track;
import sprag.bench.loop.trace.Channel;
import sprag.bench.loop.trace.Channel.Source;
import sprag.bench.loop.trace.Channels;
import sprag.bench.loop.trace.Frame;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Vehicle;

/**
 * A hidden fault to be found: drawn from a seed among the faults that the driver of this vehicle notices in a short drive. The
 * same seed is the same case.
 */
final class Exam {
    private static final int MOST_DRAWS = 200;
    /** A lamp that changes more often within a second flashes. */
    private static final int FLASHES = 3;

    private static final String STORY = """
            [about]
            title = "A drive with a fault"
            why = "Which one?"
            duration_s = 24
            [[do]]
            name = "the fault"
            %s
            fault = "%s"
            @start
            [[do]]
            name = "pedal half down"
            at_s = 4
            set = { brake = 0, pedal = 0.5 }
            [[do]]
            name = "pedal released"
            at_s = 9
            set = { pedal = 0 }
            [[do]]
            name = "brake to a stop"
            at_s = 11
            set = { brake = 0.5 }
            [[do]]
            name = "key off"
            at_s = 15
            set = { key = 0 }
            [[expect]]
            text = "the drive is over"
            quantity = "distance_m"
            at_least = -1000
            always = true
            """;
    private static final List<String> MOMENTS = List.of("at_s = 0.1", "at_s = 6");

    private final Vehicle vehicle;
    private final FaultSpec hidden;
    private final String moment;
    private final Track track;

    private Exam(Vehicle vehicle, FaultSpec hidden, String moment, Track track) {
        this.vehicle = vehicle;
        this.hidden = hidden;
        this.moment = moment;
        this.track = track;
    }

    /** The case of a seed. */
    static Exam of(Vehicle vehicle, long seed) throws BadInput {
        Random chance = new Random(seed);
        List<FaultSpec> all = FaultSpec.all(vehicle);
        List<String> sound = drivers(play(vehicle, "at_s = 23.9", all.get(0)));
        for (int draw = 0; draw < MOST_DRAWS; draw++) {
            FaultSpec fault = all.get(chance.nextInt(all.size()));
            String moment = MOMENTS.get(chance.nextInt(MOMENTS.size()));
            Exam drawn = hiding(vehicle, fault, moment);
            if (!drawn.symptoms().equals(sound)) {
                return drawn;
            }
        }
        throw new IllegalStateException("no fault of " + vehicle.name() + " was noticed in " + MOST_DRAWS + " draws");
    }

    /** The case of a fault that begins at a moment. */
    static Exam hiding(Vehicle vehicle, FaultSpec fault, String moment) throws BadInput {
        return new Exam(vehicle, fault, moment, play(vehicle, moment, fault));
    }

    private static Track play(Vehicle vehicle, String moment, FaultSpec fault) throws BadInput {
        Played played = Sandbox.play(
                vehicle,
                Sandbox.story("exam.toml", String.format(java.util.Locale.ROOT, STORY, moment, fault)),
                Set.of());
        return played.track();
    }

    /** What the driver sees and hears, one line an act. */
    List<String> symptoms() {
        return drivers(track);
    }

    private static List<String> drivers(Track track) {
        List<String> lines = new ArrayList<>();
        lines.add(line(track, "key on", 0.95));
        lines.add(line(track, "brake, forward, start", 3.95));
        lines.add(line(track, "pedal half down", 8.95));
        lines.add(line(track, "pedal released", 10.95));
        lines.add(line(track, "brake to a stop", 14.95));
        lines.add(line(track, "key off", 23.9));
        return lines;
    }

    private static String line(Track track, String act, double atS) {
        Frame frame = track.frames().get(row(track, atS));
        double speedKph = Math.abs(frame.value[column(track, Source.QUANTITY, "speed_kph")]);
        return String.format(
                java.util.Locale.ROOT,
                "%-21s %4.1f s  green %-7s red %-7s buzzer %-7s %2s km/h",
                act,
                atS,
                lamp(track, "ready_lamp", atS),
                lamp(track, "fault_lamp", atS),
                lamp(track, "buzzer", atS),
                Numbers.text(Math.round(speedKph)));
    }

    private static int row(Track track, double atS) {
        List<Frame> frames = track.frames();
        int row = 0;
        while (row + 1 < frames.size() && frames.get(row + 1).timeMs <= atS * 1000) {
            row++;
        }
        return row;
    }

    /** A lamp within the last second before a moment. */
    private static String lamp(Track track, String output, double atS) {
        int column = column(track, Source.OUTPUT, output);
        int changes = 0;
        int last = row(track, atS);
        for (int row = Math.max(1, row(track, atS - 1)); row <= last; row++) {
            changes += track.frames().get(row).value[column] != track.frames().get(row - 1).value[column] ? 1 : 0;
        }
        return changes >= FLASHES ? "flashes" : track.frames().get(last).value[column] > 0 ? "on" : "off";
    }

    private static int column(Track track, Source source, String key) {
        return track.channels().indexOf(source, key);
    }

    /** The run, for the meter. */
    Track track() {
        return track;
    }

    /** The hidden fault, for the teacher. */
    String answer() {
        return hidden.name() + (moment.equals(MOMENTS.get(0)) ? ", from before the key" : ", from 6 s on");
    }

    /**
     * Whether a column can be measured on a car: what the supervisor reads and asks for, and true voltages and currents. Where the
     * contacts are, and what burnt in them, no meter shows.
     */
    static boolean isMeasurable(Channel channel) {
        boolean electric = channel.key().endsWith("_v") || channel.key().endsWith("_a");
        return channel.source() != Source.QUANTITY || electric && !channel.key().contains("_peak_");
    }

    /** The columns that a question names and no meter shows. */
    static List<String> hiddenColumns(String question, Channels channels) {
        List<String> words = Arrays.asList(question.split("[\\s'\"]+"));
        return channels.all().stream()
                .filter(channel -> !isMeasurable(channel))
                .map(Channel::column)
                .filter(words::contains)
                .toList();
    }

    /**
     * Whether a fault explains everything: it is the hidden one, or nothing that can be measured tells the two apart.
     *
     * @throws IllegalArgumentException with a sentence when there is no such fault
     */
    boolean explains(String name) throws BadInput {
        FaultSpec guess = FaultSpec.parse(name, vehicle);
        if (isHidden(name)) {
            return true;
        }
        for (String each : MOMENTS) {
            if (isSame(play(vehicle, each, guess))) {
                return true;
            }
        }
        return false;
    }

    /** Whether a fault is the hidden one itself. */
    boolean isHidden(String name) {
        return FaultSpec.parse(name, vehicle).name().equals(hidden.name());
    }

    /** What the driver would see with another fault, for comparison. */
    List<String> symptomsOf(String name) throws BadInput {
        return drivers(play(vehicle, moment, FaultSpec.parse(name, vehicle)));
    }

    private boolean isSame(Track other) {
        List<Channel> all = track.channels().all();
        for (int row = 0; row < track.frames().size(); row++) {
            Frame one = track.frames().get(row);
            Frame two = other.frames().get(row);
            for (int i = 0; i < all.size(); i++) {
                if (isMeasurable(all.get(i)) && Double.compare(one.value[i], two.value[i]) != 0) {
                    return false;
                }
            }
        }
        return true;
    }
}
