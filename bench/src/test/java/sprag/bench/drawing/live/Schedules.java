package sprag.bench.drawing.live;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import sprag.bench.review.wiring.schedule.Part;
import sprag.bench.review.wiring.schedule.PartKind;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.ScheduleReader;

/** Shipped schedules, and what comes of changing words in them. */
public final class Schedules {
    private static final Path VEHICLES = Path.of("..", "config", "vehicles");
    private static final double MAINS_V = 230;

    private Schedules() {}

    /** A shipped schedule in which each first of two words is replaced by the second. */
    public static Schedule of(String vehicle, String... replacements) throws IOException {
        String wires = Files.readString(VEHICLES.resolve(vehicle).resolve(Schedule.WIRES_FILE));
        String parts = Files.readString(VEHICLES.resolve(vehicle).resolve(Schedule.PARTS_FILE));
        for (int i = 0; i < replacements.length; i += 2) {
            if (!wires.contains(replacements[i]) && !parts.contains(replacements[i])) {
                throw new IllegalArgumentException(vehicle + " has no " + replacements[i]);
            }
            wires = wires.replace(replacements[i], replacements[i + 1]);
            parts = parts.replace(replacements[i], replacements[i + 1]);
        }
        return read(wires, parts);
    }

    static Schedule read(String wires, String parts) {
        ScheduleReader.Result result =
                ScheduleReader.read(wires.getBytes(StandardCharsets.UTF_8), parts.getBytes(StandardCharsets.UTF_8));
        if (!result.isGood()) {
            throw new IllegalArgumentException(result.wireFlaws() + " " + result.partFlaws());
        }
        return result.schedule();
    }

    static SwitchCircuit circuit(Schedule schedule) {
        // The shipped packs are rated for what they reach.
        double packMaxV = schedule.parts().values().stream()
                .filter(p -> p.kind() == PartKind.PACK)
                .mapToDouble(Part::ratedV)
                .sum();
        return CircuitReader.read(schedule, packMaxV, MAINS_V);
    }

    static LiveReport report(Schedule schedule) {
        return LiveReport.of(circuit(schedule), schedule, false, () -> {});
    }
}
