package sprag.bench.panel.guide;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.car.FaultSpec;
import sprag.bench.car.Lever;
import sprag.bench.car.Quantity;
import sprag.bench.panel.PanelBench;
import sprag.bench.panel.session.CarSession;
import sprag.bench.panel.session.Subject;
import sprag.bench.vehicle.Vehicle;
import sprag.hal.Clock;
import sprag.supervisor.vocabulary.ChargePhase;
import sprag.supervisor.vocabulary.State;

/** A robot that does what the guide says, and nothing else, comes to drive from every state and every cause that can go. */
final class GuideTest {
    private static final long PATIENCE_MS = 150_000;
    private static final long LOOKS_EACH_MS = 200;
    private static final long MENDS_AFTER_MS = 15_000;
    /** The longest that a newcomer may need from the first look at a cold car until it rolls. */
    private static final long FIRST_MOTION_MS = 60_000;
    /** To read the sentence and find the lever: twelve words at 180 words a minute, a slow reader of a foreign language. */
    private static final long READS_MS = 4000;

    /** Does what the guide says; knows nothing else about the car. */
    private static final class Robot {
        final CarSession car;
        final List<String> story = new ArrayList<>();
        private String last = "";

        Robot(Vehicle vehicle) {
            car = new CarSession(new Subject(vehicle, null, null), Clock.real());
        }

        Robot run(long ms) {
            long endMs = car.loop.timeMs() + ms;
            while (car.loop.timeMs() < endMs) {
                car.loop.tick();
                car.latches.update(car.loop.supervisor(), car.loop.loop().ticks() - 1);
            }
            return this;
        }

        Robot move(Lever lever, double to) {
            car.move(lever, to);
            return this;
        }

        State state() {
            return car.loop.state();
        }

        boolean drives() {
            return state() == State.DRIVE_ENABLE
                    && car.loop.car().truth(Quantity.SPEED_KPH) > 1
                    && car.lever(Lever.PEDAL) > 0;
        }

        void mend() {
            car.loop
                    .car()
                    .faults()
                    .present()
                    .forEach(f -> car.loop.car().faults().clear(f.name()));
            for (Lever loop : List.of(
                    Lever.CUT_LOOP, Lever.COVER_LOOP, Lever.CRASH_LOOP, Lever.DISCHARGE_PERMIT, Lever.CHARGE_PERMIT)) {
                move(loop, 1);
            }
        }

        /** Looks at the guide and does what it says, until the car drives or patience ends. */
        void follow() {
            long beganMs = car.loop.timeMs();
            while (!drives() && car.loop.timeMs() - beganMs < PATIENCE_MS) {
                Guidance guide = Guide.of(car);
                String told = state() + " " + guide;
                if (!told.equals(last)) {
                    story.add(car.loop.timeMs() + " " + told);
                    last = told;
                }
                check(guide);
                act(guide);
                if (car.loop.timeMs() - beganMs > MENDS_AFTER_MS) {
                    mend();
                }
                boolean pressed = guide.next().equals("Nothing is missing: press Start.");
                run(LOOKS_EACH_MS);
                if (pressed && car.loop.car().faults().present().isEmpty()) {
                    assertNotEquals(State.IGNITION, state(), () -> "Start was refused after " + story);
                }
            }
            assertTrue(drives(), () -> "does not drive: " + String.join("\n", story));
        }

        private void check(Guidance guide) {
            if (!car.loop.car().faults().present().isEmpty()) {
                return;
            }
            boolean releases = guide.missing().stream().anyMatch(words -> words.startsWith("Release the pedal"));
            assertTrue(!releases || car.lever(Lever.PEDAL) > 0, () -> "asks to release a released pedal: " + guide);
            if (car.lever(Lever.BRAKE) > 0.02) {
                assertNotEquals(DriverAct.PRESS_PEDAL.words, guide.next(), "says nothing of the brake");
            }
        }

        private void act(Guidance guide) {
            String all = (String.join(" ", guide.missing()) + " " + guide.next()).toLowerCase(Locale.ROOT);
            boolean mends = all.contains("remove the cause") || all.contains("still there") || strange(guide.missing());
            if (mends) {
                mend();
            }
            move(Lever.START, all.contains("press start") ? 1 : 0);
            move(Lever.SERVICE_RESET, all.contains("press the service reset") && car.lever(Lever.KEY) == 0 ? 1 : 0);
            if (all.contains("turn the key on")) {
                move(Lever.KEY, 1);
            } else if (all.contains("turn the key off")) {
                move(Lever.KEY, 0);
            }
            if (asks(all, DriverAct.UNPLUG)) {
                move(Lever.PLUG, 0);
            }
            if (asks(all, DriverAct.CHOOSE_DIRECTION) || asks(all, DriverAct.ONE_DIRECTION)) {
                move(Lever.DIRECTION, 1);
            }
            if (asks(all, DriverAct.STAND_STILL)) {
                move(Lever.PEDAL, 0).move(Lever.BRAKE, 1);
            }
            if (all.contains("release the pedal")) {
                move(Lever.PEDAL, 0);
            } else if (asks(all, DriverAct.PRESS_PEDAL)) {
                move(Lever.PEDAL, 0.4);
            }
            if (asks(all, DriverAct.LET_BRAKE_GO)) {
                move(Lever.BRAKE, 0);
            } else if (asks(all, DriverAct.PRESS_BRAKE)) {
                move(Lever.BRAKE, 0.5);
            }
        }

        private static boolean asks(String all, DriverAct act) {
            return all.contains(act.words.toLowerCase(Locale.ROOT));
        }

        /** Whether something is listed that is no act: a cause, for whoever mends the car. */
        private static boolean strange(List<String> missing) {
            return missing.stream().anyMatch(words -> {
                for (DriverAct act : DriverAct.values()) {
                    if (words.startsWith(act.words)) {
                        return false;
                    }
                }
                return true;
            });
        }

        // where a cause may strike

        Robot ignition() {
            return run(100).move(Lever.KEY, 1).move(Lever.BRAKE, 0.5).run(300);
        }

        Robot precharge() {
            return ignition().move(Lever.START, 1).run(200).move(Lever.START, 0);
        }

        Robot driving() {
            precharge().run(4000).move(Lever.DIRECTION, 1).run(200);
            return move(Lever.BRAKE, 0).move(Lever.PEDAL, 0.4).run(2500);
        }

        Robot runningDown() {
            return driving().move(Lever.KEY, 0).run(100);
        }

        Robot charging() {
            return run(100).move(Lever.PLUG, 1).run(6000);
        }
    }

    private static Robot at(Vehicle vehicle, State state) {
        Robot robot = new Robot(vehicle);
        return switch (state) {
            case OFF -> robot.run(100);
            case IGNITION -> robot.ignition();
            case PRECHARGE -> robot.precharge();
            case DRIVE_ENABLE -> robot.driving();
            case RUNDOWN -> robot.runningDown();
            case CHARGE_LOCKOUT -> robot.charging();
            case FAULT -> robot.driving().move(Lever.CUT_LOOP, 0).run(200);
        };
    }

    /** What a driver can do wrong or to the car, by levers alone. */
    private static Map<String, Map<Lever, Double>> deeds() {
        Map<String, Map<Lever, Double>> all = new TreeMap<>();
        all.put("nothing", Map.of());
        all.put("plug in", Map.of(Lever.PLUG, 1.0));
        all.put("plug in and start", Map.of(Lever.PLUG, 1.0, Lever.KEY, 1.0, Lever.START, 1.0));
        all.put("key off", Map.of(Lever.KEY, 0.0));
        all.put("pedal with brake", Map.of(Lever.PEDAL, 0.6, Lever.BRAKE, 0.5));
        all.put("pedal pressed", Map.of(Lever.PEDAL, 0.6, Lever.BRAKE, 0.0));
        all.put("start held", Map.of(Lever.START, 1.0));
        all.put("neutral", Map.of(Lever.DIRECTION, 0.0));
        all.put("reverse", Map.of(Lever.DIRECTION, -1.0));
        all.put("cut-off", Map.of(Lever.CUT_LOOP, 0.0));
        all.put("cover", Map.of(Lever.COVER_LOOP, 0.0));
        all.put("crash", Map.of(Lever.CRASH_LOOP, 0.0));
        all.put("no discharge", Map.of(Lever.DISCHARGE_PERMIT, 0.0));
        all.put("no charge", Map.of(Lever.CHARGE_PERMIT, 0.0));
        return all;
    }

    /** The one sentence of the strip on a phone, chosen as strip.js chooses it. */
    private static String strip(Guidance guide) {
        List<String> needs = guide.missing().stream()
                .filter(words -> !words.startsWith("Limited: "))
                .toList();
        return !needs.isEmpty() ? needs.get(0) : guide.next().isEmpty() ? guide.now() : guide.next();
    }

    /** Does what one sentence says, and counts the acts. */
    private static int does(Robot robot, String sentence) {
        int acts = 0;
        for (DriverAct act : DriverAct.values()) {
            if (!Robot.asks(sentence.toLowerCase(Locale.ROOT), act)
                    && !(act == DriverAct.KEY_ON && sentence.startsWith("Turn the key on to drive"))) {
                continue;
            }
            acts++;
            switch (act) {
                case KEY_ON -> robot.move(Lever.KEY, 1);
                case PRESS_BRAKE -> robot.move(Lever.BRAKE, 0.5);
                case LET_BRAKE_GO -> robot.move(Lever.BRAKE, 0);
                case PRESS_START -> robot.move(Lever.START, 1).run(500).move(Lever.START, 0);
                case CHOOSE_DIRECTION -> robot.move(Lever.DIRECTION, 1);
                case PRESS_PEDAL -> robot.move(Lever.PEDAL, 0.4);
                default -> throw new AssertionError("a sound car at rest needs no " + act + ": " + sentence);
            }
        }
        return acts;
    }

    @ParameterizedTest
    @CsvSource({"parcel-van, 20", "coupe, 20", "yard-cart, 20", "parcel-van, -15", "coupe, -15", "yard-cart, -15"})
    void cold_doesOnlyWhatTheOneSentenceOfAPhoneSays_rollsAfterSixActsWithinAMinute(String name, double packC) {
        Robot robot = new Robot(PanelBench.vehicle(name))
                .move(Lever.PACK_TEMP_C, packC)
                .run(100);
        int acts = 0;
        while (!robot.drives() && robot.car.loop.timeMs() < FIRST_MOTION_MS) {
            String sentence = strip(Guide.of(robot.car));
            robot.story.add(robot.car.loop.timeMs() + " ms, " + robot.state() + ": " + sentence);
            robot.run(READS_MS);
            acts += does(robot, sentence);
            robot.run(LOOKS_EACH_MS);
        }
        String story = acts + " acts\n" + String.join("\n", robot.story);
        assertTrue(robot.drives(), () -> "does not roll within a minute: " + story);
        assertEquals(6, acts, story);
    }

    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void anyStateAndDeed_robotDoesWhatTheGuideSays_drives(String name) {
        Vehicle vehicle = PanelBench.vehicle(name);
        deeds().forEach((deed, levers) -> {
            for (State state : State.values()) {
                Robot robot = at(vehicle, state);
                robot.story.add(name + ": " + deed + " in " + state);
                levers.forEach(robot::move);
                robot.run(1000);
                if (deed.equals("reverse")) {
                    robot.move(Lever.DIRECTION, 1);
                }
                robot.follow();
            }
        });
    }

    @Test
    @Tag("long")
    void anyFaultWhileDriving_robotDoesWhatTheGuideSays_drivesAfterMending() {
        Vehicle vehicle = PanelBench.vehicle("parcel-van");
        for (FaultSpec fault : FaultSpec.all(vehicle)) {
            Robot robot = new Robot(vehicle).driving();
            robot.story.add(fault + " while driving");
            robot.car.loop.car().faults().inject(fault);
            robot.run(1500);
            robot.follow();
        }
    }

    @Test
    void contactorWelded_keyOff_guideNeverSaysThatItIsOpen() {
        for (String contactor : List.of("negative_contactor", "positive_contactor", "precharge_relay")) {
            for (String name : List.of("parcel-van", "coupe", "yard-cart")) {
                Robot robot = new Robot(PanelBench.vehicle(name)).driving();
                robot.car.loop.inject(contactor + ".welded");
                robot.move(Lever.PEDAL, 0).move(Lever.KEY, 0);
                for (int i = 0; i < 100; i++) {
                    String seen = Guide.of(robot.run(100).car).seen();
                    Quantity truth = Quantity.of(contactor.replaceFirst("_.*", "_closed"))
                            .orElseThrow();
                    assertEquals(1, robot.car.loop.car().truth(truth), contactor);
                    boolean contradicts = seen.contains("Every contactor shows open")
                            || seen.toLowerCase(Locale.ROOT).contains(contactor.replace('_', ' ') + " shows open");
                    assertTrue(!contradicts, name + " " + contactor + ": " + seen);
                }
            }
        }
    }

    @Test
    void faultPast_guideKeepsItsCauseWithTheTime() {
        Robot robot = new Robot(PanelBench.vehicle("parcel-van")).driving();
        robot.move(Lever.CUT_LOOP, 0).run(200).move(Lever.CUT_LOOP, 1).run(1000);
        Guidance guide = Guide.of(robot.car);
        assertEquals(1, guide.missing().size(), guide.toString());
        assertTrue(
                guide.missing().get(0).matches("cut-loop-open latched at [0-9.]+ s, not there now: .*"),
                guide.toString());
        assertEquals("Turn the key off.", guide.next());
    }

    @Test
    void packShowsNoVoltage_charging_guideSaysWhyNothingIsAskedFor() {
        int charging = 0;
        for (String name : List.of("parcel-van", "coupe", "yard-cart")) {
            Robot robot = new Robot(PanelBench.vehicle(name)).charging();
            robot.car.loop.inject("pack_voltage_v.short_low");
            robot.run(3000);
            String why = String.join(" ", Guide.of(robot.car).missing());
            if (robot.car.loop.supervisor().state().charge() == ChargePhase.CHARGING) {
                charging++;
                assertTrue(why.contains("No charge current is asked for: the pack shows 0.00 V"), name + ": " + why);
            } else {
                assertTrue(!why.isEmpty(), name + " neither charges nor says why");
            }
        }
        assertTrue(charging > 0, "no car goes on charging: this test shows nothing");
    }
}
