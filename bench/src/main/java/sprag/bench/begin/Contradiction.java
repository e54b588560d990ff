package sprag.bench.begin;

import java.util.ArrayList;
import java.util.List;
import sprag.bench.cli.Numbers;
import sprag.supervisor.vocabulary.Parameter;

/**
 * Two answers that cannot both be true.
 *
 * @param at the question that is asked last of them
 * @param what what is wrong, without a full stop
 * @param remedy what to do, a whole sentence
 */
record Contradiction(Question at, String what, String remedy) {
    /** Times its capacity in an hour that no traction cell gives or takes; common practice, far above data sheets. */
    private static final double MOST_DISCHARGE = 60;

    private static final double MOST_CHARGE = 20;

    /** All that contradict each other. */
    static List<Contradiction> of(Answers answers) {
        List<Contradiction> found = new ArrayList<>();
        cells(answers, Question.DISCHARGE_MAX_A, MOST_DISCHARGE, found);
        cells(answers, Question.CHARGE_MAX_A, MOST_CHARGE, found);
        sum(answers, Question.MOTOR_TORQUE_NM, Parameter.DRIVE_TORQUE_NM, found);
        sum(answers, Question.MOTOR_POWER_W, Parameter.DRIVE_POWER_W, found);
        boolean magnets = answers.is(Question.MOTOR_KIND, "permanent-magnet");
        if (magnets && answers.get(Question.MOTOR_EMF_V_PER_KRPM) == 0) {
            found.add(new Contradiction(
                    Question.MOTOR_EMF_V_PER_KRPM,
                    "motor_emf_v_per_krpm is 0, and a permanent-magnet motor makes voltage whenever it turns",
                    "Give the voltage for 1000 turns a minute, e.g. --set motor_emf_v_per_krpm=36."));
        }
        if (!magnets && answers.get(Question.MOTOR_EMF_V_PER_KRPM) > 0) {
            found.add(new Contradiction(
                    Question.MOTOR_EMF_V_PER_KRPM,
                    "motor_emf_v_per_krpm = " + text(answers, Question.MOTOR_EMF_V_PER_KRPM)
                            + ", and an induction motor makes no voltage by itself",
                    "Give motor_emf_v_per_krpm = 0, or motor_kind = \"permanent-magnet\"."));
        }
        if (answers.is(Question.GEARBOX, "hub") && answers.get(Question.GEAR_RATIO) != 1) {
            found.add(new Contradiction(
                    Question.GEAR_RATIO,
                    "gear_ratio = " + text(answers, Question.GEAR_RATIO)
                            + ", and a hub motor turns once with its wheel",
                    "Give gear_ratio = 1, or gearbox = \"fixed\" for a motor with a gear."));
        }
        speed(answers, magnets, found);
        if (!answers.is(Question.INLET, "none")
                && answers.is(Question.CHARGER_CONTROL, "alone")
                && answers.is(Question.CHARGER_SIDE, "bus-side")) {
            found.add(new Contradiction(
                    Question.CHARGER_CONTROL,
                    "charger_control = \"alone\", and charger_side = \"bus-side\": it would put its voltage on the bus"
                            + " before the contactors are asked",
                    "Give charger_side = \"pack-side\", or charger_control = \"switched\" or \"limited\"."));
        }
        return found;
    }

    private static void cells(Answers answers, Question current, double most, List<Contradiction> found) {
        double mostA = most * answers.get(Question.CAPACITY_AH);
        if (answers.get(current) > mostA) {
            found.add(new Contradiction(
                    current,
                    current.key() + " = " + text(answers, current) + " is more than " + Numbers.text(most)
                            + " times capacity_ah = " + text(answers, Question.CAPACITY_AH)
                            + ", which no traction cell stands",
                    "Give " + current.key() + " at most " + Numbers.text(Math.floor(mostA))
                            + " as the data sheet of the cells says, or the capacity of all cells in parallel."));
        }
    }

    private static void sum(Answers answers, Question each, Parameter all, List<Contradiction> found) {
        double motors = answers.get(Question.MOTORS);
        if (motors * answers.get(each) > all.max()) {
            found.add(new Contradiction(
                    each,
                    "motors = " + Numbers.text(motors) + " times " + each.key() + " = " + text(answers, each)
                            + " is more than " + Numbers.text(all.max()) + ", the most that " + all.key() + " may be",
                    "Give " + each.key() + " of one motor, at most " + Numbers.text(Math.floor(all.max() / motors))
                            + "."));
        }
    }

    private static void speed(Answers answers, boolean magnets, List<Contradiction> found) {
        double kph = answers.get(Question.MAX_KPH);
        double most = answers.mostKph();
        if (kph > most) {
            double ratio = Math.floor(answers.get(Question.GEAR_RATIO) * most / kph * 100) / 100;
            boolean hub = answers.is(Question.GEARBOX, "hub");
            found.add(new Contradiction(
                    Question.MAX_KPH,
                    "max_kph = " + Numbers.text(kph) + " turns the motor faster than motor_max_rpm = "
                            + text(answers, Question.MOTOR_MAX_RPM) + " with gear_ratio = "
                            + text(answers, Question.GEAR_RATIO) + " and wheel_radius_m = "
                            + text(answers, Question.WHEEL_RADIUS_M),
                    "Give max_kph at most " + Numbers.text(most)
                            + (hub ? "" : ", or gear_ratio at most " + Numbers.text(ratio))
                            + ", or a motor that turns faster."));
            return;
        }
        double emfV = answers.get(Question.MOTOR_EMF_V_PER_KRPM) * answers.rpmAt(kph) / 1000;
        double busV = Suggestions.from(answers).get(Parameter.BUS_MAX_V).value();
        if (magnets && emfV > busV) {
            found.add(new Contradiction(
                    Question.MAX_KPH,
                    "at max_kph = " + Numbers.text(kph) + " the motor makes " + Numbers.text(emfV, "V")
                            + ", and bus.max_v that follows from cells is " + Numbers.text(busV, "V"),
                    Math.floor(kph * busV / emfV) < Question.MAX_KPH.min()
                            ? "Give the motor_emf_v_per_krpm that was measured."
                            : "Give max_kph at most " + Numbers.text(Math.floor(kph * busV / emfV))
                                    + ", or a motor_emf_v_per_krpm that was measured."));
        }
    }

    private static String text(Answers answers, Question question) {
        return Numbers.text(answers.get(question));
    }
}
