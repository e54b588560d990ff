package sprag.bench.bus;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads messages, their fields and value texts from the common text form of CAN databases and writes them as a bus file. What it
 * cannot carry over, it counts and names.
 */
public final class DatabaseImport {
    private static final Pattern MESSAGE = Pattern.compile("BO_ (\\d{1,10}) (\\w+)\\s*:\\s*(\\d{1,9}) (\\w+)");
    private static final Pattern FIELD = Pattern.compile(
            "SG_ (\\w+)"
                    + " (M|m\\d+M?)?\\s*:\\s*(\\d+)\\|(\\d+)@([01])([+-])\\s*\\(([^,]+),([^)]+)\\)\\s*\\[[^\\]]*\\]\\s*\"([^\"]*)\".*");
    private static final Pattern TEXTS = Pattern.compile("VAL_ (\\d{1,10}) (\\w+)((?: -?\\d+ \"[^\"]*\")+)\\s*;");
    private static final Pattern TEXT = Pattern.compile("(-?\\d+) \"([^\"]*)\"");
    private static final Pattern CYCLE = Pattern.compile("BA_ \"GenMsgCycleTime\" BO_ (\\d{1,10}) (\\d+)\\s*;");
    private static final Pattern FLOAT = Pattern.compile("SIG_VALTYPE_ (\\d{1,10}) (\\w+)\\s*:\\s*[12]\\s*;");
    private static final long EXTENDED = 1L << 31;
    private static final int MOST_BYTES = 8;
    private static final int UNKNOWN_PERIOD_MS = 100;

    private static final class Message {
        long id;
        String name;
        int length;
        String sender;
        String periodMs = "";
        final Map<String, String> fields = new LinkedHashMap<>();
        final Map<String, String> texts = new LinkedHashMap<>();
    }

    private final Map<Long, Message> messages = new LinkedHashMap<>();
    private final List<String> lost = new ArrayList<>();
    private final Map<String, Integer> ignored = new TreeMap<>();
    private Message current;

    private DatabaseImport() {}

    /**
     * What came out.
     *
     * @param toml the bus file
     * @param messages how many messages it has
     * @param lost what could not be carried over, one sentence each
     */
    public record Result(String toml, int messages, List<String> lost) {}

    /**
     * Reads a text.
     *
     * @param lines the lines of the file
     * @param bitRateKbit speed to write into the bus file
     */
    public static Result of(List<String> lines, int bitRateKbit) {
        DatabaseImport reader = new DatabaseImport();
        for (int i = 0; i < lines.size(); i++) {
            reader.line(lines.get(i).strip(), i + 1);
        }
        reader.ignored.forEach((word, count) ->
                reader.lost.add(count + " lines that begin with " + word + " say nothing that a bus file holds"));
        return new Result(reader.toml(bitRateKbit), reader.messages.size(), reader.lost);
    }

    private void line(String text, int number) {
        Matcher message = MESSAGE.matcher(text);
        Matcher field = FIELD.matcher(text);
        if (message.matches()) {
            begin(message, number);
        } else if (field.matches()) {
            addField(field, number);
        } else if (text.startsWith("SG_ ") || text.startsWith("BO_ ")) {
            lost.add("line " + number + " cannot be read: " + text);
            current = text.startsWith("BO_ ") ? null : current; // its fields are not those of the message before
        } else if (!addTexts(text) && !addCycle(text) && !dropFloat(text) && !text.isEmpty()) {
            String word = text.split("[ :]", 2)[0];
            if (word.matches("[A-Z]+_*(?:[A-Z]+_*)*")) {
                ignored.merge(word, 1, Integer::sum);
            }
        }
    }

    private void begin(Matcher found, int number) {
        Message message = new Message();
        message.id = Long.parseLong(found.group(1));
        message.name = found.group(2);
        message.length = Integer.parseInt(found.group(3));
        message.sender = found.group(4);
        boolean fits = message.length <= MOST_BYTES
                && (message.id & ~EXTENDED) <= ((message.id & EXTENDED) != 0 ? 0x1FFF_FFFFL : 0x7FF);
        current = fits ? message : null;
        if (fits && messages.containsKey(message.id)) {
            lost.add("line " + number + ": message " + message.name + " has the identifier of "
                    + messages.get(message.id).name);
            current = null;
        } else if (fits) {
            messages.put(message.id, message);
        } else {
            lost.add("line " + number + ": message " + message.name + " has " + message.length
                    + " bytes or an identifier that no classic frame has");
        }
    }

    private void addField(Matcher found, int number) {
        String name = found.group(1);
        if (current == null) {
            return;
        }
        if (found.group(2) != null && !found.group(2).equals("M")) {
            lost.add("line " + number + ": field " + name + " of " + current.name
                    + " is there only for some values of another field, which a bus file cannot say");
            return;
        }
        if (!isNumber(found.group(7)) || !isNumber(found.group(8)) || current.fields.containsKey(name)) {
            lost.add("line " + number + ": field " + name + " of " + current.name
                    + " is there already, or its factor or offset is no number");
            return;
        }
        StringBuilder toml = new StringBuilder();
        toml.append("name = \"").append(name).append("\"\n");
        toml.append("start = ").append(found.group(3)).append("\nbits = ").append(found.group(4));
        toml.append(found.group(5).equals("0") ? "\norder = \"big\"" : "");
        toml.append(found.group(6).equals("-") ? "\nsigned = true" : "");
        toml.append("\nfactor = ").append(number(found.group(7)));
        toml.append("\noffset = ").append(number(found.group(8)));
        toml.append("\nunit = \"").append(quoted(found.group(9))).append("\"\n");
        current.fields.put(name, toml.toString());
    }

    private boolean addTexts(String text) {
        Matcher found = TEXTS.matcher(text);
        if (!found.matches()) {
            return false;
        }
        Message message = messages.get(Long.parseLong(found.group(1)));
        StringBuilder toml = new StringBuilder();
        Matcher each = TEXT.matcher(found.group(3));
        while (each.find()) {
            if (each.group(1).startsWith("-") || each.group(1).length() > 9) {
                lost.add("the text \"" + each.group(2) + "\" of " + found.group(2) + " belongs to " + each.group(1)
                        + ", which a bus file cannot name");
            } else {
                toml.append(toml.isEmpty() ? "" : ", ")
                        .append(each.group(1))
                        .append(" = \"")
                        .append(quoted(each.group(2)));
                toml.append('"');
            }
        }
        if (message != null && message.fields.containsKey(found.group(2)) && !toml.isEmpty()) {
            message.texts.put(found.group(2), "texts = { " + toml + " }\n");
        }
        return true;
    }

    private boolean addCycle(String text) {
        Matcher found = CYCLE.matcher(text);
        if (found.matches()
                && messages.containsKey(Long.parseLong(found.group(1)))
                && !found.group(2).equals("0")) {
            messages.get(Long.parseLong(found.group(1))).periodMs = found.group(2);
        }
        return found.matches();
    }

    private boolean dropFloat(String text) {
        Matcher found = FLOAT.matcher(text);
        if (found.matches() && messages.containsKey(Long.parseLong(found.group(1)))) {
            messages.get(Long.parseLong(found.group(1))).fields.remove(found.group(2));
            lost.add("field " + found.group(2) + " is a floating-point number, which a bus file does not hold");
        }
        return found.matches();
    }

    private static String number(String text) {
        return String.format(Locale.ROOT, "%s", Double.parseDouble(text.strip()));
    }

    private static boolean isNumber(String text) {
        try {
            return Double.isFinite(Double.parseDouble(text.strip()));
        } catch (NumberFormatException e) {
            return false;
        }
    }

    private static String quoted(String text) {
        return text.replaceAll("\\p{Cntrl}", " ").replace("\\", "\\\\").replace("\"", "\\\"");
    }

    private String toml(int bitRateKbit) {
        StringBuilder toml = new StringBuilder();
        toml.append("# Made from a database of messages. Say which fields are signals and outputs, and read"
                + " docs/bus.md.\n\n");
        toml.append("[bus]\nport = \"/dev/ttyACM0\"        # \"sprag ports\" shows what is attached\n");
        toml.append("bit_rate_kbit = ").append(bitRateKbit).append('\n');
        for (Message message : messages.values()) {
            boolean extended = (message.id & EXTENDED) != 0;
            toml.append("\n[[message]]\nname = \"").append(message.name).append("\"\n");
            toml.append(String.format(
                    Locale.ROOT,
                    extended ? "id = 0x%08X%nextended = true%n" : "id = 0x%03X%n",
                    message.id & ~EXTENDED));
            toml.append("sender = \"")
                    .append(message.sender)
                    .append("\"\nlength = ")
                    .append(message.length);
            toml.append(
                    message.periodMs.isEmpty()
                            ? "\nperiod_ms = " + UNKNOWN_PERIOD_MS
                                    + "            # not in the database: measure it with \"sprag bus watch\"\n"
                            : "\nperiod_ms = " + message.periodMs + "\n");
            message.fields.forEach((name, text) ->
                    toml.append("\n[[message.field]]\n").append(text).append(message.texts.getOrDefault(name, "")));
        }
        return toml.toString();
    }
}
