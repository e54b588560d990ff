package sprag.bench.trip;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import sprag.bench.cli.Json;
import sprag.bench.trip.drive.EnergyAccount;
import sprag.bench.trip.drive.Range;
import sprag.bench.trip.drive.TripResult;
import sprag.bench.trip.drive.TripSeries;

/** A trip for a program. The figures at the top are also what {@code --find} may aim at. */
final class TripJson {
    /** The names of the single figures. */
    static final List<String> NAMES = List.of(
            "distance_km",
            "cells_wh_per_km",
            "wall_wh_per_km",
            "given_back_share",
            "range_km",
            "usable_kwh",
            "reserve_kwh",
            "end_soc",
            "charge_h",
            "outside_s",
            "motor_c",
            "inverter_c",
            "pack_c",
            "pack_a");

    /** Those that are known only when the charge afterwards was simulated. */
    static final Set<String> OF_THE_CHARGE = Set.of("wall_wh_per_km", "charge_h");

    private TripJson() {}

    /** The single figures by name. */
    static Map<String, Double> figures(TripReport report) {
        TripResult trip = report.trip();
        Range range = report.range();
        Map<String, Double> all = new LinkedHashMap<>();
        all.put("distance_km", trip.km());
        all.put("cells_wh_per_km", trip.cellsWhPerKm());
        all.put("wall_wh_per_km", report.wallWhPerKm());
        all.put("given_back_share", trip.energy().givenBackShare());
        all.put("range_km", range == null ? Double.NaN : range.km());
        all.put("usable_kwh", range == null ? Double.NaN : range.usableWh() / 1000);
        all.put("reserve_kwh", range == null ? Double.NaN : range.reserveWh() / 1000);
        all.put("end_soc", trip.charge().endSoc());
        all.put(
                "charge_h",
                report.charging().trouble().isEmpty() ? report.charging().seconds() / 3600 : Double.NaN);
        all.put("outside_s", trip.keeping().outsideS);
        all.put("motor_c", trip.series().most(TripSeries.Column.MOTOR_C));
        all.put("inverter_c", trip.series().most(TripSeries.Column.INVERTER_C));
        all.put("pack_c", trip.series().most(TripSeries.Column.PACK_C));
        all.put("pack_a", trip.series().most(TripSeries.Column.PACK_A));
        return all;
    }

    static String of(TripReport report) {
        ObjectNode root = Json.object();
        TripResult trip = report.trip();
        root.put("vehicle", report.vehicle().name());
        root.put("trace", trip.drive().trace().name());
        root.put("finished", trip.complete());
        root.put("kept", trip.keeping().kept());
        if (!trip.complete()) {
            root.put("ended", trip.drive().ended());
        }
        figures(report).forEach((name, value) -> Json.number(root, name, value));
        ObjectNode energy = root.putObject("energy_wh");
        for (EnergyAccount each : EnergyAccount.values()) {
            Json.number(
                    energy,
                    each.name().toLowerCase(java.util.Locale.ROOT),
                    trip.energy().wh(each));
        }
        Json.number(energy, "out_of_cells", trip.energy().cellsJ() / 3600);
        Json.number(energy, "unexplained_share", trip.energy().unexplainedShare());
        ArrayNode limits = root.putArray("limits");
        trip.limits().all().forEach((row, met) -> {
            ObjectNode node = limits.addObject();
            node.put("interlock", row.id());
            node.put("from_s", met.fromS);
            node.put("for_s", met.forS);
        });
        ArrayNode warnings = root.putArray("warnings");
        report.warnings().forEach(warnings::add);
        return root.toPrettyString();
    }
}
