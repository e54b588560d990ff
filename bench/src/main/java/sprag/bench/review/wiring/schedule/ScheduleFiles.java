package sprag.bench.review.wiring.schedule;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import sprag.bench.cli.InputFile;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Problem;
import sprag.bench.vehicle.Problems;

/** Finds and reads the schedule in a vehicle's folder. */
public final class ScheduleFiles {
    private static final int MOST_PROBLEMS = 25;

    private ScheduleFiles() {}

    /**
     * Reads {@code wiring.csv} and {@code parts.csv}.
     *
     * @return the schedule; empty when the folder has no {@code wiring.csv}
     * @throws BadInput with everything that is wrong with both files
     */
    public static Optional<Schedule> read(Path folder) throws BadInput {
        Path wires = folder.resolve(Schedule.WIRES_FILE);
        Path parts = folder.resolve(Schedule.PARTS_FILE);
        if (!InputFile.isThere(wires)) {
            return Optional.empty();
        }
        Problems problems = new Problems();
        byte[] wireBytes = bytes(wires, problems);
        byte[] partBytes = InputFile.isThere(parts) ? bytes(parts, problems) : null;
        problems.throwIfAny();
        ScheduleReader.Result result = ScheduleReader.read(wireBytes, partBytes);
        add(problems, parts, result.partFlaws());
        add(problems, wires, result.wireFlaws());
        problems.throwIfAny();
        return Optional.of(result.schedule());
    }

    /**
     * Reads the schedule of a vehicle for somebody who cannot do without.
     *
     * @throws BadInput when it is missing, or with everything that is wrong with both files
     */
    public static Schedule require(Path folder) throws BadInput {
        Optional<Schedule> schedule = read(folder);
        if (schedule.isPresent()) {
            return schedule.get();
        }
        Problems problems = new Problems();
        problems.add(
                folder.resolve(Schedule.WIRES_FILE),
                "is not there",
                "Draft one with bench/sprag draft, or copy config/vehicles/parcel-van/wiring.csv and change it.");
        throw new BadInput(problems.list());
    }

    private static byte[] bytes(Path file, Problems problems) {
        try {
            return InputFile.bytes(file, Csv.MOST_BYTES);
        } catch (InputFile.Refused e) {
            problems.add(file, e.getMessage(), e.remedy());
            return new byte[0];
        }
    }

    private static void add(Problems problems, Path file, List<Flaw> flaws) {
        for (Flaw flaw : flaws.subList(0, Math.min(MOST_PROBLEMS, flaws.size()))) {
            problems.add(new Problem(file, flaw.line(), 1, flaw.column(), flaw.what(), "", "", flaw.remedy()));
        }
        if (flaws.size() > MOST_PROBLEMS) {
            int more = flaws.size() - MOST_PROBLEMS;
            int line = flaws.get(flaws.size() - 1).line();
            String what = "and " + more + " more like these";
            problems.add(
                    new Problem(file, line, 1, "", what, "", "", "Correct the first ones; others often go with them."));
        }
    }
}
