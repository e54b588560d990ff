package sprag.bench.hand.bus;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import sprag.bench.bus.DatabaseImport;
import sprag.bench.cli.ExitCode;
import sprag.bench.cli.InputFile;
import sprag.bench.cli.Trouble;
import sprag.bench.vehicle.BadInput;
import sprag.bench.vehicle.Problem;

/** {@code bus import}: a bus file from a database of messages. */
@Command(
        name = "import",
        mixinStandardHelpOptions = true,
        description = {
            "Makes a bus file from messages in the common text form of CAN databases.",
            "Takes messages, fields and value texts, and says what is lost.",
            "It does not know which field is which signal: that is for you to say."
        },
        footer = {"", "Example: sprag bus import messages.txt --out bus.toml"})
public final class BusImportCommand implements Callable<Integer> {
    private static final int MOST_BYTES = 16_000_000;

    @Parameters(index = "0", paramLabel = "FILE", description = "The database.")
    private Path file;

    @Option(
            names = "--kbit",
            paramLabel = "N",
            defaultValue = "500",
            description = "Speed of the bus in kbit/s (default: ${DEFAULT-VALUE}).")
    private int kbit;

    @Option(names = "--out", paramLabel = "FILE", description = "Where to write; else it is printed.")
    private Path outFile;

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() throws BadInput {
        BusSpeed.require(spec, kbit);
        DatabaseImport.Result result = DatabaseImport.of(lines(), kbit);
        PrintWriter err = spec.commandLine().getErr();
        if (result.messages() == 0) {
            throw new BadInput(List.of(new Problem(
                    file,
                    1,
                    1,
                    "",
                    "holds no message",
                    "lines that begin with BO_",
                    "",
                    "Name a database of messages.")));
        }
        if (outFile == null) {
            spec.commandLine().getOut().print(result.toml());
            spec.commandLine().getOut().flush();
        } else {
            if (InputFile.isThere(outFile)) {
                throw new BadInput(List.of(new Problem(
                        outFile, 0, 0, "", "is there already", "a new file", "", "Name another file, or remove it.")));
            }
            try {
                Files.writeString(outFile, result.toml());
            } catch (IOException e) {
                throw new Trouble("cannot write", outFile, e);
            }
            err.println(result.messages() + " messages written to " + outFile);
        }
        result.lost().forEach(sentence -> err.println("lost: " + sentence));
        return ExitCode.WELL;
    }

    private List<String> lines() throws BadInput {
        try {
            return new String(InputFile.bytes(file, MOST_BYTES), StandardCharsets.ISO_8859_1)
                    .lines()
                    .toList();
        } catch (InputFile.Refused e) {
            throw BadInput.of(file, 0, e.getMessage(), e.remedy());
        }
    }
}
