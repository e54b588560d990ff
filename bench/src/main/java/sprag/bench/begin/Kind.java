package sprag.bench.begin;

import java.util.Arrays;
import java.util.List;
import java.util.function.Predicate;
import sprag.bench.cli.Wrap;

/** A car that is not the usual one. The words are those of {@code docs/kinds-of-cars.md}; a test compares them. */
enum Kind {
    PLAIN_LEAD(
            "plain-lead",
            a -> a.is(Question.INLET, "plain") && !a.is(Question.PLUG_SIGN, "charger"),
            "a mains lead with a switch that the plug presses",
            "the switch alone locks the car; at most inlet.max_a is taken from the mains",
            "pilot and proximity: nobody says what socket and lead bear, and nothing tells before the plug parts under"
                    + " load. A switch stuck at off is noticed only when current flows"),
    PLAIN_LINE(
            "plain-line",
            a -> a.is(Question.INLET, "plain") && a.is(Question.PLUG_SIGN, "charger"),
            "a mains lead that only the charger notices",
            "a charger that says it is well has mains, and that locks the car",
            "with a dead socket or a failed charger the lead is not seen: the car can be driven off with it"),
    CHARGER_ALONE(
            "charger-alone",
            a -> a.is(Question.CHARGER_CONTROL, "alone") && !a.is(Question.INLET, "none"),
            "a charger that nothing controls",
            "the car is locked; the charger ends its charge by itself; a reason to stop only sounds the alarm"
                    + " (charger-runs-on)",
            "no permit, cell limit or temperature ends a charge: the charger and a battery monitor with its own relay"
                    + " must do that"),
    PACK_TAKEN_OUT(
            "pack-taken-out",
            a -> a.is(Question.INLET, "none"),
            "a pack that is taken out to be charged",
            "no plug is ever looked for and no charge begins",
            "a charger that somebody connects in the car all the same is not seen"),
    GEARBOX_KEPT(
            "gearbox-kept",
            a -> a.is(Question.GEARBOX, "clutch") && !a.is(Question.SENSORS, "all"),
            "a gearbox with a clutch, speed from the motor alone",
            "a motor that speeds up or falls as no wheel can is believed; the car counts as standing when the motor"
                    + " stands and the brake is pressed",
            "a speed wire that breaks while rolling is noticed only by current or torque; a car that rolls in neutral"
                    + " looks as if it stood"),
    GEARBOX_WITH_WHEEL_SPEED(
            "gearbox-with-wheel-speed",
            a -> a.is(Question.GEARBOX, "clutch") && a.is(Question.SENSORS, "all"),
            "a gearbox with a clutch and a speed sensor behind the gearbox",
            "that sensor says whether the car stands, for the lever and on the cable",
            "the two speeds are no longer held against each other: the gear is unknown"),
    HUB_MOTORS(
            "hub-motors",
            a -> a.is(Question.GEARBOX, "hub"),
            "hub motors",
            "nothing",
            "one speed and one temperature stand for two motors"),
    TWO_MOTORS(
            "two-motors",
            a -> a.get(Question.MOTORS) > 1 && !a.is(Question.GEARBOX, "hub"),
            "two motors on one shaft",
            "nothing. Wire the ready lines in series and the fault lines in parallel: one that stops takes the torque of"
                    + " both",
            "the temperature of the motor whose sensor is not wired");

    /** How its folder is called in the documents. */
    final String id;

    final String title;
    final String differently;
    final String lost;
    private final Predicate<Answers> isMeant;

    Kind(String id, Predicate<Answers> isMeant, String title, String differently, String lost) {
        this.id = id;
        this.isMeant = isMeant;
        this.title = title;
        this.differently = differently;
        this.lost = lost;
    }

    /** The kinds that a car with these answers is of; empty for the usual one. */
    static List<Kind> of(Answers answers) {
        return Arrays.stream(values())
                .filter(kind -> kind.isMeant.test(answers))
                .toList();
    }

    /** Describes this kind of car to the person who chose it. */
    String text() {
        return "This car has " + title + ". What the supervisor does differently: " + differently + ". What is lost: "
                + lost + ". docs/kinds-of-cars.md tells more.";
    }

    /** The same as a comment in a file, each line with a mark of its own. */
    static String comment(Answers answers, int columns) {
        StringBuilder text = new StringBuilder();
        for (Kind kind : of(answers)) {
            Wrap.hanging(VehicleText.KIND_MARK, VehicleText.KIND_MARK, kind.text(), columns)
                    .forEach(line -> text.append(line).append('\n'));
        }
        return text.toString();
    }
}
