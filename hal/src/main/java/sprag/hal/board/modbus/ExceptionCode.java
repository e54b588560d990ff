package sprag.hal.board.modbus;

/** The exception codes of the protocol, in words. Source of the codes: pymodbus, constants.py, commit 7361275. */
enum ExceptionCode {
    // @formatter:off
    FUNCTION  (0x01, "it does not know the function",                 "the module has no such table, or must be set up for it"),
    ADDRESS   (0x02, "it has no such address",                        "compare the pin with the module's table; addresses count from 0"),
    VALUE     (0x03, "it does not take the value or the count",       "compare scale and range with the module's table"),
    FAILURE   (0x04, "it failed while doing it",                      "the module has a fault: look at its lamps"),
    ACCEPTED  (0x05, "it has begun and will take longer",             "the module is too slow for this"),
    BUSY      (0x06, "it is busy",                                    "ask it less often, or is another master talking to it?"),
    REFUSED   (0x07, "it cannot do it now",                           "look at the module's state"),
    PARITY    (0x08, "its memory has a parity error",                 "the module is faulty"),
    GATEWAY   (0x0A, "the gateway has no path to it",                 "set up the gateway"),
    NO_TARGET (0x0B, "the gateway got no answer from it",             "check the module behind the gateway and its unit id");
    // @formatter:on

    final int code;
    final String words;
    final String remedy;

    ExceptionCode(int code, String words, String remedy) {
        this.code = code;
        this.words = words;
        this.remedy = remedy;
    }

    static String explain(int code) {
        for (ExceptionCode row : values()) {
            if (row.code == code) {
                return row.words + " (exception " + code + "); " + row.remedy;
            }
        }
        return "it answers with exception " + code + ", which the protocol does not define";
    }

    static boolean isPassing(int code) {
        return code == ACCEPTED.code || code == BUSY.code;
    }
}
