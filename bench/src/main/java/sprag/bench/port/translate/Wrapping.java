package sprag.bench.port.translate;

/** Breaks long lines of C where a reader expects it. */
final class Wrapping {
    private static final int WIDTH = 120;
    private static final String FURTHER = "        ";

    private Wrapping() {}

    /** A statement in as many lines as it needs.
     *
     * @param indent what stands before it
     * @param text one statement
     * @return lines that end with a line feed
     */
    static String of(String indent, String text) {
        StringBuilder out = new StringBuilder();
        String before = indent;
        String rest = text;
        while (before.length() + rest.length() > WIDTH) {
            int at = place(rest, WIDTH - before.length());
            if (at <= 0) {
                break;
            }
            out.append(before).append(rest, 0, at).append('\n');
            rest = rest.substring(at + 1);
            before = indent + FURTHER;
        }
        return out.append(before).append(rest).append('\n').toString();
    }

    /** The last blank that fits: best before a logical sign, then behind a comma. */
    private static int place(String text, int width) {
        int logical = Math.max(text.lastIndexOf(" && ", width), text.lastIndexOf(" || ", width));
        if (logical > width / 3) {
            return logical;
        }
        int comma = text.lastIndexOf(", ", width - 1);
        return comma > width / 3 ? comma + 1 : text.lastIndexOf(' ', width);
    }
}
