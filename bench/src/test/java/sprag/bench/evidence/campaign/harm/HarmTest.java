package sprag.bench.evidence.campaign.harm;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.car.FaultSpec;
import sprag.bench.car.Lever;
import sprag.bench.car.simulation.SimulatedCar;
import sprag.bench.evidence.campaign.play.ReferenceRun;
import sprag.bench.evidence.campaign.play.SupervisedRig;
import sprag.bench.vehicle.Catalogue;
import sprag.bench.vehicle.Vehicle;
import sprag.bench.vehicle.VehicleReader;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;

/** Every hazard has a judge; each judge acts when it must, and none acts on a sound day. */
class HarmTest {
    private static final double NM = 0.8;

    @Test
    void everyHazardOfThePage_hasAJudge() throws Exception {
        String page = Files.readString(Catalogue.installed().home().resolve("docs/hazards.md"));
        TreeSet<String> hazards = Pattern.compile("^\\| (H\\d\\d) ", Pattern.MULTILINE)
                .matcher(page)
                .results()
                .map(r -> r.group(1))
                .collect(Collectors.toCollection(TreeSet::new));
        assertTrue(hazards.size() >= 18, hazards + "");
        assertEquals(
                hazards,
                Arrays.stream(Harm.values()).map(h -> h.hazard).collect(Collectors.toCollection(TreeSet::new)));
    }

    @ParameterizedTest
    @ValueSource(strings = {"parcel-van", "coupe", "yard-cart"})
    void soundDay_ofAShippedVehicle_isHarmToNobody(String name) throws Exception {
        Vehicle vehicle = VehicleReader.read(Catalogue.installed().vehicle(name));
        for (boolean charging : new boolean[] {false, true}) {
            HarmMeter sound = new ReferenceRun(vehicle, SupervisedRig.of(vehicle, null, null, 1), charging).harm;
            List<Double> amounts = sound.beyond(sound);
            List<String> harms = Arrays.stream(Harm.values())
                    .filter(h -> amounts.get(h.ordinal()) > h.limit(vehicle))
                    .map(h -> h.key() + " " + amounts.get(h.ordinal()))
                    .toList();
            assertEquals(List.of(), harms);
        }
    }

    /** A car without a supervisor: what a test commands is what the relays get. */
    private static final class Bare {
        private final Vehicle vehicle;
        private final SimulatedCar car;
        private final Commands commands = new Commands();
        private final HarmMeter meter;
        private double expectedNm;

        Bare(Vehicle vehicle) {
            this.vehicle = vehicle;
            car = new SimulatedCar(vehicle, 1);
            meter = new HarmMeter(vehicle, car);
        }

        Bare lever(Lever lever, double to) {
            car.levers().set(lever, to);
            return this;
        }

        Bare fault(String fault) {
            car.faults().inject(FaultSpec.parse(fault, vehicle));
            return this;
        }

        Bare set(Output output, double to) {
            commands.set(output, to);
            return this;
        }

        Bare pass(double seconds) {
            for (int tick = 0; tick < seconds * 100; tick++) {
                commands.set(Output.HEARTBEAT, tick % 2);
                car.command(commands, 0);
                car.advance(0.01);
                meter.look(commands, expectedNm);
            }
            return this;
        }

        /** As a start does it: through the resistor first. */
        Bare closed() {
            lever(Lever.KEY, 1).lever(Lever.START, 1).set(Output.NEGATIVE_CONTACTOR, 1);
            set(Output.PRECHARGE_RELAY, 1).pass(2).lever(Lever.START, 0);
            return set(Output.POSITIVE_CONTACTOR, 1)
                    .pass(0.1)
                    .set(Output.PRECHARGE_RELAY, 0)
                    .pass(0.1);
        }

        Bare torque(double share) {
            set(Output.INVERTER_ENABLE, 1).pass(0.3);
            return set(Output.TORQUE_REQUEST_NM, share * vehicle.get(Parameter.DRIVE_TORQUE_NM));
        }

        Bare open() {
            set(Output.TORQUE_REQUEST_NM, 0).set(Output.NEGATIVE_CONTACTOR, 0);
            return set(Output.POSITIVE_CONTACTOR, 0).set(Output.PRECHARGE_RELAY, 0);
        }

        Bare charging() {
            lever(Lever.PLUG, 1).set(Output.CHARGER_ENABLE, 1).set(Output.CHARGER_1_LIMIT_A, 40);
            return set(Output.CHARGE_VOLTAGE_LIMIT_V, vehicle.get(Parameter.PACK_MAX_V))
                    .pass(6);
        }
    }

    /** What brings one harm about. Where a step is only there to set the scene, it does no harm of that kind. */
    private static Bare provoke(Harm harm, Bare bare) {
        return switch (harm) {
            case UNASKED_TORQUE, UNASKED_MOTION ->
                bare.closed().lever(Lever.DIRECTION, 1).torque(NM).pass(2);
            case TETHERED_MOTION ->
                bare.closed().lever(Lever.PLUG, 1).torque(NM).pass(2);
            case AGAINST_ROLLING ->
                bare.closed()
                        .lever(Lever.SPEED_KPH, 40)
                        .lever(Lever.DIRECTION, -1)
                        .torque(-NM)
                        .pass(1);
            case WRONG_WAY ->
                bare.closed()
                        .lever(Lever.DIRECTION, 1)
                        .lever(Lever.PEDAL, 0.5)
                        .torque(-NM)
                        .pass(2);
            case MOTOR_BRAKING ->
                bare.closed()
                        .lever(Lever.DIRECTION, 1)
                        .lever(Lever.SPEED_KPH, 50)
                        .lever(Lever.PEDAL, 0.5)
                        .torque(-NM)
                        .pass(1);
            case DRIVE_LOST_UNTOLD -> {
                bare.expectedNm = bare.vehicle.get(Parameter.DRIVE_TORQUE_NM) / 2;
                bare.closed()
                        .lever(Lever.DIRECTION, 1)
                        .lever(Lever.SPEED_KPH, 70)
                        .set(Output.READY_LAMP, 1);
                yield bare.pass(4);
            }
            case POLES_LEFT_CLOSED -> bare.closed().lever(Lever.KEY, 0).pass(7);
            case BUS_LEFT_LIVE -> bare.closed().open().lever(Lever.KEY, 0).pass(1);
            case ISOLATION_UNTOLD -> bare.closed().fault("isolation.low").pass(11);
            case CONTACT_ARC -> {
                bare.closed()
                        .lever(Lever.DIRECTION, 1)
                        .lever(Lever.SPEED_KPH, 60)
                        .torque(1)
                        .pass(1);
                yield bare.open().pass(0.2);
            }
            case INRUSH ->
                bare.lever(Lever.KEY, 1)
                        .set(Output.NEGATIVE_CONTACTOR, 1)
                        .set(Output.POSITIVE_CONTACTOR, 1)
                        .pass(0.2);
            case RESISTOR_HOT ->
                bare.fault("bus.shorted")
                        .lever(Lever.KEY, 1)
                        .set(Output.NEGATIVE_CONTACTOR, 1)
                        .set(Output.PRECHARGE_RELAY, 1)
                        .pass(8);
            case PACK_OVER, CELL_OVER ->
                bare.lever(Lever.SOC, 1)
                        .closed()
                        .fault("cell.high")
                        .lever(Lever.SPEED_KPH, 100)
                        .torque(-1)
                        .pass(4);
            case CELL_UNDER ->
                bare.lever(Lever.SOC, 0.02)
                        .closed()
                        .fault("cell.low")
                        .lever(Lever.SPEED_KPH, 40)
                        .torque(NM)
                        .pass(4);
            case PACK_OVERLOADED ->
                bare.closed().lever(Lever.SPEED_KPH, 60).torque(1).pass(4);
            case CHARGED_COLD_HOT ->
                bare.lever(Lever.PACK_TEMP_C, -20)
                        .closed()
                        .lever(Lever.SPEED_KPH, 100)
                        .torque(-NM)
                        .pass(4);
            case PLUG_ARC -> bare.closed().charging().lever(Lever.PLUG, 0).pass(0.1);
            case CABLE_OVERLOADED ->
                bare.lever(Lever.CABLE_A, 13)
                        .fault("charger_1.ignores_limit")
                        .closed()
                        .charging()
                        .pass(6);
            case PART_OVERHEATED -> bare.lever(Lever.MOTOR_TEMP_C, 200).pass(0.1);
            case HEATER_HOT -> bare.lever(Lever.HEATER_TEMP_C, 150).pass(0.1);
            case CLOSED_ON_LOW_12V -> bare.closed().fault("lv_supply.dip").pass(2);
            case CANNOT_OPEN ->
                bare.closed()
                        .fault("negative_contactor.welded")
                        .fault("positive_contactor.welded")
                        .open()
                        .pass(2);
            case SELF_ENERGISED ->
                bare.lever(Lever.KEY, 1)
                        .set(Output.NEGATIVE_CONTACTOR, 1)
                        .set(Output.PRECHARGE_RELAY, 1)
                        .pass(0.2);
            case LAMP_DARK ->
                bare.closed()
                        .lever(Lever.DIRECTION, 1)
                        .lever(Lever.SPEED_KPH, 50)
                        .torque(-NM)
                        .pass(1);
            case BUS_OVER, OVERSPEED -> bare.lever(Lever.SPEED_KPH, 250).pass(0.5);
            case ROLLED_AWAY -> bare.lever(Lever.GRADE_PERCENT, -10).pass(3);
        };
    }

    private static Bare coupe(Harm harm) throws Exception {
        Vehicle coupe = VehicleReader.read(Catalogue.installed().vehicle("coupe"));
        if (harm == Harm.PACK_OVERLOADED) {
            coupe = coupe.with(Parameter.PACK_DISCHARGE_MAX_A, 20);
        }
        if (harm == Harm.CABLE_OVERLOADED) {
            coupe = coupe.with(
                    Parameter.INLET_KIND, Parameter.INLET_KIND.choices().indexOf("type-2"));
        }
        return new Bare(coupe);
    }

    @ParameterizedTest
    @EnumSource(Harm.class)
    void harm_provoked_isJudged(Harm harm) throws Exception {
        Bare bare = provoke(harm, coupe(harm));
        double amount = bare.meter.amount(harm);
        assertTrue(amount > harm.limit(bare.vehicle), harm + " " + amount + " of " + harm.limit(bare.vehicle));
    }

    @ParameterizedTest
    @EnumSource(Harm.class)
    void carThatStands_withEverythingReleased_isNotJudged(Harm harm) throws Exception {
        Bare bare = coupe(harm).pass(1);
        assertTrue(bare.meter.amount(harm) <= harm.limit(bare.vehicle), harm + " " + bare.meter.amount(harm));
    }

    @ParameterizedTest
    @EnumSource(Harm.class)
    void everyLimit_hasASourceAndAUnit(Harm harm) throws Exception {
        assertTrue(harm.limit(coupe(harm).vehicle) >= 0 && !harm.source.isBlank() && !harm.unit.isBlank());
    }
}
