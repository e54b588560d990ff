package sprag.hal.board.firmata;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A pin as it is printed on boards: {@code D7} or {@code 7} by number, {@code A0} by analogue channel.
 *
 * @param analogue whether the number is an analogue channel
 * @param number pin or channel
 */
record PinName(boolean analogue, int number) {
    private static final Pattern WRITTEN = Pattern.compile("([DA]?)(\\d{1,3})");
    private static final int MAX_PIN = 127;
    private static final int MAX_CHANNEL = 15;

    static final String ALLOWED =
            "a pin number 0..127 such as \"D7\" or 7, or an analogue channel 0..15 such as \"A0\"";

    /** Reads a name; null when it is none. */
    static PinName of(String text) {
        Matcher m = WRITTEN.matcher(text.trim());
        if (!m.matches()) {
            return null;
        }
        boolean analogue = "A".equals(m.group(1));
        int number = Integer.parseInt(m.group(2));
        return number > (analogue ? MAX_CHANNEL : MAX_PIN) ? null : new PinName(analogue, number);
    }
}
