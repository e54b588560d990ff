package sprag.supervisor.drive;

import static sprag.supervisor.drive.Derating.Effect.ENDS;
import static sprag.supervisor.drive.Derating.Effect.FALLS_OR_ENDS;
import static sprag.supervisor.drive.Derating.Effect.FALLS_OR_LIMPS;
import static sprag.supervisor.drive.Derating.Effect.KEEPS_ROOM;
import static sprag.supervisor.drive.Derating.Effect.LIMPS;
import static sprag.supervisor.drive.Derating.Effect.STAYS;

import java.util.EnumSet;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.State;

/**
 * What each interlock that limits while driving leaves of the torque, to drive and to regenerate. One row each; an interlock
 * of that kind without a row fails when this class is loaded.
 *
 * <p>Some rows follow a quantity: the whole torque at one value of it, none at the other, a straight line in between. Without
 * these two values the quantity is a share itself.
 */
enum Derating {
    // @formatter:off
    //               interlock                    drive             regenerate      quantity               whole torque at           no torque at
    MOTOR_WARM      (Interlock.MOTOR_WARM,        FALLS_OR_LIMPS,   FALLS_OR_LIMPS, c -> c.motorTempC,     Parameter.MOTOR_WARM_C,    Parameter.MOTOR_HOT_C),
    INVERTER_WARM   (Interlock.INVERTER_WARM,     FALLS_OR_LIMPS,   FALLS_OR_LIMPS, c -> c.inverterTempC,  Parameter.INVERTER_WARM_C, Parameter.INVERTER_HOT_C),
    COOLANT_WARM    (Interlock.COOLANT_WARM,      FALLS_OR_LIMPS,   FALLS_OR_LIMPS, c -> c.coolantTempC,   Parameter.COOLANT_WARM_C,  Parameter.COOLANT_HOT_C),
    PACK_WARM       (Interlock.PACK_WARM,         FALLS_OR_LIMPS,   FALLS_OR_LIMPS, c -> c.packHotC,       Parameter.PACK_WARM_C,     Parameter.PACK_HOT_C),
    PACK_COOL       (Interlock.PACK_COOL,         STAYS,            FALLS_OR_ENDS,  c -> c.packColdC,      Parameter.PACK_COOL_C,     Parameter.PACK_COLD_C),
    PACK_FULL       (Interlock.PACK_FULL,         STAYS,            FALLS_OR_ENDS,  c -> c.regenShare),
    PACK_LOW        (Interlock.PACK_LOW,          KEEPS_ROOM,       STAYS,          c -> c.driveRoom),
    COOLING_LOST    (Interlock.COOLING_LOST,      LIMPS,            LIMPS),
    DRIVE_SENSOR    (Interlock.DRIVE_SENSOR_LOST, LIMPS,            LIMPS),
    CURRENTS_APART  (Interlock.CURRENTS_APART,    LIMPS,            LIMPS),
    LV_LOW          (Interlock.LV_LOW,            LIMPS,            LIMPS),
    ISOLATION_LOW   (Interlock.ISOLATION_LOW,     LIMPS,            LIMPS),
    ISOLATION_SILENT(Interlock.ISOLATION_SILENT,  LIMPS,            LIMPS),
    PACK_SENSOR     (Interlock.PACK_SENSOR_LOST,  LIMPS,            ENDS),
    MONITOR_SILENT  (Interlock.MONITOR_SILENT,    LIMPS,            ENDS),
    CHARGE_WITHDRAWN(Interlock.CHARGE_WITHDRAWN,  STAYS,            ENDS),
    OVERSPEED       (Interlock.OVERSPEED,         ENDS,             STAYS);
    // @formatter:on

    /** What happens to the torque one way. */
    enum Effect {
        /** Nothing is taken away. */
        STAYS,
        /** The share that is left to get home. */
        LIMPS,
        /** Nothing is left. */
        ENDS,
        /** Follows the row's quantity; while that is unknown, the share to get home. */
        FALLS_OR_LIMPS,
        /** The torque grows and falls with the room that the row's quantity is; while that is unknown, it falls. */
        KEEPS_ROOM,
        /** Follows the row's quantity; while that is unknown, nothing is left. */
        FALLS_OR_ENDS;

        /** The share that is left.
         *
         * @param line what the row's quantity leaves, 0 to 1; NaN while it is unknown
         * @param limpShare the share to get home
         * @return 0 to 1
         */
        double share(double line, double limpShare) {
            boolean known = line == line;
            return switch (this) {
                case STAYS, KEEPS_ROOM -> 1;
                case LIMPS -> limpShare;
                case ENDS -> 0;
                case FALLS_OR_LIMPS -> known ? line : limpShare;
                case FALLS_OR_ENDS -> known ? line : 0;
            };
        }
    }

    /** How many rows there are. */
    static final int COUNT = values().length;

    final Interlock interlock;
    final Effect drive;
    final Effect regenerate;
    final ToDoubleFunction<Conditioned> quantity;
    /** Null where the row follows no quantity, or a share. */
    final Parameter whole;
    /** Null where the row follows no quantity, or a share. */
    final Parameter none;

    static {
        Set<Interlock> missing = EnumSet.noneOf(Interlock.class);
        for (Interlock row : Interlock.values()) {
            if (row.response == Response.LIMIT && row.where.contains(State.DRIVE_ENABLE)) {
                missing.add(row);
            }
        }
        for (Derating row : values()) {
            if (!missing.remove(row.interlock)) {
                throw new IllegalStateException(row + " stands twice, or its interlock does not limit while driving");
            }
            if (row.drive == STAYS && row.regenerate == STAYS) {
                throw new IllegalStateException(row + " takes nothing away");
            }
        }
        if (!missing.isEmpty()) {
            throw new IllegalStateException("these interlocks limit, but no row here says what they leave: " + missing);
        }
    }

    Derating(Interlock interlock, Effect drive, Effect regenerate) {
        this(interlock, drive, regenerate, c -> Double.NaN);
    }

    Derating(Interlock interlock, Effect drive, Effect regenerate, ToDoubleFunction<Conditioned> share) {
        this(interlock, drive, regenerate, share, null, null);
    }

    Derating(
            Interlock interlock,
            Effect drive,
            Effect regenerate,
            ToDoubleFunction<Conditioned> quantity,
            Parameter whole,
            Parameter none) {
        this.interlock = interlock;
        this.drive = drive;
        this.regenerate = regenerate;
        this.quantity = quantity;
        this.whole = whole;
        this.none = none;
    }
}
