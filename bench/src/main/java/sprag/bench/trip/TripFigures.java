package sprag.bench.trip;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import sprag.bench.cli.Numbers;
import sprag.bench.trip.drive.Charging;
import sprag.bench.trip.drive.EnergyAccount;
import sprag.bench.trip.drive.Keeping;
import sprag.bench.trip.drive.LimitsMet;
import sprag.bench.trip.drive.Range;
import sprag.bench.trip.drive.TripResult;
import sprag.bench.trip.drive.TripSeries;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Signal;

/** The figures of a trip as rows for people, the same on the terminal and on the page. */
final class TripFigures {
    /** One figure. */
    record Figure(String name, String value, String more) {}

    /** Where energy went. */
    record Part(String name, String wattHours, String perKm, String share) {}

    private final TripReport report;
    private final TripResult trip;

    TripFigures(TripReport report) {
        this.report = report;
        this.trip = report.trip();
    }

    /** What most people want to know. */
    List<Figure> main() {
        List<Figure> all = new ArrayList<>();
        all.add(new Figure(
                "distance",
                Say.number(trip.km(), 2, "km"),
                "of " + Say.number(trip.drive().trace().distanceM() / 1000, 2) + " km in "
                        + Say.minutes(trip.drive().timeS())));
        all.add(new Figure(
                "consumption at the cells",
                Say.number(trip.cellsWhPerKm(), 1, "Wh/km"),
                "charge fell from " + Say.percent(trip.charge().startSoc(), 1) + " to "
                        + Say.percent(trip.charge().endSoc(), 1)));
        all.add(new Figure(
                "consumption from the wall",
                Say.number(report.wallWhPerKm(), 1, "Wh/km"),
                Double.isNaN(report.wallWhPerKm())
                        ? "no charge was simulated to its end"
                        : "the charge takes " + Say.number(report.charging().wallPerCells(), 3)
                                + " Wh for each Wh of the cells"));
        all.add(new Figure(
                "given back by regeneration",
                Say.percent(trip.energy().givenBackShare(), 1),
                "of what was drawn from the pack, at level " + report.weather().regenLevel() + askedBy()));
        range(all);
        charge(all);
        Keeping keeping = trip.keeping();
        all.add(new Figure(
                "time outside the trace",
                Say.number(keeping.outsideS, 1, "s"),
                "by the tolerance of 40 CFR 86.115 (2 mph within 1 s), " + Say.number(keeping.outsideAtFullPedalS, 1)
                        + " s of it with the pedal on the floor"));
        return all;
    }

    /** What asks for regeneration beside the pedal. */
    private String askedBy() {
        String by = Parameter.REGEN_BY.choices().get((int) report.vehicle().get(Parameter.REGEN_BY));
        return by.equals("pedal") ? "" : " and by " + by.replace('-', ' ');
    }

    private void range(List<Figure> all) {
        Range range = report.range();
        if (range == null) {
            all.add(new Figure("range", "unknown", "the trip tells no consumption"));
            return;
        }
        all.add(new Figure(
                "range, full to the first limit",
                Say.number(range.km(), 1, "km"),
                Say.number(range.usableWh() / 1000, 2) + " kWh, from " + Say.percent(range.fullSoc(), 1) + " to "
                        + Say.percent(range.emptySoc(), 1) + ": " + range.because()));
        all.add(new Figure(
                "reserve below that",
                Say.number(range.reserveWh() / 1000, 2, "kWh"),
                "it is not there to be driven: the supervisor takes the torque away"));
    }

    private void charge(List<Figure> all) {
        Charging charging = report.charging();
        boolean well = charging.trouble().isEmpty();
        all.add(new Figure(
                "charge afterwards",
                well ? Say.minutes(charging.seconds()) : "unknown",
                well
                        ? "to " + Say.percent(charging.endSoc(), 1) + ", " + Say.number(charging.mainsJ() / 3.6e6, 2)
                                + " kWh from the wall"
                        : charging.trouble()));
    }

    /** Where the energy of the cells went, what is nothing left out, and the sum. */
    List<Part> energy() {
        List<Part> all = new ArrayList<>();
        TripResult.Energy energy = trip.energy();
        double sumWh = 0;
        for (EnergyAccount each : EnergyAccount.values()) {
            double wh = energy.wh(each);
            sumWh += wh;
            if (Math.abs(wh) >= 0.05) {
                all.add(part(each.words, wh));
            }
        }
        all.add(part("sum", sumWh));
        all.add(part("out of the cells", energy.cellsJ() / 3600));
        return all;
    }

    private Part part(String name, double wh) {
        double ofCells = wh / (trip.energy().cellsJ() / 3600);
        return new Part(
                name,
                Say.number(wh, 1),
                trip.km() > 0.01 ? Say.number(wh / trip.km(), 2) : "-",
                trip.energy().cellsJ() > 0 ? Say.number(100 * ofCells, 1) : "-");
    }

    /** The highest temperatures with the values at which torque begins to fall. */
    List<Figure> temperatures() {
        List<Figure> all = new ArrayList<>();
        warm(all, "motor", TripSeries.Column.MOTOR_C, Parameter.MOTOR_WARM_C, Signal.MOTOR_TEMP_V);
        warm(all, "inverter", TripSeries.Column.INVERTER_C, Parameter.INVERTER_WARM_C, Signal.INVERTER_TEMP_V);
        warm(all, "coolant", TripSeries.Column.COOLANT_C, Parameter.COOLANT_WARM_C, Signal.COOLANT_TEMP_V);
        warm(all, "pack", TripSeries.Column.PACK_C, Parameter.PACK_WARM_C, Signal.PACK_HOT_V);
        return all;
    }

    private void warm(List<Figure> all, String part, TripSeries.Column column, Parameter warm, Signal sensor) {
        boolean told = report.vehicle().settings().has(sensor);
        if (part.equals("coolant") && !told) {
            return;
        }
        String limit = told
                ? "torque falls from " + Numbers.text(report.vehicle().get(warm)) + " °C"
                : "no sensor: the supervisor does not know it and limits nothing";
        all.add(new Figure(part, Say.number(trip.series().most(column), 0, "°C"), limit));
    }

    /** What acted on the way. */
    List<Figure> limits() {
        List<Figure> all = new ArrayList<>();
        for (Map.Entry<Interlock, LimitsMet.Met> each : trip.limits().all().entrySet()) {
            Interlock row = each.getKey();
            String kind = row.response == Response.WARN ? "told only" : row.response.words;
            all.add(new Figure(
                    row.id(),
                    Say.number(each.getValue().forS, 1, "s"),
                    "from " + Say.minutes(each.getValue().fromS) + ": " + row.cause + " (" + kind + ")"));
        }
        return all;
    }
}
