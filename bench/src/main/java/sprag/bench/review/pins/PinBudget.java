package sprag.bench.review.pins;

import sprag.bench.vehicle.Vehicle;
import sprag.hal.board.BoardMap;
import sprag.supervisor.vocabulary.Signal;

/** How many pins the wires of a vehicle need. */
public record PinBudget(long switches, long quantities, long outputs) {
    /** Free pins of a small microcontroller board: two of its twenty belong to the line, six can measure. */
    static final int SMALL_PINS = 18;

    static final int SMALL_QUANTITIES = 6;
    /** Free pins of a large one: two of its seventy belong to the line, sixteen can measure. */
    static final int LARGE_PINS = 68;

    static final int LARGE_QUANTITIES = 16;

    /** Of everything that the wiring schedule has a wire for. */
    public static PinBudget of(Vehicle vehicle, Drawing drawing) {
        Wired all = Wired.of(vehicle, drawing, null);
        long switches = all.signals().stream().filter(Signal::isSwitch).count();
        return new PinBudget(
                switches, all.signals().size() - switches, all.outputs().size());
    }

    long pins() {
        return switches + quantities + outputs;
    }

    /** Which kind of board has so many pins. */
    String fitting() {
        if (pins() <= SMALL_PINS && quantities <= SMALL_QUANTITIES) {
            return "a small microcontroller board";
        }
        if (pins() <= LARGE_PINS && quantities <= LARGE_QUANTITIES) {
            return "a large microcontroller board, or a module with as many inputs and outputs; not a small one";
        }
        return "modules with as many inputs and outputs; no single microcontroller board";
    }

    /** For people, before anything is wired.
     *
     * @param map the board's map, null for none
     */
    public String text(BoardMap map) {
        String needs = "Pins: the wiring schedule has wires for " + switches + " switches, " + quantities
                + " measured inputs and " + outputs + " outputs, " + pins() + " in all. That fits " + fitting() + ".";
        return map == null
                ? needs
                : needs + " The board's map has " + map.inputs().size() + " inputs and "
                        + map.outputs().size() + " outputs; every other one is simulated and not commissioned.";
    }
}
