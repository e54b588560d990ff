package sprag.supervisor.drive;

import sprag.supervisor.vocabulary.Bounds;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Facts;
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

    private final double driveTorqueNm;
    private final double regenTorqueNm;
    private final double drivePowerW;
    private final double reverseShare;
    private final double dischargeMaxA;
    private final double chargeMaxA;
    private final double maxKph;
    private final double reverseMaxKph;
    private final double limpShare;
    private final Settings settings;

    /** The limit for driving torque (Nm), after {@link #update}. */
    double driveNm;
    /** The limit for regenerating torque (Nm), after {@link #update}. */
    double regenNm;

    TorqueLimits(Settings settings) {
        this.settings = settings;
        driveTorqueNm = settings.get(Parameter.DRIVE_TORQUE_NM);
        regenTorqueNm = settings.get(Parameter.REGEN_TORQUE_NM);
        drivePowerW = settings.get(Parameter.DRIVE_POWER_W);
        reverseShare = settings.get(Parameter.DRIVE_REVERSE_SHARE);
        dischargeMaxA = settings.get(Parameter.PACK_DISCHARGE_MAX_A);
        chargeMaxA = settings.get(Parameter.PACK_CHARGE_MAX_A);
        maxKph = settings.get(Parameter.DRIVE_MAX_KPH);
        reverseMaxKph = settings.get(Parameter.DRIVE_REVERSE_MAX_KPH);
        limpShare = settings.get(Parameter.DRIVE_LIMP_SHARE);
    }

    void update(Permissions p, Facts f, Conditioned c) {
        double sPerRad = 1 / Bounds.greatest(Math.abs(c.motorSpeedRpm) * RAD_PER_S_PER_RPM, LEAST_RAD_PER_S);
        double packV = Bounds.greatest(c.packVoltageV, 0);
        boolean reverse = p.engaged == Direction.REVERSE;
        double drive = reverse ? driveTorqueNm * reverseShare : driveTorqueNm;
        drive = Bounds.least(drive, Bounds.least(drivePowerW, dischargeMaxA * packV) * sPerRad);
        drive *= speedFade(c.speedKph * p.engaged.sign, reverse ? reverseMaxKph : maxKph);
        double regen = Bounds.least(regenTorqueNm, chargeMaxA * packV * sPerRad);
        if (p.limited) {
            double heat = heatShare(f, c);
            drive *= Bounds.least(heat, driveShare(f, c));
            regen *= Bounds.least(heat, regenShare(f, c));
        }
        driveNm = drive > 0 ? drive : 0;
        regenNm = regen > 0 ? regen : 0;
    }

    private static double speedFade(double alongKph, double limitKph) {
        double fromKph = limitKph * SPEED_FADE_SHARE;
        return alongKph <= fromKph ? 1 : share(limitKph - alongKph, limitKph - fromKph);
    }

    /** Motor, inverter and coolant: from all at warm to nothing at hot; a limp share where nobody knows. */
    private double heatShare(Facts f, Conditioned c) {
        double share = f.is(Fact.DRIVE_SENSOR_LOST) || f.is(Fact.COOLING_LOST) ? limpShare : 1;
        if (f.is(Fact.MOTOR_WARM)) {
            share = Bounds.least(share, warm(c.motorTempC, Parameter.MOTOR_WARM_C, Parameter.MOTOR_HOT_C));
        }
        if (f.is(Fact.INVERTER_WARM)) {
            share = Bounds.least(share, warm(c.inverterTempC, Parameter.INVERTER_WARM_C, Parameter.INVERTER_HOT_C));
        }
        if (f.is(Fact.COOLANT_WARM)) {
            share = Bounds.least(share, warm(c.coolantTempC, Parameter.COOLANT_WARM_C, Parameter.COOLANT_HOT_C));
        }
        if (f.is(Fact.PACK_WARM)) {
            share = Bounds.least(share, warm(c.packHotC, Parameter.PACK_WARM_C, Parameter.PACK_HOT_C));
        }
        return share;
    }

    /** As {@link #below}, but what nobody knows any more is taken as warm. */
    private double warm(double valueC, Parameter warmC, Parameter hotC) {
        double share = below(valueC, warmC, hotC);
        return share == share ? share : limpShare;
    }

    /** What speaks against taking current out of the pack. */
    private double driveShare(Facts f, Conditioned c) {
        if (f.is(Fact.OVERSPEED)) {
            return 0;
        }
        boolean limps = f.is(Fact.PACK_SENSOR_LOST) || f.is(Fact.MONITOR_SILENT) || halfWell(f);
        double share = limps ? limpShare : 1;
        if (f.is(Fact.PACK_LOW)) {
            double cell = above(c.cellMinV, Parameter.CELL_MIN_V, Parameter.CELL_LOW_V);
            share = Bounds.least(share, cell == cell ? Bounds.greatest(cell, 0.1) : limpShare);
        }
        return share;
    }

    /** What leaves torque either way, but only to get home. */
    private static boolean halfWell(Facts f) {
        return f.is(Fact.ISOLATION_LOW) || f.is(Fact.ISOLATION_SILENT) || f.is(Fact.LV_LOW);
    }

    /** What speaks against putting current into the pack. */
    private double regenShare(Facts f, Conditioned c) {
        if (f.is(Fact.CHARGE_WITHDRAWN) || f.is(Fact.PACK_SENSOR_LOST) || f.is(Fact.MONITOR_SILENT)) {
            return 0;
        }
        double share = halfWell(f) ? limpShare : 1;
        if (f.is(Fact.PACK_COOL)) {
            share = Bounds.least(share, above(c.packColdC, Parameter.PACK_COLD_C, Parameter.PACK_COOL_C));
        }
        if (f.is(Fact.PACK_FULL)) {
            double cell = below(c.cellMaxV, Parameter.CELL_HIGH_V, Parameter.CELL_MAX_V);
            share = cell == cell ? Bounds.least(share, cell) : 0;
        }
        return share;
    }

    /** 1 at the lower value, 0 at the upper; NaN when the quantity is unknown. */
    private double below(double value, Parameter lower, Parameter upper) {
        return share(settings.get(upper) - value, settings.get(upper) - settings.get(lower));
    }

    /** 0 at the lower value, 1 at the upper; NaN when the quantity is unknown. */
    private double above(double value, Parameter lower, Parameter upper) {
        return share(value - settings.get(lower), settings.get(upper) - settings.get(lower));
    }

    private static double share(double part, double whole) {
        return Bounds.share(part / whole);
    }
}
