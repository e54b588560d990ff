package sprag.bench.drawing.sheet;

import sprag.bench.drawing.paper.Pen;
import sprag.bench.review.wiring.schedule.VoltageClass;

/** The subjects of sheets, in their order. */
public enum SheetKind {
    /** Pack to motor, and every branch at pack voltage. */
    TRACTION("Traction"),
    /** From the 12 V sources to what they feed. */
    SUPPLY("12 V supply"),
    /** Coils with all that stands before them, loops, and contacts that report. */
    COILS("Coils and loops"),
    /** What tells the supervisor something, and what it tells others. */
    SIGNALS("Switches and sensors"),
    /** Pairs of the data bus. */
    DATA("Data"),
    /** Inlet, mains and protective earth. */
    CHARGING("Charging");

    /** For people. */
    public final String title;

    SheetKind(String title) {
        this.title = title;
    }

    /** The line of a conductor on a sheet of this kind. */
    Pen pen(VoltageClass voltage) {
        return switch (voltage) {
            case TRACTION -> Pen.TRACTION;
            case MAINS -> Pen.MAINS;
            case LOW_VOLTAGE -> Pen.SUPPLY;
            case EARTH -> Pen.EARTH;
            case SIGNAL -> this == DATA ? Pen.DATA : Pen.SIGNAL;
        };
    }
}
