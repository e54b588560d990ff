package sprag.supervisor.input;

import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.Signal;

/** Temperatures of motor, inverter, coolant, pack, chargers and heater, and whether their sensors can be believed. */
final class ThermalInput {
    /** How far a temperature must fall before a limit is taken back. */
    private static final double HYSTERESIS_K = 3;

    private final TemperatureTable ntc;
    private final TemperatureTable motor;
    private final boolean hasMotor;
    private final boolean hasInverter;
    private final boolean hasCoolant;
    private final boolean hasCharger;
    private final boolean hasHeater;
    private final double motorWarmC;
    private final double motorHotC;
    private final double inverterWarmC;
    private final double inverterHotC;
    private final double coolantWarmC;
    private final double coolantHotC;
    private final double coolantLagK;
    private final double packWarmC;
    private final double packHotC;
    private final double packCoolC;
    private final double packColdC;
    private final double chargeHotC;
    private final double chargerHotC;
    private final double calmHotC;

    ThermalInput(Settings settings) {
        ntc = TemperatureTable.ntc(settings);
        motor = TemperatureTable.motor(settings);
        hasMotor = settings.has(Signal.MOTOR_TEMP_V);
        hasInverter = settings.has(Signal.INVERTER_TEMP_V);
        hasCoolant = settings.has(Signal.COOLANT_TEMP_V);
        hasCharger = settings.has(Signal.CHARGER_TEMP_V);
        hasHeater = settings.has(Signal.HEATER_TEMP_V);
        motorWarmC = settings.get(Parameter.MOTOR_WARM_C);
        motorHotC = settings.get(Parameter.MOTOR_HOT_C);
        inverterWarmC = settings.get(Parameter.INVERTER_WARM_C);
        inverterHotC = settings.get(Parameter.INVERTER_HOT_C);
        coolantWarmC = settings.get(Parameter.COOLANT_WARM_C);
        coolantHotC = settings.get(Parameter.COOLANT_HOT_C);
        coolantLagK = settings.get(Parameter.COOLANT_LAG_K);
        packWarmC = settings.get(Parameter.PACK_WARM_C);
        packHotC = settings.get(Parameter.PACK_HOT_C);
        packCoolC = settings.get(Parameter.PACK_COOL_C);
        packColdC = settings.get(Parameter.PACK_COLD_C);
        chargeHotC = settings.get(Parameter.CHARGE_HOT_C);
        chargerHotC = settings.get(Parameter.CHARGER_HOT_C);
        calmHotC = Math.min(packWarmC, chargeHotC);
    }

    void update(Readings in, TickFacts facts, Debounce debounce, Conditioned out) {
        out.motorTempC = hasMotor ? motor.celsius(in.get(Signal.MOTOR_TEMP_V)) : Double.NaN;
        out.inverterTempC = read(hasInverter, in, Signal.INVERTER_TEMP_V);
        out.coolantTempC = read(hasCoolant, in, Signal.COOLANT_TEMP_V);
        out.packHotC = read(true, in, Signal.PACK_HOT_V);
        out.packColdC = read(true, in, Signal.PACK_COLD_V);
        out.chargerTempC = read(hasCharger, in, Signal.CHARGER_TEMP_V);
        out.heaterTempC = read(hasHeater, in, Signal.HEATER_TEMP_V);
        if (debounce.isCounting() || !calm(out)) {
            drive(facts, debounce, out);
            pack(facts, debounce, out);
            above(Fact.CHARGER_OVERHEATED, out.chargerTempC, chargerHotC, facts, debounce);
        }
    }

    private double read(boolean fitted, Readings in, Signal signal) {
        return fitted ? ntc.celsius(in.get(signal)) : Double.NaN;
    }

    /** Whether every fitted sensor is known and none is near a limit. */
    private boolean calm(Conditioned out) {
        boolean drive = (out.motorTempC < motorWarmC || !hasMotor)
                && (out.inverterTempC < inverterWarmC || !hasInverter)
                && (out.coolantTempC < coolantWarmC || !hasCoolant)
                && !(out.inverterTempC - out.coolantTempC > coolantLagK);
        return drive
                && out.packHotC < calmHotC
                && out.packColdC > packCoolC
                && (out.chargerTempC < chargerHotC || !hasCharger);
    }

    private void drive(TickFacts facts, Debounce debounce, Conditioned out) {
        above(Fact.MOTOR_WARM, out.motorTempC, motorWarmC, facts, debounce);
        above(Fact.MOTOR_OVERHEATED, out.motorTempC, motorHotC, facts, debounce);
        above(Fact.INVERTER_WARM, out.inverterTempC, inverterWarmC, facts, debounce);
        above(Fact.INVERTER_OVERHEATED, out.inverterTempC, inverterHotC, facts, debounce);
        above(Fact.COOLANT_WARM, out.coolantTempC, coolantWarmC, facts, debounce);
        above(Fact.COOLANT_OVERHEATED, out.coolantTempC, coolantHotC, facts, debounce);
        above(Fact.COOLING_LOST, out.inverterTempC - out.coolantTempC, coolantLagK, facts, debounce);
        boolean lost = hasMotor && out.motorTempC != out.motorTempC
                || hasInverter && out.inverterTempC != out.inverterTempC
                || hasCoolant && out.coolantTempC != out.coolantTempC;
        debounce.into(facts, Fact.DRIVE_SENSOR_LOST, lost);
    }

    private void pack(TickFacts facts, Debounce debounce, Conditioned out) {
        above(Fact.PACK_WARM, out.packHotC, packWarmC, facts, debounce);
        above(Fact.PACK_OVERHEATED, out.packHotC, packHotC, facts, debounce);
        above(Fact.PACK_TOO_WARM_TO_CHARGE, out.packHotC, chargeHotC, facts, debounce);
        above(Fact.PACK_COOL, -out.packColdC, -packCoolC, facts, debounce);
        above(Fact.PACK_TOO_COLD, -out.packColdC, -packColdC, facts, debounce);
        boolean lost = out.packHotC != out.packHotC || out.packColdC != out.packColdC;
        debounce.into(facts, Fact.PACK_SENSOR_LOST, lost);
    }

    /** True above the limit, until it has fallen by the hysteresis. */
    private static void above(Fact fact, double value, double limit, TickFacts facts, Debounce debounce) {
        boolean stays = value > limit - HYSTERESIS_K && debounce.was(fact);
        debounce.into(facts, fact, value > limit || stays);
    }
}
