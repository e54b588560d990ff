package sprag.bench.hand.bus;

import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code bus}: the data bus by hand. */
@Command(
        name = "bus",
        mixinStandardHelpOptions = true,
        synopsisSubcommandLabel = "COMMAND",
        description = {"Listens to a data bus (CAN), sends frames to a bench, reads message databases."},
        subcommands = {BusWatchCommand.class, BusSendCommand.class, BusImportCommand.class})
public final class BusCommand implements Runnable {
    @Spec
    private CommandSpec spec;

    @Override
    public void run() {
        throw new ParameterException(spec.commandLine(), "say watch, send or import");
    }
}
