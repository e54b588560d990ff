package sprag.bench.port.chip;

import picocli.CommandLine.Option;

/** Whether an emulated microcontroller decides, as it is asked for on the command line. */
public final class ChipOption {
    @Option(
            names = "--chip",
            description =
                    "The C of the supervisor decides, on an emulated Cortex-M4F; the Java beside it must agree in every"
                            + " tick (docs/porting.md says what that needs).")
    private boolean wanted;

    /** Whether it was asked for. */
    public boolean wanted() {
        return wanted;
    }
}
