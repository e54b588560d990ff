package sprag.hal.board.modbus;

import java.util.Locale;

/** The four tables of the protocol, with the limits of one request. */
enum ModbusTable {
    // @formatter:off
    //        one bit  may be written  most read in one request
    COIL     (true,    true,           2000),
    DISCRETE (true,    false,          2000),
    INPUT    (false,   false,           125),
    HOLDING  (false,   true,            125);
    // @formatter:on

    final boolean bits;
    final boolean writable;
    final int mostRead;

    ModbusTable(boolean bits, boolean writable, int mostRead) {
        this.bits = bits;
        this.writable = writable;
        this.mostRead = mostRead;
    }

    String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    String what(int from, int count) {
        String name = this == COIL ? "coil" : this == DISCRETE ? "discrete input" : word() + " register";
        return count == 1 ? name + " " + from : name + "s " + from + " to " + (from + count - 1);
    }
}
