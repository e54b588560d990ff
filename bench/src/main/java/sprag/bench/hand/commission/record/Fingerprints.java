package sprag.bench.hand.commission.record;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import sprag.bench.cli.Trouble;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.vehicle.Catalogue;

/** The SHA-256 of every file that the steps are made from: a record belongs to exactly these files. */
public final class Fingerprints {
    /** The name of the board's file here, wherever it lies. */
    static final String BOARD = "board";

    private Fingerprints() {}

    /** Of the vehicle's files and, where there are any, of the board's and the bus's. */
    public static Map<String, String> of(Path vehicleFolder, Path boardFile, Path busFile) {
        Map<String, String> prints = new LinkedHashMap<>();
        for (String name : List.of(Catalogue.VEHICLE_FILE, Schedule.WIRES_FILE, Schedule.PARTS_FILE)) {
            Path file = vehicleFolder.resolve(name);
            if (Files.isRegularFile(file)) {
                prints.put(name, sha256(file));
            }
        }
        if (boardFile != null) {
            prints.put(BOARD, sha256(boardFile));
        }
        if (busFile != null) {
            prints.put("bus", sha256(busFile));
        }
        return prints;
    }

    /** The names whose files differ, came, or went. */
    public static List<String> changed(Map<String, String> before, Map<String, String> now) {
        List<String> names = new ArrayList<>();
        before.forEach((name, print) -> {
            if (!print.equals(now.get(name))) {
                names.add(name);
            }
        });
        now.keySet().stream().filter(name -> !before.containsKey(name)).forEach(names::add);
        return names;
    }

    /** The SHA-256 of a file. */
    public static String sha256(Path file) {
        try {
            byte[] digest = MessageDigest.getInstance("SHA-256").digest(Files.readAllBytes(file));
            return HexFormat.of().formatHex(digest);
        } catch (IOException e) {
            throw new Trouble("cannot read", file, e);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("this Java has no SHA-256: " + e.getMessage(), e);
        }
    }
}
