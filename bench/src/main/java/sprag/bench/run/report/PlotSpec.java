package sprag.bench.run.report;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.cli.Numbers;
import sprag.bench.loop.trace.Channel;
import sprag.bench.loop.trace.Channel.Source;
import sprag.bench.loop.trace.History;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/**
 * What one plot shows.
 *
 * @param title its heading
 * @param unit the unit of the axis at the left
 * @param rightUnit the unit of the axis at the right, empty for none
 * @param series what is drawn
 * @param marks values of the vehicle's file that what is drawn is to be held against
 */
record PlotSpec(String title, String unit, String rightUnit, List<Series> series, List<Mark> marks) {
    /** A pedal that stays within this was not touched. */
    private static final double STILL_V = 0.05;

    private static final double PERCENT = 100;

    /**
     * One line of a plot.
     *
     * @param column the column it is drawn from
     * @param label what it is, for the legend
     * @param colour which colour of the page, from 1
     * @param right whether it belongs to the axis at the right
     * @param dashed whether it is dashed, because it lies on another line when all is well
     * @param factor what the values are multiplied by, to turn a direction round
     */
    record Series(int column, String label, int colour, boolean right, boolean dashed, double factor) {}

    /**
     * A value across a plot.
     *
     * @param value where
     * @param label what it is
     * @param right whether it belongs to the axis at the right
     */
    record Mark(double value, String label, boolean right) {}

    /** Every plot of a page. A column that the vehicle lacks, and a plot without columns, is left out. */
    static List<PlotSpec> all(History history, Vehicle vehicle) {
        List<PlotSpec> all = new ArrayList<>();
        boolean charged = everNonzero(history, Source.QUANTITY, "charger_energy_j");
        if (charged) {
            charge(all, history, vehicle);
        }
        new Builder(history, "Traction voltages", "V", "")
                .truth("pack_voltage_v", "pack", 1)
                .truth("bus_voltage_v", "bus", 2)
                .told("bus_voltage_v", "bus as the supervisor sees it", 3)
                .addTo(all);
        new Builder(history, "Currents", "A", "")
                .truth("pack_current_a", "out of the pack", 1)
                .truth("ac_current_a", "taken from the station", 3)
                .asked("charge_current_limit_a", "charge current allowed", 4)
                .addTo(all);
        if (!charged || everNonzero(history, Source.QUANTITY, "distance_m") || hasPedalMoved(history)) {
            moving(all, history);
        }
        new Builder(history, "Temperatures", "°C", "")
                .truth("pack_temp_c", "pack", 1)
                .truth("motor_temp_c", "motor", 2)
                .truth("inverter_temp_c", "inverter", 3)
                .truth("coolant_temp_c", "coolant", 4)
                .truth("resistor_temp_c", "precharge resistor", 5)
                .truth("charger_temp_c", "chargers", 6)
                .addTo(all);
        if (!charged) {
            stateOfCharge(all, history);
        }
        new Builder(history, "12 V side", "V", "")
                .truth("lv_voltage_v", "12 V side", 1)
                .addTo(all);
        return all;
    }

    /** Constant current, then constant voltage, then the end: what a charge looks like, where there was one. */
    private static void charge(List<PlotSpec> all, History history, Vehicle vehicle) {
        Builder charge = new Builder(history, "Charge", "A", "V");
        double endA = vehicle.get(Parameter.CHARGE_END_A);
        double voltageV = vehicle.get(Parameter.CHARGE_VOLTAGE_V);
        charge.intoThePack("current into the pack", 1)
                .rightTruth("pack_voltage_v", "pack", 2)
                .mark(endA, "ends below " + Numbers.text(endA) + " A", false)
                .mark(voltageV, "charge voltage " + Numbers.text(voltageV) + " V", true)
                .addTo(all);
        stateOfCharge(all, history);
    }

    private static void stateOfCharge(List<PlotSpec> all, History history) {
        new Builder(history, "State of charge", "%", "")
                .percent("soc", "state of charge", 4)
                .addTo(all);
    }

    private static void moving(List<PlotSpec> all, History history) {
        new Builder(history, "Pedal and torque", "Nm", "V")
                .asked("torque_request_nm", "torque asked for", 1)
                .truth("motor_torque_nm", "torque of the motor", 2)
                .right("pedal_a_v", "first pedal track", 4)
                .right("pedal_b_v", "second pedal track", 5)
                .addTo(all);
        new Builder(history, "Speed", "km/h", "").truth("speed_kph", "speed", 1).addTo(all);
    }

    private static boolean everNonzero(History history, Source source, String key) {
        int column = history.channels().indexOf(source, key);
        return history.known(column) && !new Builder(history, "", "", "").zero(column);
    }

    private static boolean hasPedalMoved(History history) {
        int column = history.channels().indexOf(Source.SIGNAL, "pedal_a_v");
        if (!history.known(column)) {
            return false;
        }
        double least = Double.POSITIVE_INFINITY;
        double most = Double.NEGATIVE_INFINITY;
        for (int row = 0; row < history.size(); row++) {
            least = Math.min(least, history.value(row, column));
            most = Math.max(most, history.value(row, column));
        }
        return !(most - least < STILL_V);
    }

    private static final class Builder {
        private final History history;
        private final String title;
        private final String unit;
        private final String rightUnit;
        private final List<Series> series = new ArrayList<>();
        private final List<Mark> marks = new ArrayList<>();

        Builder(History history, String title, String unit, String rightUnit) {
            this.history = history;
            this.title = title;
            this.unit = unit;
            this.rightUnit = rightUnit;
        }

        Builder truth(String key, String label, int colour) {
            return add(Source.QUANTITY, key, label, colour, false);
        }

        Builder intoThePack(String label, int colour) {
            return scaled("pack_current_a", label, colour, -1);
        }

        Builder percent(String key, String label, int colour) {
            return scaled(key, label, colour, PERCENT);
        }

        private Builder scaled(String key, String label, int colour, double factor) {
            int column = history.channels().indexOf(Source.QUANTITY, key);
            if (history.known(column)) {
                series.add(new Series(column, label, colour, false, false, factor));
            }
            return this;
        }

        Builder rightTruth(String key, String label, int colour) {
            return add(Source.QUANTITY, key, label, colour, true);
        }

        Builder mark(double value, String label, boolean right) {
            marks.add(new Mark(value, label, right));
            return this;
        }

        Builder told(String key, String label, int colour) {
            return add(Source.SIGNAL, key, label, colour, false);
        }

        Builder asked(String key, String label, int colour) {
            return add(Source.OUTPUT, key, label, colour, false);
        }

        Builder right(String key, String label, int colour) {
            return add(Source.SIGNAL, key, label, colour, true);
        }

        private Builder add(Source source, String key, String label, int colour, boolean right) {
            int column = history.channels().indexOf(source, key);
            boolean dull = source == Source.OUTPUT || key.startsWith("ac_");
            if (history.known(column) && !(dull && zero(column))) {
                series.add(new Series(column, label, colour, right, source == Source.SIGNAL && !right, 1));
            }
            return this;
        }

        /** A limit that was never given, a station that was never there: nothing to see. */
        boolean zero(int column) {
            for (int row = 0; row < history.size(); row++) {
                if (history.value(row, column) != 0) {
                    return false;
                }
            }
            return true;
        }

        void addTo(List<PlotSpec> all) {
            if (!series.isEmpty()) {
                boolean twoAxes = series.stream().anyMatch(Series::right);
                all.add(new PlotSpec(title, unit, twoAxes ? rightUnit : "", List.copyOf(series), List.copyOf(marks)));
            }
        }
    }

    /** What a line shows, for a reader who points at it. */
    static String meaning(History history, Series series) {
        Channel channel = history.channels().all().get(series.column());
        return channel.column() + ": " + channel.meaning();
    }
}
