package sprag.bench.review.sizing;

import static sprag.bench.review.finding.Weight.CAUTION;
import static sprag.bench.review.finding.Weight.STOP;
import static sprag.bench.vehicle.CarParameter.BOX_BOUNCE_MS;
import static sprag.bench.vehicle.CarParameter.BOX_RELAY_CLOSE_MS;
import static sprag.bench.vehicle.CarParameter.BOX_RELEASE_MS;
import static sprag.bench.vehicle.CarParameter.LV_DCDC_MIN_V;
import static sprag.bench.vehicle.CarParameter.PARTS_BLEED_OHM;
import static sprag.bench.vehicle.CarParameter.PARTS_LEFT_ON_W;
import static sprag.bench.vehicle.SizingParameter.CONTACTS_MAKES_A;
import static sprag.bench.vehicle.SizingParameter.CONTACTS_RELAY_BREAKS_A;
import static sprag.bench.vehicle.SizingParameter.RESISTOR_LASTING_W;
import static sprag.bench.vehicle.SizingParameter.RESISTOR_PULSE_J;
import static sprag.bench.vehicle.SizingParameter.RESISTOR_RATED_V;
import static sprag.supervisor.vocabulary.Parameter.BUS_BLEED_MS;
import static sprag.supervisor.vocabulary.Parameter.BUS_CAPACITANCE_UF;
import static sprag.supervisor.vocabulary.Parameter.BUS_DISCHARGED_V;
import static sprag.supervisor.vocabulary.Parameter.CONTACTOR_WELD_TEST_MS;
import static sprag.supervisor.vocabulary.Parameter.LOOP_TICK_MS;
import static sprag.supervisor.vocabulary.Parameter.PACK_MAX_V;
import static sprag.supervisor.vocabulary.Parameter.PACK_MIN_V;
import static sprag.supervisor.vocabulary.Parameter.PRECHARGE_COOLING_S;
import static sprag.supervisor.vocabulary.Parameter.PRECHARGE_DONE_FRACTION;
import static sprag.supervisor.vocabulary.Parameter.PRECHARGE_ENERGY_J;
import static sprag.supervisor.vocabulary.Parameter.PRECHARGE_FAST_MS;
import static sprag.supervisor.vocabulary.Parameter.PRECHARGE_FLAT_FRACTION;
import static sprag.supervisor.vocabulary.Parameter.PRECHARGE_RESISTANCE_OHM;
import static sprag.supervisor.vocabulary.Parameter.PRECHARGE_STALL_MS;
import static sprag.supervisor.vocabulary.Parameter.PRECHARGE_TIMEOUT_MS;

import java.util.List;
import sprag.bench.review.formula.Precharge;
import sprag.bench.vehicle.Tolerance;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.BusRise;

/** Charging the bus through the resistor, and letting it bleed down again. */
final class PrechargeCalculations {
    private static final String RC = "first-order charge of a capacitor";

    private final Vehicle vehicle;

    PrechargeCalculations(Vehicle vehicle) {
        this.vehicle = vehicle;
    }

    List<Calculation> all() {
        return List.of(
                time(),
                stall(),
                tooFast(),
                restartTooFast(),
                weldTest(),
                peakCurrent(),
                pulseEnergy(),
                energyBudget(),
                attempts(),
                repeatedHeat(),
                shortedBus(),
                resistorVoltage(),
                finalShare(),
                leftOnRoom(),
                inrush(),
                bleedDown());
    }

    private Calculation sum(String id, String title) {
        return new Calculation(vehicle, id, title);
    }

    /** The parts at an end of their tolerances: the slowest bus there may be (+1), or the fastest (-1). */
    private static Precharge.Bus bus(Calculation sum, int end) {
        double resistance = 1 + end * sum.in(Tolerance.RESISTANCE);
        double capacitance = 1 + end * sum.in(Tolerance.CAPACITANCE);
        return new Precharge.Bus(
                sum.in(PRECHARGE_RESISTANCE_OHM) * resistance,
                sum.in(BUS_CAPACITANCE_UF) * 1e-6 * capacitance,
                sum.in(PARTS_BLEED_OHM) * (1 - end * sum.in(Tolerance.RESISTANCE)),
                sum.in(PARTS_LEFT_ON_W),
                sum.in(LV_DCDC_MIN_V));
    }

    /** The done fraction as the readings may show it: more than the true share (+1), or less (-1). */
    private static double threshold(Calculation sum, int end) {
        return sum.in(PRECHARGE_DONE_FRACTION) * (1 + end * sum.in(Tolerance.VOLTAGE));
    }

    /** The main contactor closes when the bus has reached the threshold and rises no faster than the flat limit. */
    private Calculation time() {
        Calculation sum = sum("precharge-time", "the longest time that sound parts take to charge the bus");
        Precharge.Bus bus = bus(sum, 1);
        double tickMs = sum.in(LOOP_TICK_MS);
        double flat = Precharge.flatShare(bus, sum.in(PRECHARGE_FLAT_FRACTION));
        double threshold = threshold(sum, 1);
        double relayMs = sum.in(BOX_RELAY_CLOSE_MS) * (1 + sum.in(Tolerance.TIMES)) + sum.in(BOX_BOUNCE_MS);
        double samplesMs = (flat > threshold ? 2 + BusRise.SLOPE_TICKS : 2) * tickMs;
        double seconds = Precharge.secondsToShare(sum.in(PACK_MIN_V), bus, 0, Math.max(threshold, flat));
        return sum.formula(
                        "relay time + R C ln(1 / (1 - done fraction)) + samples, with bleed, loads left on, and every"
                                + " part at the slow end of its tolerance")
                .gives(relayMs + seconds * 1000 + samplesMs, "ms")
                .atMost("precharge.timeout_ms", sum.in(PRECHARGE_TIMEOUT_MS))
                .about(PRECHARGE_TIMEOUT_MS)
                .otherwise(STOP, "starts with sound parts would end in a fault")
                .source(RC + "; tolerances as declared in [tolerance], common practice where they are not");
    }

    /** The supervisor calls a bus stalled that rises more slowly than this below the threshold ({@link BusRise}). */
    private Calculation stall() {
        Calculation sum = sum("precharge-called-stalled", "the slowest sound rise just below the threshold");
        double packV = sum.in(PACK_MIN_V);
        Precharge.Bus bus = bus(sum, 1);
        double nominalS = sum.in(PRECHARGE_RESISTANCE_OHM) * sum.in(BUS_CAPACITANCE_UF) * 1e-6;
        double limitPerS =
                BusRise.stallPerS(sum.in(PRECHARGE_FLAT_FRACTION), sum.in(PRECHARGE_DONE_FRACTION), nominalS);
        double slopeVPerS = bus.slope(packV, threshold(sum, 1) * packV);
        return sum.formula("slope at the threshold, every part at the slow end of its tolerance")
                .gives(slopeVPerS, "V/s")
                .atLeast("what the supervisor takes for a stalled bus", limitPerS * packV)
                .about(PRECHARGE_DONE_FRACTION)
                .otherwise(CAUTION, "after precharge.stall_ms a sound start would be broken off")
                .source(RC + "; the supervisor's own limit");
    }

    private Calculation tooFast() {
        Calculation sum =
                sum("precharge-called-too-fast", "the shortest time that sound parts take to charge an empty bus");
        return fastest(sum, 0, "from an empty bus");
    }

    /** A car that is started again at once begins with whatever the weld test still lets pass. */
    private Calculation restartTooFast() {
        Calculation sum =
                sum("precharge-restart-too-fast", "the shortest time that sound parts take after a short stop");
        return fastest(
                sum, sum.in(BUS_DISCHARGED_V), "from bus.discharged_v, the most that may be left of the last run");
    }

    private static Calculation fastest(Calculation sum, double fromV, String words) {
        double seconds = Precharge.secondsToShare(sum.in(PACK_MIN_V), bus(sum, -1), fromV, threshold(sum, -1));
        return sum.formula("R C ln(1 / (1 - done fraction)) " + words
                        + ", every part at the fast end of its tolerance, less a sample")
                .gives(seconds * 1000 - sum.in(LOOP_TICK_MS), "ms")
                .atLeast("precharge.fast_ms", sum.in(PRECHARGE_FAST_MS))
                .about(PRECHARGE_FAST_MS)
                .otherwise(STOP, "a sound bus would be taken for one without capacitors")
                .source(RC + "; tolerances as declared in [tolerance], common practice where they are not");
    }

    private static double leastOhm(Calculation sum) {
        return sum.in(PRECHARGE_RESISTANCE_OHM) * (1 - sum.in(Tolerance.RESISTANCE));
    }

    private static double greatestF(Calculation sum) {
        return sum.in(BUS_CAPACITANCE_UF) * 1e-6 * (1 + sum.in(Tolerance.CAPACITANCE));
    }

    /** The slowest case: an almost empty pack charges the bus through a welded contactor and the resistor. */
    private Calculation weldTest() {
        Calculation sum = sum("weld-test-time", "the longest time until a welded contactor shows on the bus");
        double packV = sum.in(PACK_MIN_V);
        double shownV = BusRise.LIVE_AGAIN * sum.in(BUS_DISCHARGED_V) * (1 + sum.in(Tolerance.VOLTAGE));
        double seconds = Precharge.secondsToShare(packV, bus(sum, 1), 0, shownV / packV);
        double relayMs = sum.in(BOX_RELAY_CLOSE_MS) * (1 + sum.in(Tolerance.TIMES)) + sum.in(BOX_BOUNCE_MS);
        return sum.formula("relay time + R C ln(1 / (1 - share)) at pack.min_v until the bus reads 5 % above"
                        + " bus.discharged_v + two samples, every part at the slow end of its tolerance")
                .gives(relayMs + seconds * 1000 + 2 * sum.in(LOOP_TICK_MS), "ms")
                .atMost("contactor.weld_test_ms", sum.in(CONTACTOR_WELD_TEST_MS))
                .about(CONTACTOR_WELD_TEST_MS)
                .otherwise(STOP, "a welded contactor passes the weld test, and the start goes on")
                .source(RC + "; tolerances as declared in [tolerance], common practice where they are not");
    }

    private Calculation peakCurrent() {
        Calculation sum = sum("precharge-peak-current", "the first current through the precharge relay");
        double peakA = Precharge.peakA(sum.in(PACK_MAX_V), leastOhm(sum));
        return sum.formula("pack voltage / least R; also what the relay breaks when the bus is shorted")
                .gives(peakA, "A")
                .atMost("what the relay can break", sum.in(CONTACTS_RELAY_BREAKS_A))
                .about(CONTACTS_RELAY_BREAKS_A)
                .otherwise(STOP, "on a shorted bus the relay must open this, and would keep arcing")
                .source(RC);
    }

    private Calculation pulseEnergy() {
        Calculation sum = sum("precharge-pulse-energy", "the heat of one charge in the resistor");
        double pulseJ = Precharge.pulseJ(sum.in(PACK_MAX_V), greatestF(sum));
        return sum.formula("greatest C V² / 2, as much as the capacitors hold afterwards")
                .gives(pulseJ, "J")
                .atMost("the resistor's pulse rating", sum.in(RESISTOR_PULSE_J))
                .about(RESISTOR_PULSE_J)
                .otherwise(STOP, "the resistor opens or burns at the first start")
                .source(RC);
    }

    private Calculation energyBudget() {
        Calculation sum = sum("precharge-energy-budget", "the heat that the supervisor lets into the resistor");
        return sum.formula("precharge.energy_j as written")
                .gives(sum.in(PRECHARGE_ENERGY_J), "J")
                .atMost("the resistor's pulse rating", sum.in(RESISTOR_PULSE_J))
                .about(PRECHARGE_ENERGY_J)
                .otherwise(STOP, "repeated attempts would overheat the resistor before they are refused")
                .source(Calculation.DATA_SHEET);
    }

    private Calculation attempts() {
        Calculation sum = sum("precharge-attempts", "the number of attempts from cold");
        double pulseJ = Precharge.pulseJ(sum.in(PACK_MAX_V), greatestF(sum));
        return sum.formula("energy budget / heat of one charge, whole ones")
                .gives(Math.floor(sum.in(PRECHARGE_ENERGY_J) / pulseJ), "")
                .atLeast("one attempt and one to repeat", 2)
                .about(PRECHARGE_ENERGY_J)
                .otherwise(STOP, "the car would refuse to start")
                .source("heat of a capacitor's charge, C V² / 2; the two attempts are common practice, no rule is"
                        + " known");
    }

    private Calculation repeatedHeat() {
        Calculation sum =
                sum("precharge-repeated-heat", "the mean power in the resistor when starts are repeated for ever");
        double watts = sum.in(PRECHARGE_ENERGY_J) / sum.in(PRECHARGE_COOLING_S);
        return sum.formula("energy budget / cooling time")
                .gives(watts, "W")
                .atMost("the resistor's lasting power", sum.in(RESISTOR_LASTING_W))
                .about(PRECHARGE_COOLING_S)
                .otherwise(CAUTION, "the supervisor counts the resistor cold while it is still hot")
                .source("mean power of n pulses, n E / t");
    }

    private Calculation shortedBus() {
        Calculation sum = sum("precharge-shorted-bus", "the heat in the resistor until a shorted bus is noticed");
        double packV = sum.in(PACK_MAX_V);
        double shortedMs = sum.in(PRECHARGE_STALL_MS) + sum.in(BOX_RELEASE_MS) * (1 + sum.in(Tolerance.TIMES));
        return sum.formula("V² / least R for precharge.stall_ms and the relay's release")
                .gives(packV * packV / leastOhm(sum) * shortedMs / 1000, "J")
                .atMost("the resistor's pulse rating", sum.in(RESISTOR_PULSE_J))
                .about(PRECHARGE_STALL_MS)
                .otherwise(STOP, "a shorted bus sets fire to the resistor before the supervisor gives up")
                .source("Joule's law; the pulse rating is the data sheet's");
    }

    private Calculation resistorVoltage() {
        Calculation sum = sum("precharge-resistor-voltage", "the voltage across the resistor at the first moment");
        return sum.formula("pack voltage when full")
                .gives(sum.in(PACK_MAX_V), "V")
                .atMost("the resistor's voltage rating", sum.in(RESISTOR_RATED_V))
                .about(RESISTOR_RATED_V)
                .otherwise(STOP, "the resistor flashes over")
                .source(Calculation.DATA_SHEET);
    }

    private Calculation finalShare() {
        Calculation sum = sum("precharge-load-left-on", "the share of the pack voltage that the bus comes to");
        double packV = sum.in(PACK_MIN_V);
        double share = Precharge.finalShare(packV, bus(sum, 1));
        return sum.formula("where the current through R equals bleed and load of constant power together, with the"
                        + " greatest R and the least bleed resistor")
                .gives(share, "")
                .atLeast("precharge.done_fraction as the readings may show it", threshold(sum, 1))
                .about(PARTS_LEFT_ON_W)
                .otherwise(
                        STOP,
                        "the bus never reaches the threshold: switch the load off until the main contactor has"
                                + " closed, or use a smaller resistor")
                .source("Kirchhoff's laws for a resistor, a bleed resistor and a load of constant power; checked"
                        + " against a circuit simulator");
    }

    private Calculation leftOnRoom() {
        Calculation sum = sum("precharge-room-for-loads", "the most that may be left on the bus while it charges");
        double watts = Precharge.mostLeftOnW(
                sum.in(PACK_MIN_V),
                sum.in(PRECHARGE_RESISTANCE_OHM) * (1 + sum.in(Tolerance.RESISTANCE)),
                sum.in(PARTS_BLEED_OHM) * (1 - sum.in(Tolerance.RESISTANCE)),
                threshold(sum, 1));
        return sum.formula("q V ((1 - q) V / R - q V / bleed), with q the done fraction, at the ends of the tolerances")
                .gives(watts, "W")
                .about(PARTS_LEFT_ON_W)
                .source("Kirchhoff's laws for a resistor, a bleed resistor and a load of constant power");
    }

    private Calculation inrush() {
        Calculation sum = sum("inrush-at-threshold", "the current when the main contactor closes at the threshold");
        double step = (1 - threshold(sum, -1)) * sum.in(PACK_MAX_V);
        double loopOhm = sum.in("pack, cables and contacts", CableCalculations.loopOhm(sum), "ohm");
        return sum.formula(
                        "(1 - done fraction) V, the readings apart by their tolerance / resistance of pack, cables and"
                                + " contacts")
                .gives(step / loopOhm, "A")
                .atMost("what the contactor can make", sum.in(CONTACTS_MAKES_A))
                .about(CONTACTS_MAKES_A)
                .otherwise(STOP, "the contacts weld: charge closer to the pack voltage before closing")
                .source("Ohm's law; the making current is the data sheet's");
    }

    private Calculation bleedDown() {
        Calculation sum = sum("bus-bleed-down", "the time for the bus to bleed down with the contactors open");
        double seconds = Precharge.bleedS(
                sum.in(PACK_MAX_V),
                sum.in(PARTS_BLEED_OHM) * (1 + sum.in(Tolerance.RESISTANCE)),
                greatestF(sum),
                sum.in(BUS_DISCHARGED_V));
        return sum.formula("greatest R C ln(full pack / bus.discharged_v)")
                .gives(seconds * 1000, "ms")
                .atMost("bus.bleed_ms", sum.in(BUS_BLEED_MS))
                .about(BUS_BLEED_MS)
                .otherwise(STOP, "a good bus would be reported as still live")
                .source(RC
                        + "; 60 V d.c. is the limit of UN R100 and ISO 6469; rule books of competitions ask for 5 s");
    }
}
