package sprag.bench.report;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.trace.Channel;
import sprag.bench.trace.Channel.Source;
import sprag.bench.trace.History;

/**
 * What one plot shows.
 *
 * @param title its heading
 * @param unit the unit of the axis at the left
 * @param rightUnit the unit of the axis at the right, empty for none
 * @param series what is drawn
 */
record PlotSpec(String title, String unit, String rightUnit, List<Series> series) {
    /**
     * One line of a plot.
     *
     * @param column the column it is drawn from
     * @param label what it is, for the legend
     * @param colour which colour of the page, from 1
     * @param right whether it belongs to the axis at the right
     * @param dashed whether it is dashed, because it lies on another line when all is well
     */
    record Series(int column, String label, int colour, boolean right, boolean dashed) {}

    /** Every plot of a page. A column that the vehicle lacks, and a plot without columns, is left out. */
    static List<PlotSpec> all(History history) {
        List<PlotSpec> all = new ArrayList<>();
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
        new Builder(history, "Pedal and torque", "Nm", "V")
                .asked("torque_request_nm", "torque asked for", 1)
                .truth("motor_torque_nm", "torque of the motor", 2)
                .right("pedal_a_v", "first pedal track", 4)
                .right("pedal_b_v", "second pedal track", 5)
                .addTo(all);
        new Builder(history, "Speed", "km/h", "").truth("speed_kph", "speed", 1).addTo(all);
        new Builder(history, "Temperatures", "°C", "")
                .truth("pack_temp_c", "pack", 1)
                .truth("motor_temp_c", "motor", 2)
                .truth("inverter_temp_c", "inverter", 3)
                .truth("coolant_temp_c", "coolant", 4)
                .truth("resistor_temp_c", "precharge resistor", 5)
                .truth("charger_temp_c", "chargers", 6)
                .addTo(all);
        new Builder(history, "State of charge", "share", "")
                .truth("soc", "state of charge", 1)
                .addTo(all);
        new Builder(history, "12 V side", "V", "")
                .truth("lv_voltage_v", "12 V side", 1)
                .addTo(all);
        return all;
    }

    private static final class Builder {
        private final History history;
        private final String title;
        private final String unit;
        private final String rightUnit;
        private final List<Series> series = new ArrayList<>();

        Builder(History history, String title, String unit, String rightUnit) {
            this.history = history;
            this.title = title;
            this.unit = unit;
            this.rightUnit = rightUnit;
        }

        Builder truth(String key, String label, int colour) {
            return add(Source.QUANTITY, key, label, colour, false);
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
                series.add(new Series(column, label, colour, right, source == Source.SIGNAL && !right));
            }
            return this;
        }

        /** A limit that was never given, a station that was never there: nothing to see. */
        private boolean zero(int column) {
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
                all.add(new PlotSpec(title, unit, twoAxes ? rightUnit : "", List.copyOf(series)));
            }
        }
    }

    /** What a line shows, for a reader who points at it. */
    static String meaning(History history, Series series) {
        Channel channel = history.channels().all().get(series.column());
        return channel.column() + ": " + channel.meaning();
    }
}
