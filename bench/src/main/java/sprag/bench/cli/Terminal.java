package sprag.bench.cli;

/** What the terminal can show. */
public final class Terminal {
    private Terminal() {}

    /** Whether a person is watching: only then progress is shown. The launcher knows; Java has no sure way to tell. */
    public static boolean interactive() {
        return Boolean.getBoolean("sprag.terminal");
    }

    /** Whether to use colour: on a terminal, unless {@code NO_COLOR} is set. */
    public static boolean colour() {
        String refused = System.getenv("NO_COLOR");
        return interactive() && (refused == null || refused.isEmpty()) && !"dumb".equals(System.getenv("TERM"));
    }
}
