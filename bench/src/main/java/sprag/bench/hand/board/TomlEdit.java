package sprag.bench.hand.board;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Changes single numbers in the text of a TOML file and leaves every other character alone, comments included. */
final class TomlEdit {
    private static final Pattern HEADER = Pattern.compile("\\s*\\[+\\s*([^\\]]+?)\\s*\\]+.*", Pattern.DOTALL);

    private TomlEdit() {}

    /**
     * Gives a key of a section a number. A key that is not there yet is added below the section's header, and a section that
     * is not there yet at the end.
     */
    static String with(String text, String section, String key, double value) {
        String[] lines = text.split("\n", -1);
        int header = -1;
        String current = "";
        for (int i = 0; i < lines.length; i++) {
            Matcher h = HEADER.matcher(lines[i]);
            if (h.matches()) {
                current = h.group(1);
                header = current.equals(section) ? i : header;
                continue;
            }
            String name = current.equals(section) ? key : current.isEmpty() ? section + "." + key : null;
            String changed = name == null ? null : changed(lines[i], name, value);
            if (changed != null) {
                lines[i] = changed;
                return String.join("\n", lines);
            }
        }
        String added = key + " = " + number(value);
        if (header < 0) {
            return text + (text.endsWith("\n") ? "" : "\n") + "\n[" + section + "]\n" + added + "\n";
        }
        lines[header] += "\n" + added + (lines[header].endsWith("\r") ? "\r" : "");
        return String.join("\n", lines);
    }

    /** The line with another number, null when it gives another key. */
    private static String changed(String line, String name, double value) {
        Matcher m = Pattern.compile("(\\s*" + Pattern.quote(name) + "\\s*=\\s*)([^\\s#]+)(.*)", Pattern.DOTALL)
                .matcher(line);
        return m.matches() ? m.group(1) + number(value) + m.group(3) : null;
    }

    /** Three decimals are more than any divider on a pedal is worth. */
    static String number(double value) {
        String text = String.format(Locale.ROOT, "%.3f", value).replaceFirst("0+$", "");
        return text.endsWith(".") ? text + "0" : text;
    }
}
