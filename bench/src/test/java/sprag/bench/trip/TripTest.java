package sprag.bench.trip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import sprag.bench.trip.drive.EnergyAccount;
import sprag.bench.trip.drive.Range;
import sprag.bench.trip.drive.Ride;
import sprag.bench.trip.drive.TripResult;
import sprag.bench.trip.drive.TripRun;
import sprag.bench.trip.drive.TripSeries;
import sprag.bench.trip.drive.Weather;
import sprag.bench.trip.trace.SpeedTrace;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;

/** Trips against arithmetic that shares no code with the simulated car. */
class TripTest {
    private static final Set<EnergyAccount> BEHIND_THE_INVERTER = EnumSet.of(
            EnergyAccount.ROLLING,
            EnergyAccount.AIR,
            EnergyAccount.CLIMBING,
            EnergyAccount.BRAKES,
            EnergyAccount.GEAR,
            EnergyAccount.MOTOR,
            EnergyAccount.INVERTER,
            EnergyAccount.SPEED);

    private static Weather fine(Vehicle vehicle) {
        return new Weather(0.7, 21, 0, false, (int) vehicle.get(Parameter.REGEN_LEVELS));
    }

    private static TripResult drive(Vehicle vehicle, SpeedTrace trace, Weather weather) {
        return new TripRun(new Ride(vehicle, weather), trace).drive(() -> false);
    }

    private static double inverterJ(TripResult result) {
        return 3600
                * BEHIND_THE_INVERTER.stream().mapToDouble(result.energy()::wh).sum();
    }

    /** Accelerates within 30 s, keeps the speed, and ends at it. */
    private static SpeedTrace steady(double kph, double gradePercent, double forS) {
        double[] slopes = {gradePercent, gradePercent, gradePercent};
        return new SpeedTrace(
                "steady", "", new double[] {0, 30, 30 + forS}, new double[] {0, kph, kph}, slopes, new boolean[3]);
    }

    @ParameterizedTest
    @CsvSource({"parcel-van, 40, 0", "parcel-van, 80, 0", "parcel-van, 50, 2", "coupe, 120, 0", "yard-cart, 18, 0"})
    void constantSpeed_power_isThatOfRoadLoadArithmetic(String name, double kph, double grade) throws BadInput {
        Vehicle vehicle = Trips.vehicle(name);
        TripResult shorter = drive(vehicle, steady(kph, grade, 100), fine(vehicle));
        TripResult longer = drive(vehicle, steady(kph, grade, 200), fine(vehicle));
        double simulatedW = (inverterJ(longer) - inverterJ(shorter)) / 100;
        double expectedW = new BackwardModel(vehicle).inverterW(kph / 3.6, 0, grade);
        assertEquals(expectedW, simulatedW, 0.001 * expectedW);
    }

    /** The voltages of resting cells are those of the published curves that the cells of the simulated car follow, at 0.7. */
    @ParameterizedTest
    @CsvSource({"parcel-van, 80, 2, 3.318", "coupe, 120, 0, 3.82", "yard-cart, 18, 4, 3.318"})
    void constantSpeed_voltageUnderLoad_isThatOfOhmsLaw(String name, double kph, double grade, double openCellV)
            throws BadInput {
        Vehicle vehicle = Trips.vehicle(name);
        SpeedTrace trace = steady(kph, grade, 120);
        TripResult result = drive(vehicle, trace, fine(vehicle));
        TripSeries series = result.series();
        int last = 0;
        while (last + 1 < series.size() && series.timeS(last + 1) < trace.endS() - 2) {
            last++;
        }
        double otherW = 3600
                * (result.energy().wh(EnergyAccount.LOW_VOLTAGE)
                        + result.energy().wh(EnergyAccount.BUS))
                / trace.endS();
        BackwardModel model = new BackwardModel(vehicle);
        double powerW = model.inverterW(kph / 3.6, 0, grade) + otherW;
        double expectedV = model.packV(powerW, openCellV);
        double droppedV = openCellV * vehicle.get(Parameter.PACK_CELLS) - expectedV;
        assertEquals(expectedV, series.value(TripSeries.Column.PACK_V, last), 0.01 * expectedV);
        assertTrue(droppedV > 0.01 * expectedV, "a load that the voltage shows: " + droppedV);
    }

    @ParameterizedTest
    @CsvSource({"parcel-van, udds", "coupe, udds", "coupe, wltc3b"})
    void knownTrace_consumption_isThatOfABackwardModel(String name, String trace) throws BadInput {
        // The van's own limit of 90 km/h is just below the top of the trace.
        Vehicle vehicle = Trips.vehicle(name).with(Parameter.DRIVE_MAX_KPH, 150);
        SpeedTrace follows = Trips.shipped(trace);
        TripResult result = drive(vehicle, follows, fine(vehicle));
        double otherWh =
                result.energy().wh(EnergyAccount.LOW_VOLTAGE) + result.energy().wh(EnergyAccount.BUS);
        double openCellV = vehicle.is(Parameter.PACK_CHEMISTRY, "lfp") ? 3.318 : 3.82;
        BackwardModel model = new BackwardModel(vehicle).follow(follows, 3600 * otherWh / follows.endS(), openCellV);
        assertTrue(result.keeping().kept(), "outside for " + result.keeping().outsideS + " s");
        assertEquals(follows.distanceM(), 1000 * result.km(), 0.002 * follows.distanceM());
        assertEquals(model.inverterJ, inverterJ(result), 0.01 * model.inverterJ, "at the inverter");
        assertEquals(model.cellsJ, result.energy().cellsJ(), 0.01 * model.cellsJ, "at the cells");
        // 0.001 is asked for; a millionth is seen, and the smallest account takes some ten thousandths
        assertEquals(0, result.energy().unexplainedShare(), 0.00001, "the accounts close");
        assertEquals(
                result.energy().cellsJ() / 3600,
                Arrays.stream(EnergyAccount.values())
                        .mapToDouble(result.energy()::wh)
                        .sum(),
                0.00001 * result.energy().drawnJ() / 3600);
    }

    /** The loads of the 12 V side and no more: the battery is as full at the end of a trip as at its start. */
    @ParameterizedTest
    @CsvSource({"parcel-van, 60", "parcel-van, 600", "coupe, 60"})
    void lowVoltageSide_tripOfAnyLength_takesWhatItsLoadsTake(String name, double forS) throws BadInput {
        Vehicle vehicle = Trips.vehicle(name);
        SpeedTrace trace = steady(50, 0, forS);
        double loadA = vehicle.get(CarParameter.LV_AWAKE_A) + 2 * vehicle.get(CarParameter.BOX_COIL_A);
        double expectedW = loadA * vehicle.get(CarParameter.LV_DCDC_V) / vehicle.get(CarParameter.LV_DCDC_EFFICIENCY);
        double takenWh = drive(vehicle, trace, fine(vehicle)).energy().wh(EnergyAccount.LOW_VOLTAGE);
        assertEquals(expectedW, 3600 * takenWh / trace.endS(), 0.08 * expectedW);
    }

    /** Both cars stop from 50 km/h with little brake; the lever is pulled, the level of a released pedal is 0. */
    @Test
    void leverForRegeneration_stop_isPulledBeforeTheBrakeIsPressed() throws BadInput {
        Vehicle car = Trips.kind("regen-lever");
        double[] flat = new double[4];
        SpeedTrace stop = new SpeedTrace(
                "stop", "", new double[] {0, 20, 40, 60}, new double[] {0, 50, 50, 0}, flat, new boolean[4]);
        Weather coasting = new Weather(0.7, 21, 0, false, 0);
        TripResult lever = drive(car, stop, coasting);
        TripResult none = drive(car.with(Parameter.REGEN_BY, 0), stop, coasting);
        double motionWh = car.get(CarParameter.BODY_MASS_KG) * 50 * 50 / 3.6 / 3.6 / 2 / 3600;
        assertTrue(lever.keeping().kept() && none.keeping().kept());
        assertTrue(lever.energy().wh(EnergyAccount.BRAKES) < 0.1 * motionWh, "the lever slows it nearly alone");
        assertTrue(none.energy().wh(EnergyAccount.BRAKES) > 0.5 * motionWh, "the brake must do it");
        assertTrue(lever.energy().givenBackJ() > 0.4 * 3600 * motionWh, "motion comes back, less its losses");
    }

    @Test
    void carWithoutInlet_chargeAfterwards_isSaidToBeNone() throws BadInput {
        Vehicle cart = Trips.kind("pack-taken-out");
        TripReport report = TripReport.of(cart, fine(cart), steady(15, 0, 30), () -> false);
        assertTrue(
                report.charging().trouble().contains("inlet.kind = \"none\""),
                report.charging().trouble());
    }

    @Test
    void winter_windAndLoad_eachTakeMore() throws BadInput {
        Vehicle van = Trips.vehicle("parcel-van");
        SpeedTrace trace = steady(60, 0, 120);
        Weather fine = fine(van);
        double plain = drive(van, trace, fine).cellsWhPerKm();
        double cold = drive(van, trace, new Weather(0.7, -10, 0, false, 3)).cellsWhPerKm();
        double wind = drive(van, trace, new Weather(0.7, 21, 20, false, 3)).cellsWhPerKm();
        double behind = drive(van, trace, new Weather(0.7, 21, -20, false, 3)).cellsWhPerKm();
        double heater = drive(van, trace, new Weather(0.7, 21, 0, true, 3)).cellsWhPerKm();
        double load =
                drive(van.with(CarParameter.BODY_MASS_KG, 1950), trace, fine).cellsWhPerKm();
        assertTrue(cold > plain && wind > plain && heater > plain && load > plain && behind < plain);
    }

    /** 20 km/h against 60: the air pushes with (80/60) squared. */
    @Test
    void headwind_air_takesTheSquareOfTheSpeedThroughIt() throws BadInput {
        Vehicle van = Trips.vehicle("parcel-van");
        double[] wh = new double[2];
        for (int i = 0; i < 2; i++) {
            Weather weather = new Weather(0.7, 21, 20 * i, false, 3);
            double shorter = drive(van, steady(60, 0, 60), weather).energy().wh(EnergyAccount.AIR);
            wh[i] = drive(van, steady(60, 0, 120), weather).energy().wh(EnergyAccount.AIR) - shorter;
        }
        assertEquals(16.0 / 9, wh[1] / wh[0], 0.002);
    }

    @Test
    void cart_fasterTrace_isToldAsNotKept() throws BadInput {
        Vehicle cart = Trips.vehicle("yard-cart");
        TripResult trip = drive(cart, steady(50, 0, 60), fine(cart));
        TripReport report = new TripReport(cart, fine(cart), trip, null, null);
        assertFalse(report.well());
        assertTrue(
                report.warnings().stream().anyMatch(line -> line.contains("drive.max_kph")),
                report.warnings()::toString);
        assertTrue(trip.keeping().outsideAtFullPedalS > 20);
    }

    @Test
    void lowPack_trip_isLimitedAndNotKept() throws BadInput {
        Vehicle van = Trips.vehicle("parcel-van");
        TripResult result = drive(van, steady(60, 3, 300), fine(van).withSoc(0.01));
        assertFalse(result.keeping().kept());
        assertTrue(
                result.limits().all().containsKey(Interlock.PACK_LOW),
                result.limits().all()::toString);
    }

    @Test
    void emptyPack_trip_endsWithTheReason() throws BadInput {
        Vehicle van = Trips.vehicle("parcel-van");
        TripResult result = drive(van, steady(60, 3, 60), fine(van).withSoc(0));
        assertFalse(result.complete());
        assertTrue(result.drive().ended().contains("not ready"), result.drive().ended());
        assertTrue(Double.isNaN(result.cellsWhPerKm()));
    }

    @ParameterizedTest
    @CsvSource({"-0.001, 0.0", "-0.06, -0.1", "0, 0.0", "NaN, unknown", "Infinity, unknown"})
    void figure_nearNothing_hasNoMinus(double value, String text) {
        assertEquals(text, Say.number(value, 1));
    }

    @Test
    void coldPack_chargeAfterwards_tellsWhyItDoesNotBegin() throws BadInput {
        Vehicle coupe = Trips.vehicle("coupe");
        Weather frost = new Weather(0.9, -15, 0, false, 4);
        TripReport report = TripReport.of(coupe, frost, steady(50, 0, 30), () -> false);
        assertTrue(
                report.charging().trouble().contains("does not allow current into the pack"),
                report.charging().trouble());
        assertTrue(Double.isNaN(report.wallWhPerKm()));
        assertTrue(report.leftOut().stream().anyMatch(line -> line.contains("100 %")), report.leftOut()::toString);
    }

    /** The coupe asks for so little here that it keeps the trace until the cells are empty; the limits hold back before. */
    @Test
    void traceThatAsksForLittle_range_endsWhereThePackFirstStaysLow() throws BadInput {
        Vehicle coupe = Trips.vehicle("coupe");
        TripReport report = TripReport.of(coupe, fine(coupe).withSoc(0.9), Trips.shipped("udds"), () -> false);
        assertTrue(report.range().emptySoc() > 0.002 && report.range().emptySoc() < 0.05, report.range()::toString);
        assertEquals(Interlock.PACK_LOW.cause.toString(), report.range().because());
    }

    /** Between 0.4 and 0.9 a cell of this kind has 3.3 V, within 1 %. */
    @Test
    void range_fromAnotherCharge_leavesOutWhatLiesBelowItsEnd() throws BadInput {
        Range whole = new Range(1, 0.4, 16_600, 11_000, 166, "");
        Range range = whole.from(Trips.vehicle("parcel-van"), 0.9, 100);
        assertEquals(0.5 * 30 * 280 * 3.3, range.usableWh(), 0.01 * 0.5 * 30 * 280 * 3.3);
        assertEquals(range.usableWh() / 100, range.km(), 1e-9);
    }

    /** Cold cells sag at each full pedal. That is no end of the range while the car follows the trace. */
    @ParameterizedTest
    @CsvSource({"parcel-van, udds", "parcel-van, commute"})
    void coldPack_range_goesOnWhileTheTraceIsKept(String name, String trace) throws BadInput {
        Vehicle vehicle = Trips.vehicle(name);
        TripReport report =
                TripReport.of(vehicle, new Weather(0.9, -10, 0, false, 3), Trips.shipped(trace), () -> false);
        double wholeWh = report.range().usableWh() + report.range().reserveWh();
        assertTrue(report.trip().charge().endSoc() > report.range().emptySoc(), "the trip itself was driven");
        assertTrue(report.range().usableWh() > 0.7 * wholeWh, report.range()::toString);
    }

    @Test
    void report_range_isUsableEnergyOverConsumptionAndChargeRefillsIt() throws BadInput {
        Vehicle van = Trips.vehicle("parcel-van");
        TripReport report = TripReport.of(van, fine(van).withSoc(0.9), steady(70, 0, 300), () -> false);
        Range range = report.range();
        assertEquals(range.usableWh() / report.trip().cellsWhPerKm(), range.km(), 1e-9);
        assertTrue(range.emptySoc() > 0 && range.emptySoc() < 0.2, "empty at " + range.emptySoc());
        assertTrue(range.fullSoc() > 0.95, "full at " + range.fullSoc());
        // almost empty cells stand between 2.5 and 3.2 V
        double belowAh = 280 * range.emptySoc();
        assertTrue(
                range.reserveWh() > 2.5 * 30 * belowAh && range.reserveWh() < 3.2 * 30 * belowAh,
                range.reserveWh() + " Wh below " + range.emptySoc());
        // 30 cells of 280 Ah at about 3.3 V
        assertEquals(30 * 280 * 3.3, range.usableWh() + range.reserveWh(), 0.03 * 30 * 280 * 3.3);
        // efficiency of the chargers 0.92, then the resistance of the cells
        assertTrue(
                report.charging().wallPerCells() > 1 / 0.92 && report.charging().wallPerCells() < 1.25);
        assertEquals("", report.charging().trouble());
    }
}
