package sprag.hal.board.firmata;

import sprag.hal.board.PinKind;

/** Modes of a pin that are used here, with their numbers in the protocol. */
enum PinMode {
    // @formatter:off
    INPUT    (0x00, "digital input"),
    OUTPUT   (0x01, "digital output"),
    ANALOGUE (0x02, "analogue input"),
    PWM      (0x03, "PWM output"),
    PULL_UP  (0x0B, "input with pull-up");
    // @formatter:on

    final int code;
    final String words;

    PinMode(int code, String words) {
        this.code = code;
        this.words = words;
    }

    static PinMode ofInput(PinKind kind) {
        return kind == PinKind.DIGITAL ? INPUT : kind == PinKind.PULL_UP ? PULL_UP : ANALOGUE;
    }

    static PinMode ofOutput(PinKind kind) {
        return kind == PinKind.DIGITAL ? OUTPUT : PWM;
    }
}
