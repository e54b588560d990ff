package sprag.bench.review.report;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.ToIntFunction;
import sprag.bench.bus.BusReader;
import sprag.bench.car.Fitted;
import sprag.bench.cli.InputFile;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.pins.BoardInputs;
import sprag.bench.review.pins.Drawing;
import sprag.bench.review.sizing.BoardCalculations;
import sprag.bench.review.sizing.BusCalculations;
import sprag.bench.review.sizing.Calculation;
import sprag.bench.review.sizing.SizingCheck;
import sprag.bench.review.wiring.WiringCheck;
import sprag.bench.review.wiring.circuit.RuleLimits;
import sprag.bench.review.wiring.schedule.Schedule;
import sprag.bench.review.wiring.schedule.ScheduleFiles;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.BoardReference;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Problems;
import sprag.bench.vehicle.Section;
import sprag.bench.vehicle.SizingParameter;
import sprag.bench.vehicle.TomlFile;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Parameter;

/** Reviews one vehicle: sizing, wiring, loss of cover, acceptances. */
public final class Checker {
    private static final double LOW_VOLTAGE_V = 12;

    private Checker() {}

    /** Reviews a vehicle.
     *
     * @throws BadInput when a file cannot be used, with everything that is wrong with it
     */
    public static CheckReport check(Path folder) throws BadInput {
        Path bus = folder.resolve(Catalogue.BUS_FILE);
        return check(folder, InputFile.isThere(bus) ? bus : null);
    }

    /** Reviews a vehicle with a data bus.
     *
     * @param folder the vehicle's folder
     * @param busFile the bus, null for none
     * @return the report
     * @throws BadInput when a file cannot be used, with everything that is wrong with it
     */
    public static CheckReport check(Path folder, Path busFile) throws BadInput {
        Vehicle vehicle = VehicleReader.read(folder);
        List<Acceptance> accepted = Acceptance.read(folder, LocalDate.now());
        Schedule schedule = ScheduleFiles.read(folder).orElse(null);
        List<Calculation> calculations = new ArrayList<>(SizingCheck.calculations(vehicle));
        calculations.addAll(BoardCalculations.of(vehicle));
        if (busFile != null) {
            calculations.addAll(BusCalculations.of(vehicle, BusReader.read(busFile, vehicle)));
        }
        return report(vehicle, calculations, accepted, schedule, linesOf(folder));
    }

    private static CheckReport report(
            Vehicle vehicle,
            List<Calculation> calculations,
            List<Acceptance> accepted,
            Schedule schedule,
            ToIntFunction<String> lineOf)
            throws BadInput {
        List<Finding> findings = new ArrayList<>();
        calculations.forEach(c -> findings.addAll(c.findings(lineOf)));
        if (vehicle.is(Parameter.CHARGER_CONTROL, "alone") && !vehicle.is(Parameter.INLET_KIND, "none")) {
            String key = Parameter.CHARGER_CONTROL.key();
            findings.add(new Finding(
                    "charger-beyond-control",
                    Weight.CAUTION,
                    key,
                    new Finding.Place(Catalogue.VEHICLE_FILE, lineOf.applyAsInt(key)),
                    "Nothing that the supervisor commands ends a charge (charger.control = \"alone\").",
                    "a withdrawn permit, a cell at its limit or a hot pack only sounds the alarm; the charger and a battery"
                            + " monitor with a relay of its own must end the charge",
                    Map.of(),
                    "common practice"));
        }
        if (schedule == null) {
            findings.add(new Finding(
                    "wiring-not-given",
                    Weight.CAUTION,
                    Schedule.WIRES_FILE,
                    new Finding.Place(Schedule.WIRES_FILE, 0),
                    "The vehicle's folder has no " + Schedule.WIRES_FILE + ", so no rule about wiring was judged.",
                    "most mistakes of a conversion are mistakes of wiring",
                    Map.of(),
                    "common practice"));
        } else {
            findings.addAll(WiringCheck.findings(schedule, limits(vehicle)));
            findings.addAll(boardInputs(vehicle.folder().resolve(BoardReference.FILE), schedule));
        }
        List<JudgedFinding> judged = judge(findings, accepted);
        return new CheckReport(vehicle, judged, calculations, Cover.lost(vehicle.settings()), schedule);
    }

    /** What the board in the vehicle's folder, if there is one, contradicts. */
    private static List<Finding> boardInputs(Path board, Schedule schedule) throws BadInput {
        List<Finding> findings = new ArrayList<>();
        if (InputFile.isThere(board)) {
            BoardInputs inputs = BoardInputs.read(board, new Drawing(schedule));
            inputs.contradictions().forEach(input -> findings.add(boardInput("board-circuit", Weight.STOP, input)));
            inputs.unsaid().forEach(input -> findings.add(boardInput("board-circuit-unsaid", Weight.CAUTION, input)));
        }
        return findings;
    }

    private static Finding boardInput(String id, Weight weight, BoardInputs.Input input) {
        return new Finding(
                id,
                weight,
                input.signal().key(),
                new Finding.Place(BoardReference.FILE, input.line()),
                "The board's input of " + input.signal().key() + " " + input.words() + ".",
                "12 V destroys a pin that is made for a contact to ground, and a switch to the wrong side is never seen;"
                        + " docs/boards.md has the circuits",
                Map.of(),
                "the two files; no outside source is needed");
    }

    private static List<JudgedFinding> judge(List<Finding> findings, List<Acceptance> accepted) {
        List<JudgedFinding> judged = new ArrayList<>();
        for (Finding finding : findings) {
            judged.add(new JudgedFinding(
                    finding,
                    accepted.stream().filter(a -> a.covers(finding)).findFirst().orElse(null)));
        }
        for (Acceptance acceptance : accepted) {
            if (findings.stream().noneMatch(acceptance::covers)) {
                judged.add(new JudgedFinding(withoutFinding(acceptance), null));
            }
        }
        judged.sort(Comparator.comparing(j -> j.finding().weight()));
        return judged;
    }

    private static Finding withoutFinding(Acceptance acceptance) {
        return new Finding(
                "acceptance-without-finding",
                Weight.NOTE,
                acceptance.finding() + " at " + acceptance.where(),
                new Finding.Place(Acceptance.FILE, acceptance.line()),
                "The acceptance of " + acceptance.finding() + " at " + acceptance.where() + " (" + acceptance.date()
                        + ") fits no finding any more: remove it.",
                "a stale acceptance hides the next finding at that place",
                Map.of(),
                "common practice");
    }

    /** What the rules need to know about the vehicle. */
    public static RuleLimits limits(Vehicle vehicle) {
        double supply = vehicle.get(SizingParameter.WIRING_INVERTER_SUPPLY);
        // A car that relays switch has no supervisor that could read or drive anything.
        boolean relays = CarParameter.hasRelays(vehicle);
        return new RuleLimits(
                vehicle.get(Parameter.PACK_MAX_V),
                vehicle.get(Parameter.CONTACTOR_RELEASE_MS),
                vehicle.get(SizingParameter.CABLE_INSULATION_C),
                vehicle.get(SizingParameter.CABLE_THIN_INSULATION_C),
                vehicle.get(SizingParameter.CABLE_AMBIENT_C),
                vehicle.get(SizingParameter.CABLE_BUNDLED),
                vehicle.get(SizingParameter.CABLE_DROP_SHARE),
                relays ? Set.of() : vehicle.fitted(),
                relays ? Set.of() : Fitted.driven(vehicle),
                (int) vehicle.get(Parameter.CHARGER_COUNT),
                vehicle.is(Parameter.CHARGER_SIDE, "bus-side"),
                vehicle.is(Parameter.DCDC_SIDE, "bus-side"),
                Double.isNaN(supply)
                        ? RuleLimits.InverterSupply.UNSAID
                        : supply == 0 ? RuleLimits.InverterSupply.ANY_TIME : RuleLimits.InverterSupply.AFTER_PRECHARGE,
                LOW_VOLTAGE_V);
    }

    /** Where a key stands in the vehicle's file; 0 when the file leaves it to its default. */
    private static ToIntFunction<String> linesOf(Path folder) throws BadInput {
        Problems ignored = new Problems();
        Section root = TomlFile.read(folder.resolve("vehicle.toml"), ignored);
        return key -> root.has(key) ? root.line(key) : 0;
    }
}
