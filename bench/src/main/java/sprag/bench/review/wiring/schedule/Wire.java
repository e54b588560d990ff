package sprag.bench.review.wiring.schedule;

import java.util.List;

/**
 * One row of the schedule.
 *
 * @param from terminal at one end, {@code part.terminal}, lower case; empty when it ends nowhere
 * @param to terminal at the other end
 * @param sizeMm2 conductor size (mm²); NaN when not given
 * @param colour colour of its covering, lower case; empty when not given
 * @param lengthM length one way (m); NaN when not given
 * @param fuseA rating of the fuse that the drawing says protects it (A); NaN when not given
 * @param fromPinV voltage that the terminal in {@code from} is rated for (V); NaN when not given
 * @param toPinV voltage that the terminal in {@code to} is rated for (V); NaN when not given
 * @param currentA greatest lasting current (A); NaN when not given
 * @param twistedWith the wire it is twisted with; empty when none
 * @param carries names of signals or outputs that it carries without its terminal saying so
 */
public record Wire(
        int line,
        String id,
        String from,
        String to,
        String net,
        VoltageClass voltageClass,
        double sizeMm2,
        String colour,
        double lengthM,
        double fuseA,
        double fromPinV,
        double toPinV,
        double currentA,
        String twistedWith,
        List<String> carries) {

    /** The part of a terminal's name before the dot. */
    public static String partOf(String terminal) {
        int dot = terminal.indexOf('.');
        return dot < 0 ? terminal : terminal.substring(0, dot);
    }

    /** The part of a terminal's name behind the dot. */
    public static String pinOf(String terminal) {
        return terminal.substring(terminal.indexOf('.') + 1);
    }

    /** Whether both ends are there. */
    public boolean hasBothEnds() {
        return !from.isEmpty() && !to.isEmpty();
    }

    /** The same wire with another number, between other terminals. */
    public Wire between(String newId, String newFrom, String newTo) {
        return new Wire(
                line,
                newId,
                newFrom,
                newTo,
                net,
                voltageClass,
                sizeMm2,
                colour,
                lengthM,
                fuseA,
                fromPinV,
                toPinV,
                currentA,
                twistedWith,
                carries);
    }
}
