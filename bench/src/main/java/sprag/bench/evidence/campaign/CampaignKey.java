package sprag.bench.evidence.campaign;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import sprag.bench.cli.CheckSum;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.vehicle.Catalogue;

/**
 * Which campaign a file of results belongs to, and which share of it. Written as the first line of the file.
 *
 * @param program name and version of the program
 * @param vehicleFile check sum of the vehicle's file
 * @param runs how many runs the whole campaign has
 * @param part which share, from 1
 * @param of how many shares there are
 * @param only what the names of the runs hold, empty for all
 */
record CampaignKey(
        String program, String vehicle, String vehicleFile, long seed, int runs, int part, int of, String only) {

    private static final String BEGINS = "# campaign; ";
    private static final int FIELDS = 7;

    private Map<String, String> fields() {
        Map<String, String> fields = new LinkedHashMap<>();
        fields.put("program", program);
        fields.put("vehicle", vehicle);
        fields.put("vehicle file", vehicleFile);
        fields.put("seed", Long.toString(seed));
        fields.put("runs", Integer.toString(runs));
        fields.put("share", part + "/" + of);
        fields.put("only", only);
        return fields;
    }

    /** The first line of the file of results. */
    String heading() {
        List<String> parts = new ArrayList<>();
        fields().forEach((name, value) -> parts.add(name + "=" + value));
        return BEGINS + String.join("; ", parts);
    }

    /** The campaign that a first line names; empty when it names none. */
    static Optional<CampaignKey> parse(String line) {
        if (!line.startsWith(BEGINS)) {
            return Optional.empty();
        }
        String[] parts = line.substring(BEGINS.length()).split("; ", FIELDS);
        if (parts.length != FIELDS) {
            return Optional.empty();
        }
        List<String> v = new ArrayList<>();
        for (String part : parts) {
            v.add(part.substring(part.indexOf('=') + 1));
        }
        try {
            String[] share = v.get(5).split("/");
            return Optional.of(new CampaignKey(
                    v.get(0),
                    v.get(1),
                    v.get(2),
                    Long.parseLong(v.get(3)),
                    Integer.parseInt(v.get(4)),
                    Integer.parseInt(share[0]),
                    Integer.parseInt(share[1]),
                    v.get(6)));
        } catch (NumberFormatException | ArrayIndexOutOfBoundsException e) {
            return Optional.empty();
        }
    }

    /** The whole that this is a share of. */
    CampaignKey whole() {
        return new CampaignKey(program, vehicle, vehicleFile, seed, runs, 1, 1, only);
    }

    /** How many runs this share has. */
    int runsOfShare() {
        return (runs - part) / of + 1;
    }

    /** What differs from another campaign, in words; empty when both are shares of the same. */
    String differenceFrom(CampaignKey other) {
        Map<String, String> mine = whole().fields();
        Map<String, String> theirs = other.whole().fields();
        List<String> words = new ArrayList<>();
        mine.forEach((name, value) -> {
            if (!value.equals(theirs.get(name))) {
                words.add(name + " is \"" + value + "\", not \"" + theirs.get(name) + "\"");
            }
        });
        return String.join(", ", words);
    }

    /** The files that a campaign plays: those of a bus and of a drawn circuit count as a part of the vehicle's.
     *
     * @param bus the file of the data bus, null for none
     */
    static List<Path> files(Path folder, boolean wired, Path bus) {
        List<Path> files = new ArrayList<>(List.of(folder.resolve(Catalogue.VEHICLE_FILE)));
        if (wired) {
            Stream.of(Schedule.WIRES_FILE, Schedule.PARTS_FILE)
                    .map(folder::resolve)
                    .filter(Files::exists)
                    .forEach(files::add);
        }
        if (bus != null) {
            files.add(bus);
        }
        return files;
    }

    /** The check sum of a vehicle's file and of what counts as a part of it, in this order. */
    static String sum(List<Path> files) throws IOException {
        return CheckSum.of(files);
    }

    /** What of the whole campaign is there, in one sentence; empty when it is all of it. */
    String share(int played) {
        String share = of == 1 ? "" : "This is share " + part + " of " + of + ": ";
        if (of == 1 && played == runs) {
            return "";
        }
        return share + played + " of " + (of == 1 ? "" : "its ") + runsOfShare() + " runs are played"
                + (of == 1 ? "." : "; the whole campaign has " + runs + ".");
    }
}
