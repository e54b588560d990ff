package sprag.supervisor.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.supervisor.TestVehicle;
import sprag.supervisor.Wild;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

class InletTest {
    private static final int STALE_TICKS = 50;

    private final Readings in = new Readings();
    private final TickFacts facts = new TickFacts();
    private final Conditioned out = new Conditioned();
    private Debounce debounce;
    private Inlet inlet;

    InletTest() {
        for (int i = 1; i <= ChargerLines.MOST; i++) {
            in.set(Signal.valueOf("CHARGER_" + i + "_CURRENT_A"), 0);
            in.set(Signal.valueOf("CHARGER_" + i + "_VOLTAGE_V"), 350);
        }
        fit("type-2", 32);
    }

    private void fit(String kind, double maxA) {
        Settings settings = TestVehicle.full()
                .with(Parameter.INLET_KIND, Parameter.INLET_KIND.choices().indexOf(kind))
                .with(Parameter.INLET_MAX_A, maxA);
        debounce = new Debounce(settings);
        inlet = new Inlet(settings);
        unplug();
    }

    private void unplug() {
        give(0, 4.46, 0, 0);
    }

    /** A 32 A cable on a 16 A station. */
    private void plug() {
        give(1, Proximity.volts(220), 9, 16.0 / 60);
    }

    private void give(double plug, double proximityV, double peakV, double duty) {
        in.set(Signal.PLUG_PRESENT, plug);
        in.set(Signal.PROXIMITY_V, proximityV);
        in.set(Signal.PILOT_PEAK_V, peakV);
        in.set(Signal.PILOT_DUTY, duty);
    }

    private void run(int ticks) {
        for (int i = 0; i < ticks; i++) {
            inlet.update(in, new Commands(), facts, debounce, out);
        }
    }

    private void settled() {
        run(2 * STALE_TICKS + 2);
    }

    @Nested
    class Duty {
        /** Fluke FEV300 user manual, table 4, which quotes IEC 61851-1; the rows above 97 % and from 3 to 7 % from memory. */
        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                DUTY   | CURRENT_A | BECAUSE
                0      | 0         | steady low: the station is not available
                0.0299 | 0         | below 3 %: no charging
                0.03   | NaN       | from 3 % on: a digital talk is asked for
                0.05   | NaN       | the nominal 5 %
                0.07   | NaN       | the end of that band
                0.0701 | NaN       | between the bands: an error
                0.0799 | NaN       | still the error
                0.08   | 6         | published sample
                0.0999 | 6         | flat up to 10 %
                0.10   | 6         | published sample
                0.16   | 9.6       | 0.6 A a percent
                0.20   | 12        | published sample
                0.25   | 15        | published sample
                0.30   | 18        | published sample
                0.40   | 24        | published sample
                0.50   | 30        | published sample
                0.60   | 36        | published sample
                0.70   | 42        | published sample
                0.80   | 48        | published sample
                0.85   | 51        | the last of the lower slope
                0.8501 | 52.525    | the rule jumps here: 2.5 A a percent
                0.90   | 65        | published sample
                0.95   | 77.5      | published sample
                0.96   | 80        | published sample
                0.9601 | 80        | flat up to 97 %
                0.97   | 80        | published sample
                0.9701 | 0         | above 97 %: no charging
                1      | 0         | steady: the station is not ready yet
                1.01   | 0         | steady, as a noisy input reads it
                -0.01  | 0         | steady low, as a noisy input reads it
                -0.011 | NaN       | no duty
                1.011  | NaN       | no duty
                NaN    | NaN       | not a measurement
                Infinity | NaN     | not a measurement
                """)
        void duty_allowsThePublishedCurrent(double duty, double currentA, String because) {
            assertEquals(currentA, Inlet.dutyCurrentA(duty), 1e-9, because);
        }
    }

    @Nested
    class Pilot {
        /** Centres: TI TIDUF04 table 2-3; +-1 V: Siemens A5E42681298B-AA table 3-2. */
        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                PEAK_V | BEFORE     | LEVEL       | BECAUSE
                12     | SILENT     | UNLOADED    | state A
                11     | SILENT     | UNLOADED    | lower end of A
                10.9   | SILENT     | UNKNOWN     | between A and B
                10.9   | CONNECTED  | CONNECTED   | kept: comes from B
                10.9   | UNLOADED   | UNLOADED    | kept: comes from A
                10     | SILENT     | CONNECTED   | upper end of B
                9      | UNKNOWN    | CONNECTED   | state B
                8      | READY      | CONNECTED   | lower end of B
                7.99   | READY      | READY       | kept: comes from C
                7.99   | CONNECTED  | CONNECTED   | kept: comes from B
                7.99   | VENTILATED | UNKNOWN     | comes from neither
                7      | CONNECTED  | READY       | upper end of C
                6      | UNKNOWN    | READY       | state C
                5      | UNKNOWN    | READY       | lower end of C
                4.5    | READY      | READY       | kept: comes from C
                4      | READY      | VENTILATED  | upper end of D
                3      | SILENT     | VENTILATED  | state D
                2      | SILENT     | VENTILATED  | lower end of D
                1.5    | VENTILATED | VENTILATED  | kept: comes from D
                1      | VENTILATED | SILENT      | upper end of E
                0      | UNKNOWN    | SILENT      | state E
                -1     | UNKNOWN    | SILENT      | lower end of E
                -5     | SILENT     | UNKNOWN     | nothing is there
                -11    | UNKNOWN    | UNAVAILABLE | upper end of F
                -12    | UNKNOWN    | UNAVAILABLE | state F
                13.1   | SILENT     | UNKNOWN     | above A
                NaN    | READY      | UNKNOWN     | not a measurement
                Infinity | READY    | UNKNOWN     | not a measurement
                """)
        void peak_meansALevel(double peakV, PilotLevel before, PilotLevel expected, String because) {
            assertEquals(expected, PilotLevel.of(peakV, before), because);
        }

        /** 12 V through 1 kOhm and a diode of 0.7 V (from memory); the resistors from TI TIDUF04 and Siemens. */
        @Test
        void ownResistors_makeTheLevelsOfBAndC() {
            double ready = 1 / (1 / Inlet.PILOT_RESISTOR_OHM + 1 / Inlet.PILOT_READY_OHM);
            assertEquals(881.68, ready, 0.01);
            assertEquals(8.979, 0.7 + 11.3 * 2740 / 3740, 0.005);
            assertEquals(PilotLevel.CONNECTED, PilotLevel.of(0.7 + 11.3 * 2740 / 3740, PilotLevel.UNKNOWN));
            assertEquals(PilotLevel.READY, PilotLevel.of(0.7 + 11.3 * ready / (ready + 1000), PilotLevel.UNKNOWN));
        }
    }

    @Nested
    class Contact {
        /** University of Waterloo solar team wiki, printed voltages, within 0.03 V. */
        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                OHM      | PRINTED_V | MEANS
                Infinity | 4.46      | OPEN
                150      | 1.53      | LATCHED
                """)
        void typeOneResistor_givesThePrintedVoltage(double ohm, double printedV, Proximity means) {
            assertEquals(printedV, Proximity.volts(ohm), 0.03);
            assertEquals(means, Proximity.of(Proximity.volts(ohm), false));
            assertEquals(means, Proximity.of(printedV, false));
        }

        @Test
        void typeOneLatchButton_is480Ohm() {
            assertEquals(Proximity.BUTTON_PRESSED, Proximity.of(Proximity.volts(150 + 330), false));
        }

        /** Siemens A5E42681298B-AA table 3-3, resistors within 3 %. */
        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                OHM  | CABLE_A
                1500 | 13
                680  | 20
                220  | 32
                100  | 63
                """)
        void typeTwoResistor_codesTheCable(double ohm, double cableA) {
            for (double tolerance : new double[] {0.97, 1, 1.03}) {
                double volts = Proximity.volts(ohm * tolerance);
                assertEquals(cableA, Proximity.of(volts, true).cableA, ohm + " ohm * " + tolerance);
            }
        }

        /** Windows from memory of IEC 61851-1; both sides of each. */
        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                OHM  | MEANS      | BECAUSE
                79   | INVALID    | close to a short
                81   | CABLE_63_A | inside
                139  | CABLE_63_A | inside
                150  | INVALID    | a type-1 plug is no type-2 cable
                165  | CABLE_32_A | inside
                307  | CABLE_32_A | inside
                350  | INVALID    | between 32 and 20 A
                401  | CABLE_20_A | inside
                935  | CABLE_20_A | inside
                1000 | INVALID    | between 20 and 13 A
                1101 | CABLE_13_A | inside
                2459 | CABLE_13_A | inside
                2800 | INVALID    | neither a cable nor open
                0    | INVALID    | shorted to ground
                """)
        void typeTwoWindow_endsWhereItShould(double ohm, Proximity means, String because) {
            assertEquals(means, Proximity.of(Proximity.volts(ohm), true), because);
        }

        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                VOLTS | MEANS   | BECAUSE
                4.13  | OPEN    | the lower end of an open inlet
                4.12  | INVALID | below it
                4.78  | OPEN    | the upper end
                4.79  | INVALID | above it: a broken wire
                1.23  | LATCHED | the lower end of a type-1 plug
                1.22  | INVALID | below it
                1.82  | LATCHED | the upper end
                1.83  | INVALID | above it
                """)
        void window_holdsBothItsEnds(double volts, Proximity means, String because) {
            assertEquals(means, Proximity.of(volts, false), because);
        }

        @ParameterizedTest
        @ValueSource(doubles = {5.0, 4.79, Double.NaN, Double.POSITIVE_INFINITY, -1})
        void brokenWire_isNoOpenInlet(double volts) {
            assertEquals(Proximity.INVALID, Proximity.of(volts, true));
            assertEquals(Proximity.INVALID, Proximity.of(volts, false));
        }
    }

    @Nested
    class Plug {
        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                SWITCH | PROXIMITY_V | PEAK_V | SEEN  | BECAUSE
                0      | 4.46        | 0      | false | nothing is there
                0      | 4.46        | 1.0    | false | noise on an open pilot
                0      | 4.46        | -12    | false | no positive peak
                1      | 4.46        | 0      | true  | the switch alone
                0      | 1.9         | 0      | true  | proximity alone, the pilot is dead
                0      | 4.46        | 1.01   | true  | a pilot alone
                0      | 4.46        | 9      | true  | a pilot alone
                0      | 5.0         | 0      | true  | the wire of the contact is broken
                0      | 0           | 0      | true  | the wire of the contact is shorted
                NaN    | 4.46        | 0      | true  | the switch is unknown
                0.5    | 4.46        | 0      | true  | the switch is neither on nor off
                0      | NaN         | 0      | true  | the contact is unknown
                0      | 4.46        | NaN    | true  | the pilot is unknown
                0      | 4.46        | Infinity | true | the pilot makes no sense
                """)
        void anySign_isSeenInItsTick(double plug, double proximityV, double peakV, boolean seen, String because) {
            settled();
            assertFalse(facts.is(Fact.PLUG_SEEN));
            give(plug, proximityV, peakV, 0);
            run(1);
            assertEquals(seen, facts.is(Fact.PLUG_SEEN), because);
        }

        @Test
        void plugGone_isBelievedOnlyAfterTheStaleTime() {
            plug();
            settled();
            unplug();
            run(STALE_TICKS);
            assertTrue(facts.is(Fact.PLUG_SEEN), "500 ms after the last sign");
            run(1);
            assertFalse(facts.is(Fact.PLUG_SEEN), "one tick later");
        }

        @Test
        void plugRattles_isSeenAllTheTime() {
            for (int i = 0; i < 20; i++) {
                plug();
                run(1);
                unplug();
                run(STALE_TICKS);
                assertTrue(facts.is(Fact.PLUG_SEEN));
            }
        }
    }

    @Nested
    class Offer {
        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                KIND   | SWITCH | OHM      | PEAK_V | DUTY | MAX_A | ALLOWED_A | BECAUSE
                type-2 | 1      | 220      | 9      | 0.25 | 32    | 15        | the station is the least
                type-2 | 1      | 1500     | 6      | 0.50 | 32    | 13        | the cable is the least
                type-2 | 1      | 100      | 6      | 0.80 | 16    | 16        | the inlet is the least
                type-2 | 1      | 100      | 6      | 0.90 | 80    | 63        | the cable is the least
                type-1 | 1      | 150      | 6      | 0.50 | 80    | 30        | a type-1 cable belongs to the station
                type-1 | 1      | 480      | 6      | 0.50 | 80    | 0         | the latch button is pressed
                type-1 | 1      | 220      | 6      | 0.50 | 80    | 0         | no type-1 plug
                type-2 | 1      | 220      | 9      | 0.08 | 32    | 6         | the least offer
                type-2 | 1      | 220      | 9      | 0.05 | 32    | 0         | digital only
                type-2 | 1      | 220      | 9      | 1    | 32    | 0         | steady: not ready yet
                type-2 | 1      | 220      | 3      | 0.50 | 32    | 0         | asks for ventilation
                type-2 | 1      | 220      | 12     | 0.50 | 32    | 0         | the own resistor is missing
                type-2 | 1      | 220      | 0      | 0.50 | 32    | 0         | the pilot is dead
                type-2 | 0      | 220      | 9      | 0.50 | 32    | 0         | the plug switch says no
                type-2 | NaN    | 220      | 9      | 0.50 | 32    | 0         | the plug switch is unknown
                type-2 | 1      | Infinity | 9      | 0.50 | 32    | 0         | the contact sees no plug
                type-2 | 1      | NaN      | 9      | 0.50 | 32    | 0         | the contact is unknown
                type-2 | 1      | 220      | NaN    | 0.50 | 32    | 0         | the pilot is unknown
                type-2 | 1      | 220      | 9      | NaN  | 32    | 0         | the duty is unknown
                """)
        void allowedCurrent_isTheLeastOfAll(
                String kind, double plug, double ohm, double peakV, double duty, double maxA, double allowedA) {
            fit(kind, maxA);
            give(plug, Proximity.volts(ohm), peakV, duty);
            settled();
            assertEquals(allowedA, out.allowedAcA, 1e-9);
            assertEquals(allowedA > 0, facts.is(Fact.CHARGE_OFFERED));
        }

        @Test
        void offer_countsAfterTheStaleTimeAndEndsAtOnce() {
            plug();
            run(STALE_TICKS);
            assertFalse(facts.is(Fact.CHARGE_OFFERED), "not before it has lasted");
            run(1);
            assertTrue(facts.is(Fact.CHARGE_OFFERED));
            in.set(Signal.PILOT_DUTY, 1);
            run(1);
            assertFalse(facts.is(Fact.CHARGE_OFFERED));
            assertEquals(0, out.allowedAcA);
        }

        @Test
        void askingForPower_movesThePilotFromBToCWithoutLosingTheOffer() {
            plug();
            settled();
            for (double peakV = 9; peakV >= 6; peakV -= 0.1) {
                in.set(Signal.PILOT_PEAK_V, peakV);
                run(1);
                assertTrue(facts.is(Fact.CHARGE_OFFERED), "at " + peakV + " V");
            }
        }

        @Test
        void stationThrottles_countsInTheSameTick() {
            plug();
            settled();
            in.set(Signal.PILOT_DUTY, 0.1);
            run(1);
            assertEquals(6, out.allowedAcA, 1e-9);
        }
    }

    @Nested
    class Faults {
        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                OHM      | PEAK_V | DUTY | PILOT | PROXIMITY | MISSING | BECAUSE
                Infinity | 0      | 0    | false | false     | false   | nothing is there
                220      | 9      | 0.25 | false | false     | false   | all is well
                220      | 0      | 0    | false | false     | false   | a silent station is a wait
                220      | 9      | 1    | false | false     | false   | a steady 9 V is a wait
                220      | -12    | 0    | false | false     | false   | a station out of service is a wait
                220      | 6      | 0.05 | true  | false     | false   | digital only
                220      | 9      | 0.075 | true | false     | false   | an error duty
                220      | 9      | NaN  | true  | false     | false   | unknown duty
                220      | 3      | 0.25 | true  | false     | false   | ventilation was never asked for
                220      | 12     | 0.25 | true  | false     | false   | the own resistor is missing
                220      | 7.5    | 0.25 | true  | false     | false   | between two levels, from neither
                220      | NaN    | 0    | true  | false     | false   | unknown pilot
                2800     | 9      | 0.25 | false | true      | false   | no cable has this
                0        | 9      | 0.25 | false | true      | false   | shorted
                NaN      | 9      | 0.25 | false | true      | false   | unknown contact
                Infinity | 9      | 0.25 | false | false     | true    | a pilot but no plug at the contact
                """)
        void fault_isToldApart(
                double ohm,
                double peakV,
                double duty,
                boolean pilot,
                boolean proximity,
                boolean missing,
                String because) {
            give(1, Proximity.volts(ohm), peakV, duty);
            run(STALE_TICKS);
            assertFalse(facts.is(Fact.PILOT_INVALID), "not before it has lasted");
            assertFalse(facts.is(Fact.PROXIMITY_INVALID), "not before it has lasted");
            assertFalse(facts.is(Fact.PROXIMITY_MISSING), "not before it has lasted");
            run(1);
            assertEquals(pilot, facts.is(Fact.PILOT_INVALID), because);
            assertEquals(proximity, facts.is(Fact.PROXIMITY_INVALID), because);
            assertEquals(missing, facts.is(Fact.PROXIMITY_MISSING), because);
        }

        /** The car shows state D only while it asks for power, which ends in the tick in which D is seen. */
        @Test
        void ventilationAskedForOneTick_isRememberedLongEnoughToBeAFault() {
            plug();
            settled();
            in.set(Signal.PILOT_PEAK_V, 3);
            run(1);
            assertFalse(facts.is(Fact.CHARGE_OFFERED));
            in.set(Signal.PILOT_PEAK_V, 9);
            run(STALE_TICKS);
            assertTrue(facts.is(Fact.PILOT_INVALID));
            run(4 * STALE_TICKS);
            assertFalse(facts.is(Fact.PILOT_INVALID), "gone, so that the charge can be tried again");
        }

        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                COUNT | OK_1 | OK_2 | OK_3 | LOST  | BECAUSE
                1     | 1    | 0    | 0    | false | the only one is well
                1     | 0    | 1    | 1    | true  | the others do not exist
                2     | 0    | 1    | 0    | false | one is left
                2     | NaN  | 0    | 1    | true  | unknown is not well; the third does not exist
                3     | 0    | 0    | 1    | false | one is left
                3     | 0    | 0.5  | NaN  | true  | none says it is well
                """)
        void chargers_areLostWhenNoneIsWell(
                double count, double ok1, double ok2, double ok3, boolean lost, String because) {
            Settings settings = TestVehicle.full().with(Parameter.CHARGER_COUNT, count);
            debounce = new Debounce(settings);
            inlet = new Inlet(settings);
            in.set(Signal.CHARGER_1_OK, ok1);
            in.set(Signal.CHARGER_2_OK, ok2);
            in.set(Signal.CHARGER_3_OK, ok3);
            run(STALE_TICKS);
            assertFalse(facts.is(Fact.CHARGERS_LOST), "not before it has lasted");
            run(1);
            assertEquals(lost, facts.is(Fact.CHARGERS_LOST), because);
        }

        /** Whoever pulls at a plug is seen before its contacts part. */
        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                KIND   | SWITCH | OHM      | RELEASED | BECAUSE
                type-2 | 1      | 220      | false    | home
                type-2 | 1      | Infinity | true     | the contact is open
                type-2 | 0      | 220      | true     | the plug switch is off
                type-1 | 1      | 150      | false    | latched
                type-1 | 1      | 480      | true     | the latch button is pressed
                type-2 | NaN    | 220      | false    | an unknown switch lets nothing go
                """)
        void plugLetGo_isTold(String kind, double plug, double ohm, boolean released, String because) {
            fit(kind, 32);
            give(plug, Proximity.volts(ohm), 9, 0.25);
            settled();
            assertEquals(released, facts.is(Fact.PLUG_RELEASED), because);
        }

        @ParameterizedTest(name = "{arguments}")
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
                PEAK_V | MISSING | BECAUSE
                1.0    | false   | noise on a silent pilot
                1.01   | true    | a station is behind it
                """)
        void openContact_isMissingWhereAPilotIs(double peakV, boolean missing, String because) {
            give(1, Proximity.volts(Double.POSITIVE_INFINITY), peakV, 0);
            settled();
            assertEquals(missing, facts.is(Fact.PROXIMITY_MISSING), because);
        }

        @Test
        void latchButton_isNoFault() {
            fit("type-1", 32);
            give(1, Proximity.volts(480), 9, 0.25);
            settled();
            assertFalse(facts.is(Fact.PROXIMITY_INVALID));
        }
    }

    @Nested
    class PlainLead {
        private void fitPlain(String kind, Signal... missing) {
            Settings settings = TestVehicle.full()
                    .with(Parameter.INLET_KIND, Parameter.INLET_KIND.choices().indexOf(kind))
                    .with(Parameter.INLET_MAX_A, 10);
            for (Signal signal : missing) {
                settings = settings.without(signal);
            }
            debounce = new Debounce(settings);
            inlet = new Inlet(settings);
            lines(0);
        }

        private void lines(double well) {
            in.set(Signal.CHARGER_1_OK, well);
            in.set(Signal.CHARGER_2_OK, 0);
            in.set(Signal.CHARGER_3_OK, 0);
        }

        @ParameterizedTest
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            SWITCH | LINE | SEEN  | OFFERED | BECAUSE
            0      | 0    | false | false   | no lead
            0      | 1    | false | false   | the switch decides where there is one
            1      | 1    | true  | true    | a lead, and a charger that is well
            1      | 0    | true  | false   | a dead socket or a charger that has failed
            1      | NaN  | true  | false   | an unknown charger charges nothing
            NaN    | 1    | true  | false   | an unknown switch is a plug, and no offer
            """)
        void plainLeadWithSwitch_isSeenByIt(double plug, double line, boolean seen, boolean offered, String because) {
            fitPlain("plain");
            give(plug, Double.NaN, Double.NaN, Double.NaN);
            lines(line);
            settled();
            assertEquals(seen, facts.is(Fact.PLUG_SEEN), because);
            assertEquals(offered, facts.is(Fact.CHARGE_OFFERED), because);
            assertEquals(offered ? 10 : 0, out.allowedAcA, because);
            assertFalse(facts.is(Fact.PILOT_INVALID) || facts.is(Fact.PROXIMITY_INVALID), because);
        }

        @ParameterizedTest
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            LINE | SEEN  | OFFERED | BECAUSE
            0    | false | false   | no mains
            1    | true  | true    | a charger that is well has mains
            NaN  | true  | false   | an unknown line is a plug, and no offer
            """)
        void plainLeadWithoutSwitch_isSeenByTheLine(double line, boolean seen, boolean offered, String because) {
            fitPlain("plain", Signal.PLUG_PRESENT);
            give(0, 0, 0, 0);
            lines(line);
            settled();
            assertEquals(seen, facts.is(Fact.PLUG_SEEN), because);
            assertEquals(offered, facts.is(Fact.CHARGE_OFFERED), because);
        }

        @ParameterizedTest
        @CsvSource(useHeadersInDisplayName = true, delimiter = '|', textBlock = """
            AMPS | STANDS | TORQUE | SEEN  | BECAUSE
            -6   | 1      | 0      | true  | current into a standing car's pack comes from a lead
            -5   | 1      | 0      | false | up to contactor.open_a it may be a sensor's offset
            -6   | 0      | 0      | false | a rolling car may regenerate
            -6   | 1      | 1      | false | torque is asked for
            NaN  | 1      | 0      | false | an unknown current is told elsewhere and is no sign
            """)
        void current_whileTheSwitchSaysNoPlug(double amps, int stands, double nm, boolean seen, String because) {
            fitPlain("plain");
            give(0, 0, 0, 0);
            in.set(Signal.PACK_CURRENT_A, amps);
            facts.set(Fact.STANDSTILL, stands);
            Commands last = new Commands();
            last.set(Output.TORQUE_REQUEST_NM, nm);
            for (int i = 0; i <= STALE_TICKS; i++) {
                assertFalse(facts.is(Fact.PLUG_SEEN), "not before inlet.stale_ms: " + because);
                inlet.update(in, last, facts, debounce, out);
            }
            assertEquals(seen, facts.is(Fact.PLUG_SEEN), because);
        }

        @Test
        void plainLeadWithoutSwitch_lineOfAChargerBeyondTheCount_isNoLead() {
            fitPlain("plain", Signal.PLUG_PRESENT);
            in.set(Signal.CHARGER_2_OK, 1);
            settled();
            assertFalse(facts.is(Fact.PLUG_SEEN), "the car has one charger");
        }

        @ParameterizedTest(name = "switch {0}: let go {1}")
        @CsvSource({"0, true", "1, false", "NaN, false"})
        void plainLead_letGo_isTold(double plug, boolean released) {
            fitPlain("plain");
            give(plug, Double.NaN, Double.NaN, Double.NaN);
            lines(1);
            settled();
            assertEquals(released, facts.is(Fact.PLUG_RELEASED));
        }

        @Test
        void noInlet_nothingIsEverAPlug() {
            fitPlain("none", Signal.PLUG_PRESENT, Signal.CHARGER_1_OK, Signal.CHARGER_2_OK, Signal.CHARGER_3_OK);
            give(1, Double.NaN, 9, 0.5);
            in.set(Signal.PACK_CURRENT_A, -50);
            facts.set(Fact.STANDSTILL, true);
            settled();
            assertFalse(facts.is(Fact.PLUG_SEEN) || facts.is(Fact.CHARGE_OFFERED) || facts.is(Fact.CHARGERS_LOST));
        }

        /** A plug switch and chargers that the file lists all the same say nothing without an inlet. */
        @Test
        void noInlet_withAPlugSwitch_saysNothingEither() {
            fitPlain("none");
            give(1, Double.NaN, Double.NaN, Double.NaN);
            settled();
            assertFalse(facts.is(Fact.PLUG_SEEN) || facts.is(Fact.CHARGE_OFFERED) || facts.is(Fact.CHARGERS_LOST));
            assertTrue(facts.is(Fact.PLUG_RELEASED));
        }
    }

    @ParameterizedTest(name = "seed {0}")
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void anyReadings_neverAllowMoreThanTheLeast(long seed) {
        Random random = new Random(seed);
        for (int i = 0; i < 20_000; i++) {
            give(Wild.aSwitch(random), Wild.of(random, -1, 6), Wild.of(random, -15, 15), Wild.of(random, -0.1, 1.1));
            if (random.nextInt(4) == 0) {
                plug();
            }
            run(1 + random.nextInt(70));
            double dutyA = Inlet.dutyCurrentA(in.get(Signal.PILOT_DUTY));
            assertEquals(facts.is(Fact.CHARGE_OFFERED), out.allowedAcA > 0);
            if (out.allowedAcA != 0) {
                assertTrue(out.allowedAcA >= 6 && out.allowedAcA <= 32 && out.allowedAcA <= dutyA);
                assertTrue(facts.is(Fact.PLUG_SEEN) && in.isOn(Signal.PLUG_PRESENT));
            }
        }
    }
}
