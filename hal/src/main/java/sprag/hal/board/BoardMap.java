package sprag.hal.board;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/**
 * What is wired to a board: a row for each input and each output.
 *
 * @param inputs the inputs, in the order of the file
 * @param outputs the outputs, in the order of the file
 */
public record BoardMap(List<InputPin> inputs, List<OutputPin> outputs) {
    /** Outputs that may stay on while no command comes; all others must be released. */
    public static final Set<Output> MAY_STAY_ON = Set.copyOf(EnumSet.of(
            Output.COOLANT_PUMP,
            Output.RADIATOR_FAN_DUTY,
            Output.HEATER_BLOWER,
            Output.BRAKE_LAMP,
            Output.FAULT_LAMP,
            Output.BUZZER));

    /** Keeps copies.
     *
     * @param inputs the inputs
     * @param outputs the outputs
     */
    public BoardMap {
        inputs = List.copyOf(inputs);
        outputs = List.copyOf(outputs);
    }

    /** The signals that the inputs stand for.
     *
     * @return a new set
     */
    public Set<Signal> signals() {
        Set<Signal> found = EnumSet.noneOf(Signal.class);
        for (InputPin pin : inputs) {
            found.add(pin.signal());
        }
        return found;
    }

    /** The outputs that are driven.
     *
     * @return a new set
     */
    public Set<Output> driven() {
        Set<Output> found = EnumSet.noneOf(Output.class);
        for (OutputPin pin : outputs) {
            found.add(pin.output());
        }
        return found;
    }

    /** What a person must know before the outputs are armed.
     *
     * @return one sentence each, empty when there is nothing to say
     */
    public List<String> cautions() {
        List<String> found = new ArrayList<>();
        for (OutputPin pin : outputs) {
            boolean high = pin.kind().twoState && pin.safeRaw() != 0;
            if (high) {
                found.add(pin.output().key() + " on " + pin.pin()
                        + " is released by a high level: while the board starts, is"
                        + " reset or has no supply the level is low, and "
                        + pin.output().key() + " acts");
            }
        }
        return found;
    }
}
