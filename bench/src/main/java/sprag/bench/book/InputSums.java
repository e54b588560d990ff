package sprag.bench.book;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import sprag.bench.cli.InputFile;
import sprag.bench.hand.commission.record.Fingerprints;
import sprag.bench.review.report.Acceptance;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.vehicle.Catalogue;

/**
 * The SHA-256 of each file that a book was made from, by its name.
 *
 * @param sums in the order of the list
 */
record InputSums(Map<String, String> sums) {
    private static final int SHORT = 8;
    private static final List<String> OF_A_VEHICLE = List.of(
            Catalogue.VEHICLE_FILE,
            Schedule.WIRES_FILE,
            Schedule.PARTS_FILE,
            Acceptance.FILE,
            "draft.toml",
            Catalogue.BUS_FILE);

    /** Of a vehicle's files, and of others where they are given.
     *
     * @param others results of other commands that are bound as well
     */
    static InputSums of(Path vehicleFolder, List<Path> others) {
        Map<String, String> sums = new LinkedHashMap<>();
        for (String name : OF_A_VEHICLE) {
            Path file = vehicleFolder.resolve(name);
            if (InputFile.isThere(file)) {
                sums.put(name, Fingerprints.sha256(file));
            }
        }
        others.forEach(file -> sums.put(file.getFileName().toString(), Fingerprints.sha256(file)));
        return new InputSums(sums);
    }

    /** Eight letters for all of them together. */
    String together() {
        try {
            byte[] bytes = sums.toString().getBytes(StandardCharsets.UTF_8);
            byte[] digest = MessageDigest.getInstance("SHA-256").digest(bytes);
            return HexFormat.of().formatHex(digest).substring(0, SHORT);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }
}
