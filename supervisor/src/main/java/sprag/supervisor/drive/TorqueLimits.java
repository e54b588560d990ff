package sprag.supervisor.drive;

import java.util.Arrays;
import java.util.Set;
import sprag.supervisor.vocabulary.Bounds;
import sprag.supervisor.vocabulary.Cause;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Facts;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.LowPack;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Permissions;
import sprag.supervisor.vocabulary.Settings;

/** How much torque motor, inverter and pack can bear now, each way. Magnitudes, never negative. */
final class TorqueLimits {
    private static final double RAD_PER_S_PER_RPM = 2 * Math.PI / 60;
    /** Below this the power limits say nothing: the torque limit is smaller. */
    private static final double LEAST_RAD_PER_S = 1;
    /** The share of the top speed at which drive torque begins to fade. */
    private static final double SPEED_FADE_SHARE = 0.95;
    /** The share of the pack's greatest current from which torque grows no faster than the room above it allows. Chosen. */
    private static final double CURRENT_HELD_FROM = 0.9;
    /**
     * How quickly torque follows the room that is left below the pack's greatest current (1/s). Chosen: the current answers within
     * some 0.05 s, so ten times a second does not swing; a car that speeds up by half in a second passes the limit by 5 %.
     */
    private static final double CURRENT_HELD_PER_S = 10;

    private final double driveTorqueNm;
    private final double regenTorqueNm;
    private final double drivePowerW;
    private final double reverseShare;
    private final double dischargeMaxA;
    private final double chargeMaxA;
    private final double maxKph;
    private final double reverseMaxKph;
    private final double limpShare;
    private final Derating[] rows;
    /** For each row, the value of its quantity at which the whole torque is left, and the one at which none is. */
    private final double[] wholeAt = new double[Derating.COUNT];

    private final double[] noneAt = new double[Derating.COUNT];
    private final double stepNmPerRoom;
    private final double heldPerTick;
    private double driveShare;
    private double regenShare;

    /** The limit for driving torque (Nm), after {@link #update}. */
    double driveNm;
    /** The limit for regenerating torque (Nm), after {@link #update}. */
    double regenNm;
    /** How far driving torque may grow in this tick (Nm), or must fall where it is negative, after {@link #update}. */
    double driveStepNm;

    TorqueLimits(Settings settings, Set<Interlock> without) {
        driveTorqueNm = settings.get(Parameter.DRIVE_TORQUE_NM);
        regenTorqueNm = settings.get(Parameter.REGEN_TORQUE_NM);
        drivePowerW = settings.get(Parameter.DRIVE_POWER_W);
        reverseShare = settings.get(Parameter.DRIVE_REVERSE_SHARE);
        dischargeMaxA = settings.get(Parameter.PACK_DISCHARGE_MAX_A);
        chargeMaxA = settings.get(Parameter.PACK_CHARGE_MAX_A);
        maxKph = settings.get(Parameter.DRIVE_MAX_KPH);
        reverseMaxKph = settings.get(Parameter.DRIVE_REVERSE_MAX_KPH);
        limpShare = settings.get(Parameter.DRIVE_LIMP_SHARE);
        stepNmPerRoom = driveTorqueNm * settings.tickS() / LowPack.FULL_TORQUE_S;
        heldPerTick = CURRENT_HELD_PER_S * settings.tickS();
        rows = Arrays.stream(Derating.values())
                .filter(row -> !without.contains(row.interlock))
                .toArray(Derating[]::new);
        for (int i = 0; i < rows.length; i++) {
            wholeAt[i] = rows[i].whole == null ? 1 : settings.get(rows[i].whole);
            noneAt[i] = rows[i].none == null ? 0 : settings.get(rows[i].none);
        }
    }

    void update(Permissions p, Facts f, Conditioned c) {
        double sPerRad = 1 / Bounds.greatest(Math.abs(c.motorSpeedRpm) * RAD_PER_S_PER_RPM, LEAST_RAD_PER_S);
        double packV = Bounds.greatest(c.packVoltageV, 0);
        boolean reverse = p.engaged == Direction.REVERSE;
        double drive = reverse ? driveTorqueNm * reverseShare : driveTorqueNm;
        drive = Bounds.least(drive, Bounds.least(drivePowerW, dischargeMaxA * packV) * sPerRad);
        driveStepNm = currentStep(c.packCurrentA, drive);
        drive *= speedFade(c.speedKph * p.engaged.sign, reverse ? reverseMaxKph : maxKph);
        double regen = Bounds.least(regenTorqueNm, chargeMaxA * packV * sPerRad);
        // Not only once pack-full acts: the current must have fallen before the limit is reached, not some time after.
        double regenLeft = c.regenShare;
        if (p.limited) {
            derate(f, c);
            drive *= driveShare;
            regenLeft = Bounds.least(regenLeft, regenShare);
        }
        regen *= regenLeft;
        driveNm = drive > 0 ? drive : 0;
        regenNm = regen > 0 ? regen : 0;
    }

    private static double speedFade(double alongKph, double limitKph) {
        double fromKph = limitKph * SPEED_FADE_SHARE;
        return alongKph <= fromKph ? 1 : share(limitKph - alongKph, limitKph - fromKph);
    }

    /** The least share that any limiting cause leaves, each way. */
    private void derate(Facts f, Conditioned c) {
        driveShare = 1;
        regenShare = 1;
        for (int i = 0; i < rows.length; i++) {
            Derating row = rows[i];
            Cause cause = row.interlock.cause;
            if (f.value(cause.fact()) == cause.value()) {
                double line = share(row.quantity.applyAsDouble(c) - noneAt[i], wholeAt[i] - noneAt[i]);
                driveShare = Bounds.least(driveShare, row.drive.share(line, limpShare));
                regenShare = Bounds.least(regenShare, row.regenerate.share(line, limpShare));
                if (row.drive == Derating.Effect.KEEPS_ROOM) {
                    driveStepNm = Bounds.least(driveStepNm, step(row.quantity.applyAsDouble(c)));
                }
            }
        }
    }

    /**
     * The power at the shaft does not tell the current: what motor, inverter and the 12 V side lose comes on top. So the measured
     * current decides too. An unknown one holds nothing here; it stops the drive by a row of its own.
     */
    private double currentStep(double currentA, double limitNm) {
        double roomShare = 1 - currentA / dischargeMaxA;
        return roomShare < 1 - CURRENT_HELD_FROM ? roomShare * heldPerTick * limitNm : driveTorqueNm;
    }

    private double step(double room) {
        return room == room ? Bounds.least(room * stepNmPerRoom, driveTorqueNm) : -stepNmPerRoom;
    }

    private static double share(double part, double whole) {
        return Bounds.share(part / whole);
    }
}
