package sprag.bench.cli;

/** How a command ends, for scripts and build servers. The same for every command. */
public final class ExitCode {
    /** All is well. */
    public static final int WELL = 0;
    /** A finding, a failed expectation, a broken promise. */
    public static final int FINDING = 1;
    /** Wrong usage or unreadable input; nothing was run. */
    public static final int USAGE = 2;
    /** Trouble outside the program: a full disk, a folder that cannot be written, a board that is gone. */
    public static final int TROUBLE = 3;

    private ExitCode() {}
}
