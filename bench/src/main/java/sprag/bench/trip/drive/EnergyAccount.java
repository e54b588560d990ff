package sprag.bench.trip.drive;

import static sprag.bench.car.Quantity.BLEED_ENERGY_J;
import static sprag.bench.car.Quantity.BOX_LOSS_J;
import static sprag.bench.car.Quantity.BRAKE_HEAT_J;
import static sprag.bench.car.Quantity.BUS_LOAD_ENERGY_J;
import static sprag.bench.car.Quantity.BUS_STORED_J;
import static sprag.bench.car.Quantity.DRAG_LOSS_J;
import static sprag.bench.car.Quantity.GEAR_LOSS_J;
import static sprag.bench.car.Quantity.HEATER_ENERGY_J;
import static sprag.bench.car.Quantity.INVERTER_LOSS_J;
import static sprag.bench.car.Quantity.KINETIC_J;
import static sprag.bench.car.Quantity.MOTOR_LOSS_J;
import static sprag.bench.car.Quantity.PACK_LOSS_J;
import static sprag.bench.car.Quantity.PACK_SLOW_J;
import static sprag.bench.car.Quantity.PACK_STORED_OUT_J;
import static sprag.bench.car.Quantity.POTENTIAL_J;
import static sprag.bench.car.Quantity.RESISTOR_ENERGY_J;
import static sprag.bench.car.Quantity.ROLLING_LOSS_J;

import java.util.List;
import sprag.bench.car.Quantity;

/** Where the energy of the cells went. Each part is booked by its own law, so that the sum is a check. */
public enum EnergyAccount {
    /** Deformation of tyres. */
    ROLLING("rolling", ROLLING_LOSS_J),
    /** Air drag. */
    AIR("air", DRAG_LOSS_J),
    /** Height that is gained; negative when the end is lower than the start. */
    CLIMBING("climbing", POTENTIAL_J),
    /** Friction brakes. */
    BRAKES("brakes", BRAKE_HEAT_J),
    /** Gear. */
    GEAR("gear", GEAR_LOSS_J),
    /** Motor. */
    MOTOR("motor", MOTOR_LOSS_J),
    /** Inverter. */
    INVERTER("inverter", INVERTER_LOSS_J),
    /** Heat in the cells, and what their slow part still holds. */
    CELLS("cells", PACK_LOSS_J, PACK_SLOW_J),
    /** Contacts, precharge, bleed resistor, and what the capacitors still hold. */
    BUS("contactors and bus", BOX_LOSS_J, RESISTOR_ENERGY_J, BLEED_ENERGY_J, BUS_STORED_J),
    /** What the DC-DC converter took, with loads left on. */
    LOW_VOLTAGE("12 V side", BUS_LOAD_ENERGY_J) {
        @Override
        double joule(Ride ride) {
            return super.joule(ride) - ride.truth(HEATER_ENERGY_J);
        }
    },
    /** Cabin heater. */
    HEATER("heater", HEATER_ENERGY_J),
    /** Speed that is left at the end. */
    SPEED("speed at the end", KINETIC_J);

    /** The name for people. */
    public final String words;

    private final List<Quantity> sums;

    EnergyAccount(String words, Quantity... sums) {
        this.words = words;
        this.sums = List.of(sums);
    }

    /** What has gone there since the car was made. */
    double joule(Ride ride) {
        double sum = 0;
        for (Quantity each : sums) {
            sum += ride.truth(each);
        }
        return sum;
    }

    /** Every account of a ride, in order. */
    static double[] read(Ride ride) {
        double[] all = new double[values().length];
        for (EnergyAccount each : values()) {
            all[each.ordinal()] = each.joule(ride);
        }
        return all;
    }

    /** What the cells gave. */
    static double fromCells(Ride ride) {
        return ride.truth(PACK_STORED_OUT_J);
    }
}
