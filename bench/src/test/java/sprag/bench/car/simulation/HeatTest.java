package sprag.bench.car.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import sprag.bench.car.Quantity;
import sprag.bench.car.drive.Machine;
import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.Vehicle;
import sprag.supervisor.vocabulary.Output;

/** Temperatures: steady states by hand, and what stops the flow. */
class HeatTest {
    private static final Vehicle COUPE = Driven.shipped("coupe");

    /** Runs the drive's network alone under constant losses. */
    private static Heat heated(Heat.Flow flow, double motorW, double inverterW, double forS) {
        Heat heat = new Heat(COUPE, 20);
        Machine machine = new Machine(COUPE);
        flow.ambientC = 20;
        for (int i = 0; i < forS * 10; i++) {
            machine.motorLossJ += motorW * 0.1;
            machine.inverterLossJ += inverterW * 0.1;
            heat.drive(machine, flow, 0.1);
        }
        return heat;
    }

    @Test
    void constantLosses_pumpAndFan_settleWhereTheConductancesSay() {
        Heat.Flow flow = new Heat.Flow();
        flow.pump = true;
        flow.fan = 1;
        Heat heat = heated(flow, 3000, 1500, 20_000);
        double coolant = 20 + 4500.0 / 320;
        assertEquals(coolant, heat.coolantC, 0.01, "all of it leaves by the radiator");
        assertEquals(coolant + 3000.0 / 120, heat.motorC, 0.01);
        assertEquals(coolant + 1500.0 / 250, heat.inverterC, 0.01);
    }

    @Test
    void firstMinute_withoutCooling_isHeatOverCapacity() {
        Heat heat = heated(new Heat.Flow(), 0, 1500, 2);
        assertEquals(1500.0 * 2 / 4000, heat.inverterC - 20, 0.01);
    }

    @Test
    void pumpStopped_inverter_leavesTheCoolantBehind() {
        Heat.Flow flow = new Heat.Flow();
        flow.fan = 1;
        Heat heat = heated(flow, 3000, 1500, 600);
        assertTrue(heat.inverterC - heat.coolantC > 60, heat.inverterC + " against " + heat.coolantC);
    }

    @Test
    void wind_insteadOfTheFan_coolsAsWell() {
        Heat.Flow standing = new Heat.Flow();
        standing.pump = true;
        Heat.Flow moving = new Heat.Flow();
        moving.pump = true;
        moving.speedMps = 20;
        assertTrue(heated(standing, 3000, 1500, 900).coolantC > heated(moving, 3000, 1500, 900).coolantC + 20);
    }

    @Test
    void heaterElement_withoutBlower_getsFarHotterThanWith() {
        Driven blown = Driven.of("parcel-van").connect().on(Output.HEATER_BLOWER, Output.HEATER_ELEMENT);
        Driven still = Driven.of("parcel-van").connect().on(Output.HEATER_ELEMENT);
        blown.runS(60);
        still.runS(60);
        assertTrue(blown.truth(Quantity.HEATER_TEMP_C) < 45, "blown " + blown.truth(Quantity.HEATER_TEMP_C));
        assertTrue(still.truth(Quantity.HEATER_TEMP_C) > 120, "still " + still.truth(Quantity.HEATER_TEMP_C));
    }

    @Test
    void element_atTheBusVoltage_takesItsPowerWithTheSquare() {
        Driven van = Driven.of("parcel-van")
                .connect()
                .on(Output.HEATER_BLOWER, Output.HEATER_ELEMENT)
                .runS(1);
        double busV = van.truth(Quantity.BUS_VOLTAGE_V);
        assertEquals(1500 * busV * busV / (96 * 96), van.truth(Quantity.HEATER_POWER_W), 1e-6);
    }

    @Test
    void resistor_afterOnePrecharge_isAsWarmAsItsEnergySays() {
        Driven van = Driven.of("parcel-van");
        van.on(Output.NEGATIVE_CONTACTOR, Output.PRECHARGE_RELAY).runS(1.1);
        double rise = van.truth(Quantity.RESISTOR_ENERGY_J) / van.vehicle.get(CarParameter.PARTS_RESISTOR_J_PER_K);
        assertEquals(20 + rise, van.truth(Quantity.RESISTOR_TEMP_C), 0.05 * rise);
    }
}
