package sprag.bench.hand.bus;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import sprag.bench.cli.ExitCode;
import sprag.hal.bus.CanFrame;

/**
 * Finds the bits that follow what a person does three times. First nothing is done, and every bit that moves by itself is noted; then
 * it is done three times, and the bits that came and went three times are named.
 */
final class BusLearner {
    private static final double REST_S = 8;
    private static final double ACT_S = 20;
    private static final int TIMES = 3;
    private static final int BITS = 64;
    private static final int MOST_SHOWN = 12;
    /** A bit that changes at rest this much as often as during the act, or more, moves by itself. */
    private static final double RESTLESS = 0.2;

    /** What one bit did. */
    private static final class Bit {
        int restChanges;
        int actChanges;
        int rises;
    }

    /** What one identifier did. */
    private static final class Track {
        final CanFrame last = new CanFrame();
        final CanFrame rest = new CanFrame();
        final Bit[] bits = new Bit[BITS];
        boolean seen;

        Track() {
            java.util.Arrays.setAll(bits, i -> new Bit());
        }
    }

    private record Candidate(String where, int score, String words) {}

    private final String what;
    private final PrintWriter out;
    private final Map<Long, Track> tracks = new TreeMap<>();
    private long startNs;
    private boolean acting;

    BusLearner(String what, PrintWriter out) {
        this.what = what;
        this.out = out;
    }

    /** Begins, and says for how many seconds. */
    double begin(long nowNs) {
        startNs = nowNs;
        out.println("CAUTION: the car must not be able to move: wheels clear of the ground, traction battery"
                + " disconnected.");
        out.println("Leave everything as it is for " + (int) REST_S + " s.");
        out.flush();
        return REST_S + ACT_S;
    }

    /** Says when to act. */
    void guide(long nowNs) {
        if (!acting && (nowNs - startNs) / 1e9 >= REST_S) {
            acting = true;
            out.println("Now, within " + (int) ACT_S + " s: " + what + ", " + TIMES
                    + " times, with a second between. End as you began.");
            out.flush();
        }
    }

    void accept(CanFrame frame, long nowNs) {
        guide(nowNs);
        Track track = tracks.computeIfAbsent(frame.key(), key -> new Track());
        for (int i = 0; i < BITS && track.seen; i++) {
            boolean was = bit(track.last, i);
            boolean is = bit(frame, i);
            Bit bit = track.bits[i];
            if (was != is) {
                bit.restChanges += acting ? 0 : 1;
                bit.actChanges += acting ? 1 : 0;
                bit.rises += acting && is != bit(track.rest, i) ? 1 : 0;
            }
        }
        track.seen = true;
        track.last.copyFrom(frame);
        if (!acting) {
            track.rest.copyFrom(frame);
        }
    }

    private static boolean bit(CanFrame frame, int i) {
        return (frame.data()[i >> 3] >> (i & 7) & 1) != 0;
    }

    /** Prints what was found. */
    int report() {
        List<Candidate> found = new ArrayList<>();
        tracks.forEach((key, track) -> candidates(track, found));
        found.sort(Comparator.comparingInt(Candidate::score));
        if (found.isEmpty()) {
            out.println("No bit followed: " + what + " is not on this bus, or nobody listened to it while it changed.");
        }
        found.stream().limit(MOST_SHOWN).forEach(c -> out.println(c.where() + "  " + c.words()));
        out.flush();
        return found.isEmpty() ? ExitCode.FINDING : ExitCode.WELL;
    }

    private static void candidates(Track track, List<Candidate> into) {
        for (int from = 0; from < BITS; from++) {
            int first = from;
            int best = Integer.MAX_VALUE;
            while (from < BITS && follows(track.bits[from])) {
                best = Math.min(best, score(track.bits[from]));
                from++;
            }
            if (from > first) {
                String id = CanFrame.idText(track.last.id(), track.last.extended());
                String place = from - first == 1 ? "bit " + first : "bits " + first + " to " + (from - 1);
                into.add(new Candidate(id + " " + place, best, words(track, first, from, best)));
            }
        }
    }

    private static boolean follows(Bit bit) {
        return bit.actChanges > 0 && bit.restChanges / REST_S < RESTLESS * bit.actChanges / ACT_S;
    }

    /** 0 is as it should be: still at rest, and away from rest exactly three times. */
    private static int score(Bit bit) {
        return Math.abs(bit.rises - TIMES) + 2 * bit.restChanges;
    }

    private static String words(Track track, int first, int end, int best) {
        int rests = 0;
        int times = 0;
        for (int i = first; i < end; i++) {
            rests += track.bits[i].restChanges;
            if (score(track.bits[i]) == best) {
                times = track.bits[i].rises;
            }
        }
        String how = best == 0 ? "sure" : best <= 2 ? "likely" : "unsure";
        return how + ": away from rest " + times + " times while it was done " + TIMES + " times, " + rests
                + " changes before it was done";
    }
}
