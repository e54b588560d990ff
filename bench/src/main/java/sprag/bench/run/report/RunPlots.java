package sprag.bench.run.report;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.cli.Numbers;
import sprag.bench.loop.trace.Channel;
import sprag.bench.loop.trace.Channel.Source;
import sprag.bench.loop.trace.History;
import sprag.bench.page.Plot;
import sprag.bench.page.Plot.Level;
import sprag.bench.page.Plot.Line;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Parameter;

/** Chooses what the plots of a run show. A column that the vehicle lacks is left out, and so is a plot without lines. */
final class RunPlots {
    /** A pedal that stays within this was not touched. */
    private static final double STILL_V = 0.05;

    private static final double PERCENT = 100;
    /** What an exponential rise reaches after one time constant: 1 - 1/e. */
    private static final double TIME_CONSTANT_SHARE = 1 - Math.exp(-1);

    private final History history;
    private final Vehicle vehicle;
    private final List<Plot> plots = new ArrayList<>();

    private RunPlots(History history, Vehicle vehicle) {
        this.history = history;
        this.vehicle = vehicle;
    }

    /** Every plot of a run. */
    static List<Plot> of(History history, Vehicle vehicle) {
        RunPlots chosen = new RunPlots(history, vehicle);
        boolean isCharged = chosen.isEverNonzero(Source.QUANTITY, "charger_energy_j");
        if (isCharged) {
            chosen.charge();
        }
        chosen.voltagesAndCurrents();
        if (!isCharged || chosen.isEverNonzero(Source.QUANTITY, "distance_m") || chosen.hasPedalMoved()) {
            chosen.drive();
        }
        chosen.temperatures();
        if (!isCharged) {
            chosen.stateOfCharge();
        }
        chosen.plot("12 V side", "V", "").truth("lv_voltage_v", "12 V side").add();
        return chosen.plots;
    }

    /** What a precharge shows on a short stretch of time.
     *
     * @param packV the pack's voltage before it; NaN when unknown
     */
    static List<Plot> ofPrecharge(History history, Vehicle vehicle, double packV) {
        RunPlots chosen = new RunPlots(history, vehicle);
        double doneShare = vehicle.get(Parameter.PRECHARGE_DONE_FRACTION);
        double oneTimeConstantV =
                vehicle.settings().is(Parameter.PRECHARGE_BY, "relay") ? TIME_CONSTANT_SHARE * packV : Double.NaN;
        chosen.plot("Voltages and current of the precharge", "V", "A")
                .truth("pack_voltage_v", "pack")
                .truth("bus_voltage_v", "bus")
                .told("bus_voltage_v", "bus as the supervisor reads it")
                .right(Source.QUANTITY, "pack_current_a", "current out of the pack")
                .level(oneTimeConstantV, "63 % of the pack: one time constant", false)
                .level(doneShare * packV, Numbers.text(PERCENT * doneShare) + " % of the pack: high enough", false)
                .add();
        return chosen.plots;
    }

    /** Constant current, then constant voltage, then the end. */
    private void charge() {
        double endA = vehicle.get(Parameter.CHARGE_END_A);
        double voltageV = vehicle.get(Parameter.CHARGE_VOLTAGE_V);
        plot("Charge", "A", "V")
                .scaled("pack_current_a", "current into the pack", -1)
                .right(Source.QUANTITY, "pack_voltage_v", "pack")
                .level(endA, "ends below " + Numbers.text(endA) + " A", false)
                .level(voltageV, "charge voltage " + Numbers.text(voltageV) + " V", true)
                .add();
        stateOfCharge();
    }

    private void voltagesAndCurrents() {
        plot("Traction voltages", "V", "")
                .truth("pack_voltage_v", "pack")
                .truth("bus_voltage_v", "bus")
                .told("bus_voltage_v", "bus as the supervisor reads it")
                .add();
        plot("Currents", "A", "")
                .truth("pack_current_a", "out of the pack")
                .whenUsed(Source.QUANTITY, "ac_current_a", "taken from the station")
                .whenUsed(Source.OUTPUT, "charge_current_limit_a", "charge current allowed")
                .add();
    }

    private void drive() {
        plot("Pedal and torque", "Nm", "V")
                .whenUsed(Source.OUTPUT, "torque_request_nm", "torque asked for")
                .truth("motor_torque_nm", "torque of the motor")
                .right(Source.SIGNAL, "pedal_a_v", "first pedal track")
                .right(Source.SIGNAL, "pedal_b_v", "second pedal track")
                .add();
        plot("Speed", "km/h", "").truth("speed_kph", "speed").add();
    }

    private void temperatures() {
        plot("Temperatures", "°C", "")
                .truth("pack_temp_c", "pack")
                .truth("motor_temp_c", "motor")
                .truth("inverter_temp_c", "inverter")
                .truth("coolant_temp_c", "coolant")
                .truth("resistor_temp_c", "precharge resistor")
                .truth("charger_temp_c", "chargers")
                .add();
    }

    private void stateOfCharge() {
        plot("State of charge", "%", "")
                .scaled("soc", "state of charge", PERCENT)
                .add();
    }

    private boolean isEverNonzero(Source source, String key) {
        int column = history.channels().indexOf(source, key);
        return history.known(column) && !isZero(column);
    }

    private boolean isZero(int column) {
        for (int row = 0; row < history.size(); row++) {
            if (history.value(row, column) != 0) {
                return false;
            }
        }
        return true;
    }

    private boolean hasPedalMoved() {
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

    private Draft plot(String title, String unit, String rightUnit) {
        return new Draft(title, unit, rightUnit);
    }

    private final class Draft {
        private final String title;
        private final String unit;
        private final String rightUnit;
        private final List<Line> lines = new ArrayList<>();
        private final List<Level> levels = new ArrayList<>();

        Draft(String title, String unit, String rightUnit) {
            this.title = title;
            this.unit = unit;
            this.rightUnit = rightUnit;
        }

        /** What the simulated car knows of itself. */
        Draft truth(String key, String label) {
            return scaled(key, label, 1);
        }

        /** What a sensor told the supervisor. */
        Draft told(String key, String label) {
            return line(Source.SIGNAL, key, label, false, 1);
        }

        Draft scaled(String key, String label, double factor) {
            return line(Source.QUANTITY, key, label, false, factor);
        }

        Draft right(Source source, String key, String label) {
            return line(source, key, label, true, 1);
        }

        /** A limit that was never given, or a station that was never there, is not worth a line. */
        Draft whenUsed(Source source, String key, String label) {
            return isEverNonzero(source, key) ? line(source, key, label, false, 1) : this;
        }

        Draft level(double value, String label, boolean isRight) {
            levels.add(new Level(value, label, isRight));
            return this;
        }

        private Draft line(Source source, String key, String label, boolean isRight, double factor) {
            int column = history.channels().indexOf(source, key);
            if (history.known(column)) {
                Channel channel = history.channels().all().get(column);
                String meaning = channel.column() + ": " + channel.meaning();
                lines.add(new Line(label, meaning, isRight, row -> factor * history.value(row, column)));
            }
            return this;
        }

        void add() {
            if (!lines.isEmpty()) {
                boolean hasRight = lines.stream().anyMatch(Line::isRight);
                plots.add(new Plot(title, unit, hasRight ? rightUnit : "", List.copyOf(lines), List.copyOf(levels)));
            }
        }
    }
}
