package sprag.bench.evidence.campaign;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import sprag.bench.cli.InputFile;
import sprag.bench.cli.Trouble;
import sprag.bench.cli.Version;
import sprag.bench.evidence.campaign.play.FaultOutcome;
import sprag.bench.evidence.campaign.play.FaultOutcome.Verdict;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.wired.WiredPlan;

/**
 * What a finished campaign has found, for those who only report it.
 *
 * @param file the file of results
 * @param day when that file was last written
 * @param wired whether it broke the things of the drawn circuit
 * @param stale why it does not speak of the vehicle as it is now; empty when it does
 * @param partly what of the whole campaign is missing; empty when it is whole
 * @param counts verdict, number of runs, meaning
 * @param findings fault, moment, what noticed it, what happened: of single faults that hurt or were noticed late
 * @param undetected fault, at how many moments, what would notice it
 */
public record CampaignResult(
        Path file,
        LocalDate day,
        String program,
        boolean wired,
        String stale,
        String partly,
        List<List<String>> counts,
        List<List<String>> findings,
        List<List<String>> undetected) {
    private static final int MOST_BYTES = 64 << 20;

    /** Reads the results of a campaign.
     *
     * @param folder that the campaign has written
     * @param vehicle as it is now
     */
    public static CampaignResult read(Path folder, Vehicle vehicle) throws BadInput {
        Path file = folder.resolve(ResultFile.NAME);
        List<String> lines = lines(file);
        CampaignKey key =
                lines.isEmpty() ? null : CampaignKey.parse(lines.get(0)).orElse(null);
        if (key == null) {
            throw BadInput.of(file, 1, "does not name a campaign", "Give a folder that sprag campaign has written.");
        }
        List<FaultOutcome> outcomes = outcomes(file, lines);
        boolean whole =
                key.of() == 1 && outcomes.size() == key.runs() && key.only().isEmpty();
        String partly = !key.only().isEmpty()
                ? "Only runs whose name holds \"" + key.only() + "\" were played."
                : key.share(outcomes.size());
        WiredPlan plan = drawn(key, vehicle) ? WiredPlan.of(vehicle) : null;
        return new CampaignResult(
                file,
                day(file),
                key.program(),
                plan != null,
                stale(key, vehicle),
                whole ? "" : partly,
                counts(outcomes),
                findings(outcomes, vehicle),
                undetected(outcomes, plan));
    }

    /** Whether the whole campaign was played, on the vehicle as it is now, without a finding. */
    public boolean isGood() {
        return stale.isEmpty() && partly.isEmpty() && findings.isEmpty();
    }

    private static List<String> lines(Path file) throws BadInput {
        try {
            return new String(InputFile.bytes(file, MOST_BYTES), StandardCharsets.UTF_8)
                    .lines()
                    .toList();
        } catch (InputFile.Refused e) {
            throw BadInput.of(file, 0, e.getMessage(), e.remedy());
        }
    }

    private static List<FaultOutcome> outcomes(Path file, List<String> lines) throws BadInput {
        try {
            return ResultFile.outcomes(lines);
        } catch (IllegalArgumentException e) {
            throw BadInput.of(file, 0, "holds a row that is none: " + e.getMessage(), "Play the campaign again.");
        }
    }

    private static LocalDate day(Path file) {
        try {
            return LocalDate.ofInstant(Files.getLastModifiedTime(file).toInstant(), ZoneId.systemDefault());
        } catch (IOException e) {
            throw new Trouble("cannot read", file, e);
        }
    }

    private static String stale(CampaignKey key, Vehicle vehicle) {
        List<String> words = new ArrayList<>();
        String now = Version.line();
        if (!key.program().equals(now)) {
            words.add("it was played by " + key.program() + ", this is " + now);
        }
        if (!isOf(key, vehicle, false) && !isOf(key, vehicle, true)) {
            words.add("the check sum of the vehicle's files was " + key.vehicleFile() + "; it is "
                    + sum(vehicle, false, null) + " now for " + Catalogue.VEHICLE_FILE + " and "
                    + sum(vehicle, true, null) + " with the wiring schedule");
        }
        if (!key.vehicle().equals(vehicle.name())) {
            words.add("it is about " + key.vehicle());
        }
        return String.join("; ", words);
    }

    /** Whether the check sum is that of the drawn circuit as well. */
    private static boolean drawn(CampaignKey key, Vehicle vehicle) {
        return isOf(key, vehicle, true) && !isOf(key, vehicle, false);
    }

    private static boolean isOf(CampaignKey key, Vehicle vehicle, boolean wired) {
        Path bus = vehicle.folder().resolve(Catalogue.BUS_FILE);
        return key.vehicleFile().equals(sum(vehicle, wired, null))
                || Files.isRegularFile(bus) && key.vehicleFile().equals(sum(vehicle, wired, bus));
    }

    private static String sum(Vehicle vehicle, boolean wired, Path bus) {
        try {
            return CampaignKey.sum(CampaignKey.files(vehicle.folder(), wired, bus));
        } catch (IOException e) {
            throw new Trouble("cannot read", vehicle.folder(), e);
        }
    }

    private static List<List<String>> counts(List<FaultOutcome> outcomes) {
        List<List<String>> rows = new ArrayList<>();
        Campaign.count(outcomes)
                .forEach((verdict, runs) -> rows.add(List.of(
                        verdict.name().toLowerCase(Locale.ROOT), String.valueOf(runs), CampaignPage.meaning(verdict))));
        return rows;
    }

    private static List<List<String>> findings(List<FaultOutcome> outcomes, Vehicle vehicle) {
        return outcomes.stream()
                .filter(FaultOutcome::isFinding)
                .map(o -> List.of(
                        o.fault(),
                        o.moment().replace('_', ' '),
                        o.interlock().isEmpty() ? "nothing" : o.interlock(),
                        o.verdict() == Verdict.HARM
                                ? CampaignPage.amount(vehicle, o)
                                : String.format(
                                        Locale.ROOT,
                                        "late: %.0f ms, the budget is %.0f ms",
                                        o.exposedMs(),
                                        o.budgetMs())))
                .toList();
    }

    private static List<List<String>> undetected(List<FaultOutcome> outcomes, WiredPlan plan) {
        Map<String, Integer> moments = new TreeMap<>();
        outcomes.stream()
                .filter(o -> o.verdict() == Verdict.UNDETECTED && !FaultOutcome.isPair(o.fault()))
                .forEach(o -> moments.merge(o.fault(), 1, Integer::sum));
        List<List<String>> rows = new ArrayList<>();
        moments.forEach((fault, count) -> rows.add(
                List.of(fault, String.valueOf(count), plan == null ? Remedy.of(fault) : WireRemedy.of(plan, fault))));
        return rows;
    }
}
