package sprag.hal.board.modbus;

import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A pin of a module: {@code coil:0}, {@code discrete:3}, {@code input:2}, {@code holding:100}, or one bit of a register,
 * {@code input:2.7}. Addresses count from 0, as they stand in the frame.
 *
 * @param table which table
 * @param number the address
 * @param bit which bit of a register, -1 for all of it
 */
record ModbusAddress(ModbusTable table, int number, int bit) {
    private static final Pattern WRITTEN =
            Pattern.compile("(coil|discrete|input|holding):(\\d{1,5})(?:\\.(\\d{1,2}))?");
    private static final int MAX_ADDRESS = 65535;
    private static final int MAX_BIT = 15;

    static final String ALLOWED =
            "coil:N, discrete:N, input:N, holding:N with N from 0 to 65535, or a bit of a register such as input:N.3";

    /** Reads an address; null when it is none. */
    static ModbusAddress of(String text) {
        Matcher m = WRITTEN.matcher(text.trim());
        if (!m.matches()) {
            return null;
        }
        ModbusTable table = ModbusTable.valueOf(m.group(1).toUpperCase(Locale.ROOT));
        int number = Integer.parseInt(m.group(2));
        int bit = m.group(3) == null ? -1 : Integer.parseInt(m.group(3));
        boolean wrong = number > MAX_ADDRESS || bit > MAX_BIT || bit >= 0 && table.bits;
        return wrong ? null : new ModbusAddress(table, number, bit);
    }

    /** What one value of the table means for this pin. */
    long of(int value) {
        return bit < 0 ? value : value >> bit & 1;
    }
}
