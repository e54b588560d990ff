package sprag.bench.port.tool;

import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import sprag.bench.cli.Trouble;

/** A program outside of Sprag, such as a C compiler. Each is needed for its own work only. */
public enum Tool {
    /** Compiles for this machine. */
    GCC("gcc", "gcc"),
    /** A second compiler for this machine. */
    CLANG("clang", "clang"),
    /** Looks for what compilers let pass. */
    CPPCHECK("cppcheck", "cppcheck"),
    /** Counts which branches were taken. */
    GCOV("gcov", "gcc"),
    /** Compiles for the emulated microcontroller. */
    ARM_GCC("arm-none-eabi-gcc", "gcc-arm-none-eabi and libnewlib-arm-none-eabi"),
    /** Tells the sizes of what was compiled for it. */
    ARM_SIZE("arm-none-eabi-size", "binutils-arm-none-eabi"),
    /** Emulates a microcontroller. */
    QEMU("qemu-system-arm", "qemu-system-arm"),
    /** Starts a program apart from the terminal: Ctrl-C there does not end it. */
    SETSID("setsid", "util-linux");

    private final String command;
    private final String debianPackage;

    Tool(String command, String debianPackage) {
        this.command = command;
        this.debianPackage = debianPackage;
    }

    /** What a program printed, both ways together, and how it ended.
     *
     * @param status 0 for well
     * @param out what it printed
     */
    public record Ended(int status, String out) {}

    /** Where it is, if it is installed. */
    public Optional<Path> find() {
        return Stream.of(System.getenv().getOrDefault("PATH", "").split(File.pathSeparator))
                .map(folder -> Path.of(folder, command))
                .filter(Files::isExecutable)
                .findFirst();
    }

    /** What to tell somebody who does not have it. */
    public String missing() {
        return command + " is not installed. On Debian: apt-get install " + debianPackage.replace(" and ", " ");
    }

    /** Begins to run it, with both outputs joined into one.
     *
     * @param folder where
     * @param arguments what it is told
     */
    public ProcessBuilder command(Path folder, List<String> arguments) {
        String path = find().orElseThrow(() -> new Trouble(missing())).toString();
        return new ProcessBuilder(
                        Stream.concat(Stream.of(path), arguments.stream()).toList())
                .directory(folder.toFile());
    }

    /** Runs it to its end. */
    public Ended run(Path folder, List<String> arguments) {
        try {
            Process process =
                    command(folder, arguments).redirectErrorStream(true).start();
            process.getOutputStream().close();
            String out = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            return new Ended(process.waitFor(), out);
        } catch (IOException e) {
            throw new Trouble("cannot run", folder.resolve(command), e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new Trouble(command + " was interrupted");
        }
    }
}
