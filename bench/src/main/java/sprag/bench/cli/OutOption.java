package sprag.bench.cli;

import java.nio.file.Path;
import picocli.CommandLine.Option;

/** The folder for all that a command writes, as it is named on the command line. */
public final class OutOption {
    @Option(
            names = "--out",
            paramLabel = "DIR",
            description = "Folder for all that is written (default: a new folder sprag-out-DATE).")
    private Path named;

    /** The folder that was named, or a new one under the current folder. It is there afterwards. */
    public Path open() {
        return OutFolder.open(named);
    }
}
