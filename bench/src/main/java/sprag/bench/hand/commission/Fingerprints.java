package sprag.bench.hand.commission;

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
import sprag.bench.review.wiring.Schedule;
import sprag.bench.vehicle.Catalogue;

/** The SHA-256 of every file that a plan is made from, so that a record can never be taken for that of another wiring. */
final class Fingerprints {
    /** Under this name the board's file is kept, wherever it lies. */
    static final String BOARD = "board";

    private Fingerprints() {}

    /** Of the vehicle's files and, when there is one, of the board's. */
    static Map<String, String> of(Path vehicleFolder, Path boardFile) {
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
        return prints;
    }

    /** The names whose files differ, came, or went. */
    static List<String> changed(Map<String, String> before, Map<String, String> now) {
        List<String> names = new ArrayList<>();
        before.forEach((name, print) -> {
            if (!print.equals(now.get(name))) {
                names.add(name);
            }
        });
        now.keySet().stream().filter(name -> !before.containsKey(name)).forEach(names::add);
        return names;
    }

    private static String sha256(Path file) {
        try {
            byte[] digest = MessageDigest.getInstance("SHA-256").digest(Files.readAllBytes(file));
            return HexFormat.of().formatHex(digest);
        } catch (IOException e) {
            throw new Trouble("cannot read", file, e);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256, but this one says: " + e.getMessage(), e);
        }
    }
}
