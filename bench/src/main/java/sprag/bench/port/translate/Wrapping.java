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

    /**
     * A blank that fits: best before a logical sign, then behind a comma. Of several the last of those that stand in the fewest brackets:
     * a condition breaks between its parts, not inside of one. A choice between two values breaks before one of them, unless that stands
     * inside of more brackets.
     */
    private static int place(String text, int width) {
        int logical = 0;
        int comma = 0;
        int choice = 0;
        int choiceDepth = Integer.MAX_VALUE;
        int logicalDepth = Integer.MAX_VALUE;
        int commaDepth = Integer.MAX_VALUE;
        int depth = 0;
        for (int i = 0; i <= width; i++) {
            char sign = text.charAt(i);
            depth += "([{".indexOf(sign) >= 0 ? 1 : ")]}".indexOf(sign) >= 0 ? -1 : 0;
            if (sign != ' ' || i <= width / 3) {
                continue;
            }
            boolean beforeLogical =
                    text.startsWith("&& ", i + 1) || text.startsWith("|| ", i + 1) || text.startsWith("| ", i + 1);
            if (beforeLogical && depth <= logicalDepth) {
                logical = i;
                logicalDepth = depth;
            }
            boolean beforeChoice = text.startsWith("? ", i + 1) || text.startsWith(": ", i + 1);
            if (beforeChoice && depth <= choiceDepth) {
                choice = i;
                choiceDepth = depth;
            }
            if (text.charAt(i - 1) == ',' && depth <= commaDepth) {
                comma = i;
                commaDepth = depth;
            }
        }
        if (choiceDepth < Math.min(logicalDepth, commaDepth)) {
            return choice;
        }
        return logical > 0 ? logical : comma > 0 ? comma : text.lastIndexOf(' ', width);
    }
}
