package sprag.bench.evidence.prove;

import java.util.List;

/**
 * What the proof does not speak of. {@code docs/prove.md} has the same table.
 *
 * @param part what stands outside
 * @param cover what covers it instead
 */
record OutsideTheProof(String part, String cover) {
    // @formatter:off
    static final List<OutsideTheProof> ROWS = List.of(
            new OutsideTheProof(
                    "Readings to facts: thresholds, filters, plausibility, debouncing.",
                    "Unit tests at both sides of each limit and of each detection time; the campaign with broken"
                            + " sensors."),
            new OutsideTheProof(
                    "Settling: how long a reading may be off after power comes, a contactor moves or a signal returns.",
                    "Unit tests of the input classes; scenarios of each start; the campaign at the moments of a"
                            + " start."),
            new OutsideTheProof(
                    "Shapers: how much torque and how much charge current, within what Logic permits.",
                    "Property tests of the pedal map and of the charge over all inputs; scenarios; the campaign's"
                            + " measures of harm."),
            new OutsideTheProof(
                    "The real Gate, which looks at volts and amperes. The option --gate uses a model of it.",
                    "Unit tests of each absolute; a veto is an interlock of its own (gate-vetoed)."),
            new OutsideTheProof(
                    "The wiring of a tick: the order of the calls, and that the veto of one tick reaches the next.",
                    "Tests of the whole supervisor; every scenario and every run of the campaign goes through it."),
            new OutsideTheProof(
                    "Waking up: what is remembered over a loss of power, and what a damaged memory wakes up as.",
                    "Unit tests of the latches over a loss of power, with damaged numbers too."),
            new OutsideTheProof(
                    "The car: contactors, wires, relays, the board.",
                    "The commands check and commission, and your own eyes."),
            new OutsideTheProof(
                    "The promises themselves: one that nobody wrote is not proved.",
                    "The option --necessity; a witness run for each promise; the list of hazards; review by a second"
                            + " person."));
    // @formatter:on
}
