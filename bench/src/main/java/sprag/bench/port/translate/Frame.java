package sprag.bench.port.translate;

import java.util.Locale;

/** What stands around the contents of a file of C. */
final class Frame {
    /** The first line of every file that is made. */
    static final String MADE = "/* Made from the Java sources of the supervisor. Change those, not this. */\n";

    private Frame() {}

    static String begin(String file, String says) {
        String guard = guard(file);
        return MADE + (says.isEmpty() ? "" : "/* " + says + " */\n") + "#ifndef " + guard + "\n#define " + guard
                + "\n\n";
    }

    static String end(String file) {
        return "\n#endif /* " + guard(file) + " */\n";
    }

    private static String guard(String file) {
        return "SPRAG_" + file.toUpperCase(Locale.ROOT) + "_H";
    }
}
