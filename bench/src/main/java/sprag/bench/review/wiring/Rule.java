package sprag.bench.review.wiring;

import static sprag.bench.review.finding.Weight.CAUTION;
import static sprag.bench.review.finding.Weight.NOTE;
import static sprag.bench.review.finding.Weight.STOP;

import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import sprag.bench.review.finding.Finding;
import sprag.bench.review.finding.Weight;
import sprag.bench.review.wiring.circuit.Bonds;
import sprag.bench.review.wiring.circuit.Hit;
import sprag.bench.review.wiring.circuit.Review;
import sprag.bench.review.wiring.power.PrechargeRules;
import sprag.bench.review.wiring.power.ProtectionRules;
import sprag.bench.review.wiring.power.TractionRules;

/** The rules that a wiring schedule is reviewed by. One row each: weight, why, source. */
public enum Rule {
    // @formatter:off
    //                           weight   why                                                                                            source
    NO_PACK                     (STOP,    "without the pack in the schedule no rule about traction voltage can be judged",               Source.PRACTICE, TractionRules::noPack),
    TRACTION_PIN_RATING         (STOP,    "a terminal below the voltage of its net breaks down or lets a finger touch it",               Source.ISO_6469_3, TractionRules::pinRating),
    TRACTION_CLASS              (STOP,    "a wire that is treated as something it is not gets the wrong cable, route and cover",         Source.ISO_6469_3, TractionRules::wrongClass),
    TRACTION_BONDED             (STOP,    "the traction side must float: joined to the body, the next fault is a shock or a fire",       Source.R100_ISOLATION, review -> List.of()),
    TRACTION_SHORTED            (STOP,    "closing the contacts on that way shorts the pack",                                            Source.PRACTICE, TractionRules::shorted),
    POLARITY_REVERSED           (STOP,    "electrolytic capacitors and power stages burst on reversed voltage",                          Source.PRACTICE, TractionRules::polarity),
    TRACTION_NOT_ORANGE         (STOP,    "orange is how rescuers and mechanics know a dangerous cable",                                 Source.R100_ORANGE, TractionRules::notOrange),
    POLE_NOT_SWITCHED           (STOP,    "with the contactors open no pole may stay live outside the pack: one fault to the body then suffices", Source.PRACTICE, TractionRules::poleNotSwitched),
    SIDE_DIFFERS                (STOP,    "the supervisor closes contactors, or leaves them open, by where the file says the part sits", Source.PRACTICE, TractionRules::wrongSide),
    LOAD_BEFORE_SHUNT           (CAUTION, "current that is not measured empties the pack unseen and escapes the over-current limit",     Source.PRACTICE, TractionRules::beforeShunt),
    PRECHARGE_WRONG_SIDE        (STOP,    "a precharge way that does not bridge the main contactor charges nothing",                     Source.PRACTICE, PrechargeRules::wrongSide),
    PRECHARGE_WITHOUT_RELAY     (STOP,    "a resistor across the open main contactor keeps the bus live",                                Source.R100_CONTACT, PrechargeRules::withoutRelay),
    PRECHARGE_WITHOUT_RESISTOR  (STOP,    "nothing limits the current into the empty capacitors: the contact welds",                     Source.PRACTICE, PrechargeRules::withoutResistor),
    BRANCH_WITHOUT_FUSE         (STOP,    "a short in the branch is fed by the whole pack or battery through a cable that cannot stand it", Source.ABYC_FUSE, ProtectionRules::branchWithoutFuse),
    FUSE_AFTER_LOAD             (STOP,    "a fuse guards only what lies behind it, seen from the source",                                Source.ABYC_FUSE, ProtectionRules::fuseAfterLoad),
    FUSE_FAR_FROM_SOURCE        (CAUTION, "the lead up to the first fuse is guarded by nothing",                                         Source.ABYC_FUSE, ProtectionRules::farFromSource),
    FUSE_ABOVE_CONDUCTOR        (STOP,    "the fuse must melt before the conductor's insulation does",                                   Source.ABYC_FUSE, ProtectionRules::fuseAboveConductor),
    FUSE_DIFFERS                (CAUTION, "two ratings for one fuse: whoever buys it will pick either",                                  Source.PRACTICE, ProtectionRules::fuseDiffers),
    FUSE_VOLTAGE                (STOP,    "a fuse below the voltage cannot put out its own arc",                                         Source.PRACTICE, ProtectionRules::fuseVoltage),
    FUSE_OVERLOADED             (CAUTION, "a fuse that its own loads melt strands the car",                                              Source.PRACTICE, ProtectionRules::overloadedFuse),
    CONDUCTOR_TOO_SMALL         (STOP,    "a conductor above its ampacity ages, softens and shorts",                                     Source.CFR_AMPACITY, ProtectionRules::conductorTooSmall),
    VOLTAGE_DROP                (CAUTION, "what is lost in the cable is missing at the part: relays chatter, motors run hot",            Source.ABYC_DROP, ProtectionRules::voltageDrop),
    CONTACTS_IN_PARALLEL        (STOP,    "two contacts in parallel hold off only while both are open: a delay or a cut-off is by-passed", Source.PRACTICE, ControlRules::parallel),
    CONTACTS_IN_SERIES          (STOP,    "two contacts in series close only when both do: each on its own can no longer switch it on",  Source.PRACTICE, ControlRules::series),
    COIL_WITHOUT_SUPPRESSION    (CAUTION, "a coil switched off makes several hundred volts, which kill its driver and disturb sensors",  Source.COIL, ControlRules::unsuppressed),
    SUPPRESSION_SLOWS_RELEASE   (STOP,    "the slower the coil's current dies, the slower and the more often burnt the contacts open",   Source.COIL, ControlRules::slowRelease),
    CONTACT_BREAKS_TOO_MUCH     (STOP,    "an arc of direct current does not go out by itself",                                          Source.PRACTICE, ControlRules::breaksTooMuch),
    INVERTER_SUPPLY_EARLY       (STOP,    "this inverter loads or switches the bus as soon as its logic is alive",                       Source.VEHICLE, ControlRules::inverterSupply),
    CUT_OFF_LEAVES_SOURCE       (STOP,    "the cut-off is the last resort: whatever it leaves connected keeps the contactors closed",    Source.PRACTICE, ControlRules::cutOff),
    PILOT_UNCONNECTED           (STOP,    "without pilot and proximity the car may draw too much, or drive off with the cable",          Source.IEC_61851, ControlRules::pilot),
    COIL_WITHOUT_OUTPUT         (STOP,    "such a contact closes with the 12 V supply, whatever the supervisor decides",                   Source.PRACTICE, SupervisorRules::coilWithoutOutput),
    OUTPUT_AT_WRONG_COIL        (STOP,    "the contacts then close in another order than the one that was decided and proved",             Source.PRACTICE, SupervisorRules::wrongCoil),
    COIL_REVERSED               (STOP,    "a diode across a coil that is fed the wrong way round is a short circuit",                      Source.COIL, PlacementRules::coilReversed),
    OUTPUTS_UNGUARDED           (CAUTION, "a program that stands still leaves its outputs as they are",                                    Source.PRACTICE, ControlRules::unguardedBySupervisor),
    SIGNALS_SWAPPED             (STOP,    "the supervisor decides by a value that is another one",                                         Source.PRACTICE, SupervisorRules::swappedSignals),
    INPUT_OR_OUTPUT_TIED        (STOP,    "a loop or a switch that is bridged reports that all is well for ever",                          Source.PRACTICE, SupervisorRules::tied),
    CUT_OFF_OUTSIDE_LOOP        (STOP,    "the supervisor must learn that a cut-off was opened, or it closes the contactors onto it later", Source.PRACTICE, SupervisorRules::cutOffOutsideLoop),
    LOOP_PAST_CONNECTOR         (STOP,    "the connector can then be pulled under load, and its open half stays live",                     Source.PRACTICE, SupervisorRules::loopPastConnector),
    CONTACT_BRIDGED             (STOP,    "what a bridged contact should switch stays on; a bridged fuse guards nothing",                                                 Source.PRACTICE, PlacementRules::contactBridged),
    BLOWER_INTERRUPTED          (STOP,    "a heater's element without moving air overheats",                                               Source.PRACTICE, PlacementRules::blowerInterrupted),
    SERVICE_SWITCH_ON_BUS_SIDE  (STOP,    "the service switch must part the pack, so that nothing outside it is live",                     Source.PRACTICE, PlacementRules::serviceSwitchOnBus),
    CURRENT_REVERSED            (STOP,    "charge counts as discharge: the wrong limit applies and the gauge runs the wrong way",          Source.PRACTICE, PlacementRules::currentReversed),
    CONNECTOR_SHARED            (STOP,    "damp, dirt or a bent pin in a shared connector joins traction to the 12 V side",                Source.PRACTICE, PlacementRules::sharedConnector),
    PART_OVERLOADED             (STOP,    "a contact above its current heats its own terminals",                                           Source.PRACTICE, PlacementRules::overloaded),
    MAINS_CROSSED               (STOP,    "mains on the body, on the neutral or on another circuit is a shock or a fire",                  Source.PRACTICE, PlacementRules::mainsCrossed),
    PHASE_ASTRAY                (STOP,    "between inverter and motor flows alternating current of the whole pack voltage: on anything else it is a short, or the motor burns", Source.PRACTICE, PhaseRules::astray),
    PHASES_CROSSED              (CAUTION, "with two phases exchanged the motor turns the other way",                                      Source.PRACTICE, PhaseRules::crossed),
    GROUND_MISSING              (STOP,    "a part without its ground does not work, or finds its ground through a signal wire",            Source.PRACTICE, GroundRules::missing),
    SENSOR_GROUND_ON_CHASSIS    (CAUTION, "currents in the body lift the chassis by tenths of a volt, which a sensor's reading then has in it", Source.PRACTICE, GroundRules::sensorGroundOnChassis),
    SENSOR_SUPPLY_WRONG         (STOP,    "a pedal on another supply reads a wrong travel, up to full power",                              Source.PRACTICE, GroundRules::sensorSupply),
    GROUND_SHARED               (CAUTION, "the current of a load in the supervisor's ground wire shifts every input",                      Source.PRACTICE, GroundRules::shared),
    EARTH_MISSING               (STOP,    "without protective earth a fault in the charger puts mains on the body",                      Source.R100_EARTH, EarthRules::missing),
    EARTH_THIN                  (STOP,    "a protective earth that melts before the breaker opens leaves mains on the body",                Source.IEC_EARTH, EarthRules::thin),
    TERMINAL_IN_TWO_NETS        (STOP,    "two nets on one terminal are one net, whatever their names say",                              Source.PRACTICE, DrawingRules::inTwoNets),
    TERMINAL_CROWDED            (CAUTION, "wires that do not fit are cut down, and the odd one works loose",                             Source.PRACTICE, DrawingRules::crowded),
    TERMINAL_UNWIRED            (CAUTION, "a circuit that ends in the middle of a part does nothing",                                    Source.PRACTICE, MissingRules::halfWired),
    NET_ONE_END                 (CAUTION, "a wire to nowhere is a forgotten connection, and its loose end finds something to touch",     Source.PRACTICE, DrawingRules::oneEnd),
    NET_NAMES_ALIKE             (CAUTION, "a slip in a name splits one net in two",                                                      Source.PRACTICE, DrawingRules::namesAlike),
    NET_IN_PIECES               (CAUTION, "a wire is missing, or one name is used for two things",                                       Source.PRACTICE, DrawingRules::inPieces),
    ROW_REPEATED                (CAUTION, "one number for two wires, or one wire written twice, makes the loom wrong",                   Source.PRACTICE, DrawingRules::repeated),
    PAIR_CROSSED                (STOP,    "a crossed pair reads the opposite sign, or nothing at all",                                     Source.PRACTICE, PlacementRules::pairCrossed),
    TERMINAL_UNKNOWN            (CAUTION, "a rule that does not know a terminal cannot see a mistake at it",                               Source.PRACTICE, PlacementRules::unknownTerminal),
    PAIR_NOT_TWISTED            (CAUTION, "a pair that is not twisted picks up the switching of the inverter",                           Source.PRACTICE, DrawingRules::notTwisted),
    NEEDED_SIGNAL_WITHOUT_WIRE  (STOP,    "without it the car cannot drive or charge, or charges without a limit",                         Source.VEHICLE, SupervisorRules::neededWithoutWire),
    SIGNAL_WITHOUT_WIRE         (CAUTION, "the supervisor reads an unknown value for ever, and the cover of that signal is lost",          Source.VEHICLE, SupervisorRules::signalWithoutWire),
    WIRE_WITHOUT_SIGNAL         (CAUTION, "a wire that nobody reads looks like cover that is not there",                                 Source.VEHICLE, DrawingRules::wireWithoutSignal),
    PART_NOT_LISTED             (CAUTION, "a part that is not listed has no ratings to check, or is a slip in a name",                   Source.PRACTICE, DrawingRules::unlisted),
    PART_NOT_WIRED              (CAUTION, "a part without a wire was forgotten, or is not needed",                                       Source.PRACTICE, DrawingRules::unwired),
    CELL_MISSING                (NOTE,    "what is not given cannot be judged",                                                          Source.PRACTICE, MissingRules::cells),
    RATING_MISSING              (NOTE,    "what is not given cannot be judged",                                                          Source.PRACTICE, MissingRules::ratings);
    // @formatter:on

    /** Where rules come from. */
    private static final class Source {
        static final String PRACTICE = "common practice";
        static final String VEHICLE = "the vehicle's own file";
        static final String ISO_6469_3 = "ISO 6469-3, voltage class B above 60 V d.c. (from memory)";
        static final String R100_ISOLATION = "UN R100, 5.1.3 isolation resistance, at least 100 ohm per volt";
        static final String R100_ORANGE = "UN R100, 5.1.1.5 (wording read in AIS-156, 5.1.1.5.3)";
        static final String R100_CONTACT = "UN R100, 5.1.1 protection against direct contact";
        static final String R100_EARTH = "UN R100, 5.1.2.3 (wording read in AIS-156)";
        static final String ABYC_FUSE = "ABYC E-11, over-current protection (summaries read, not the standard)";
        static final String ABYC_DROP = "ABYC E-11 practice: 3 % for critical circuits";
        static final String CFR_AMPACITY = "33 CFR 183.425, table 5";
        static final String COIL = "relay makers' notes on coil suppression; the factors are from memory";
        static final String IEC_EARTH = "IEC 60364-5-54, table 54.2: up to 16 mm² as large as the line (from memory)";
        static final String IEC_61851 = "IEC 61851-1, control pilot and proximity";
    }

    /** How heavy a finding of it is. */
    public final Weight weight;
    /** Why it exists. */
    public final String why;
    /** The standard behind it, or common practice. */
    public final String source;

    private final Function<Review, List<Hit>> search;

    Rule(Weight weight, String why, String source, Function<Review, List<Hit>> search) {
        this.weight = weight;
        this.why = why;
        this.source = source;
        this.search = search;
    }

    /** The id in findings and acceptance files. */
    public String id() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** Where a schedule breaks this rule; the bonds were looked for before. */
    List<Finding> findings(Review review, Bonds bonds) {
        List<Hit> hits = this == TRACTION_BONDED ? bonds.hits() : search.apply(review);
        return hits.stream()
                .map(hit -> new Finding(
                        id(),
                        weight,
                        hit.where(),
                        new Finding.Place(hit.file(), hit.line()),
                        hit.sentence(),
                        why,
                        hit.numbers(),
                        source))
                .toList();
    }
}
