package sprag.bench.hand.bus;

import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import sprag.hal.bus.SlcanLine;

/** The speed of a bus, as commands take it. */
final class BusSpeed {
    private BusSpeed() {}

    /** Refuses a speed that no adapter can be set to. */
    static void require(CommandSpec command, int kbit) {
        if (!SlcanLine.SPEEDS_KBIT.contains(kbit)) {
            throw new ParameterException(
                    command.commandLine(),
                    "--kbit " + kbit + " is none of " + SlcanLine.SPEEDS_KBIT
                            + " kbit/s; give the speed that the parts on the bus are set to");
        }
    }
}
