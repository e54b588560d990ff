package sprag.bench.port.tool;

import java.util.List;

/** What every compiler of C is told about the translated sources. */
public final class CompilerWords {
    /** The language, and no warning is let through. */
    public static final List<String> STRICT =
            List.of("-std=c99", "-Wall", "-Wextra", "-Wconversion", "-pedantic", "-Werror");
    /** Arithmetic as in Java: no product and sum in one rounding, and whole numbers that overflow go on at the other end. */
    public static final List<String> AS_JAVA = List.of("-ffp-contract=off", "-fwrapv");

    private CompilerWords() {}
}
