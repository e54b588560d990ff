package sprag.bench.drawing.draft;

import sprag.bench.vehicle.CarParameter;
import sprag.bench.vehicle.SizingParameter;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Signal;

/** Drafts the traction side: pack, contactors, precharge, inverter, chargers, DC-DC converter, heater. */
final class PowerDraft {
    private static final double CONVERTER_EFFICIENCY = 0.9;
    private static final double LOW_V = 14;
    /** 12 V for supervisor, coils, monitor and what nobody thinks of; common practice. */
    private static final double OTHER_LOW_A = 15;

    private final Builder b;
    private final double mainFuseA;
    private final double mainA;
    private final double minV;
    private final String ratedV;

    PowerDraft(Builder builder) {
        b = builder;
        mainFuseA = b.sizes.mainFuseA();
        mainA = b.sizes.mainA();
        minV = b.vehicle.get(Parameter.PACK_MIN_V);
        ratedV = Sizes.text(b.sizes.tractionV());
    }

    void draft() {
        parts();
        b.traction("pack.plus", "fuse_main.in", "pack_plus", mainFuseA, mainA);
        b.traction("fuse_main.out", "service_switch.in", "pack_inside", mainFuseA, mainA);
        afterServiceSwitch();
        b.traction(Builder.next("bar_pack_plus"), "contactor_positive.in", "pack_fused", mainFuseA, mainA);
        if (b.answers.packBoxes() == 2) {
            secondBox();
        } else {
            b.minus("pack.minus", "shunt.pack", "pack_minus", mainFuseA, mainA);
        }
        b.minus("shunt.load", Builder.next("bar_pack_minus"), "pack_return", mainFuseA, mainA);
        b.minus(Builder.next("bar_pack_minus"), "contactor_negative.in", "pack_return", mainFuseA, mainA);
        b.sense("battery_monitor.sense_plus", "battery_monitor.sense_minus");
        b.stub(Builder.next("bar_pack_plus"), "fuse_precharge.in", "pack_fused", 5);
        b.traction("fuse_precharge.out", "relay_precharge.in", "precharge_fused", 5, 0.2);
        b.traction("relay_precharge.out", "resistor_precharge.in", "precharge_switched", 5, 0.2);
        b.stub("resistor_precharge.out", "contactor_positive.out", "bus_plus", 5);
        b.traction("contactor_positive.out", Builder.next("bar_bus_plus"), "bus_plus", mainFuseA, mainA);
        b.minus("contactor_negative.out", Builder.next("bar_bus_minus"), "bus_minus", mainFuseA, mainA);
        for (int n = 1; n <= b.answers.motors(); n++) {
            drive(n == 1 ? "" : "_" + n, mainA / b.answers.motors());
        }
        if (b.answers.bleedResistors() == 1) {
            bleed();
        }
        chargers();
        converter();
        if (b.vehicle.fitted().contains(Signal.HEATER_REQUEST)) {
            heater();
        }
        if (b.vehicle.fitted().contains(Signal.ISOLATION_KOHM)) {
            b.part("fuse_isolation", Place.PACK, "fuse," + ratedV + ",1,20000");
            b.part("isolation_monitor", Place.PACK, "isolation-monitor," + ratedV);
            b.stub(Builder.next("bar_pack_plus"), "fuse_isolation.in", "pack_fused", 1);
            b.traction("fuse_isolation.out", "isolation_monitor.plus", "isolation_plus", 1, Double.NaN);
            b.minus("isolation_monitor.minus", Builder.next("bar_pack_minus"), "pack_return", 1, Double.NaN);
        }
    }

    /** A small current, on wires as thin: so it needs a fuse, and the supervisor sees when the bus does not fall. */
    private void bleed() {
        b.part("fuse_bleed", Place.PACK, "fuse," + ratedV + ",1,20000");
        b.part("resistor_bleed", Place.PACK, "load," + ratedV);
        b.stub(Builder.next("bar_bus_plus"), "fuse_bleed.in", "bus_plus", 1);
        b.traction("fuse_bleed.out", "resistor_bleed.plus", "bleed_plus", 1, Double.NaN);
        b.minus("resistor_bleed.minus", Builder.next("bar_bus_minus"), "bus_minus", 1, Double.NaN);
    }

    private void drive(String number, double currentA) {
        String inverter = "inverter" + number;
        b.part(inverter, Place.MOTOR, "inverter," + ratedV);
        b.part("motor" + number, Place.MOTOR, "motor," + ratedV);
        b.traction(Builder.next("bar_bus_plus"), inverter + ".plus", "bus_plus", mainFuseA, currentA);
        b.minus(Builder.next("bar_bus_minus"), inverter + ".minus", "bus_minus", mainFuseA, currentA);
        for (String phase : new String[] {"u", "v", "w"}) {
            b.minus(
                    inverter + "." + phase,
                    "motor" + number + "." + phase,
                    "phase_" + phase + number,
                    mainFuseA,
                    currentA);
        }
    }

    /** The second current sensor sits in the other pole than the first, so that one fault does not blind both. */
    private void afterServiceSwitch() {
        String from = "service_switch.out";
        if (b.vehicle.fitted().contains(Signal.PACK_CURRENT_2_A)) {
            b.part("current_sensor", Place.PACK, "current-sensor," + ratedV + "," + Sizes.text(mainFuseA));
            b.traction(from, "current_sensor.pack", "pack_switched", mainFuseA, mainA);
            from = "current_sensor.load";
        }
        b.traction(from, Builder.next("bar_pack_plus"), "pack_fused", mainFuseA, mainA);
    }

    /**
     * The second half of the pack, in series. It has a fuse and a service switch of its own, because the cable between the boxes
     * would stay live without. Both its poles go through a connector at each box.
     */
    private void secondBox() {
        String box = ratedV + "," + Sizes.text(mainFuseA);
        b.part(
                "pack_rear",
                Place.REAR,
                "pack," + Sizes.text(b.vehicle.get(Parameter.PACK_MAX_V)) + "," + Sizes.text(mainFuseA));
        b.part("fuse_rear", Place.REAR, "fuse," + box + ",20000");
        b.part("service_switch_rear", Place.REAR, "cut-off," + box);
        b.part("connector_pack_front", Place.PACK, "connector," + box);
        b.part("connector_pack_rear", Place.REAR, "connector," + box);
        String middle = "pack_middle";
        b.minus("pack.minus", "connector_pack_front.middle", middle, mainFuseA, mainA);
        b.minus("connector_pack_front.middle", "connector_pack_rear.middle", middle, mainFuseA, mainA);
        b.minus("connector_pack_rear.middle", "service_switch_rear.out", middle, mainFuseA, mainA);
        b.traction("pack_rear.plus", "fuse_rear.in", "pack_rear_plus", mainFuseA, mainA);
        b.traction("fuse_rear.out", "service_switch_rear.in", "pack_rear_fused", mainFuseA, mainA);
        b.minus("pack_rear.minus", "connector_pack_rear.return", "pack_minus", mainFuseA, mainA);
        b.minus("connector_pack_rear.return", "connector_pack_front.return", "pack_minus", mainFuseA, mainA);
        b.minus("connector_pack_front.return", "shunt.pack", "pack_minus", mainFuseA, mainA);
    }

    private void parts() {
        b.part(
                "pack",
                Place.PACK,
                "pack," + Sizes.text(b.vehicle.get(Parameter.PACK_MAX_V)) + "," + Sizes.text(mainFuseA));
        b.part("fuse_main", Place.PACK, "fuse," + ratedV + "," + Sizes.text(mainFuseA) + ",20000");
        b.part("service_switch", Place.PACK, "cut-off," + ratedV + "," + Sizes.text(mainFuseA));
        b.part("shunt", Place.PACK, "shunt," + ratedV + "," + Sizes.text(mainFuseA));
        for (String pole : new String[] {"negative", "positive"}) {
            b.part(
                    "contactor_" + pole,
                    Place.PACK,
                    "contactor," + ratedV + "," + Sizes.text(mainFuseA) + ",1000,9,built-in");
        }
        b.part("relay_precharge", Place.PACK, "relay," + ratedV + ",10,10,8,zener");
        b.part("resistor_precharge", Place.PACK, "resistor," + Sizes.text(Math.max(500, b.sizes.tractionV())));
        b.part("fuse_precharge", Place.PACK, "fuse," + ratedV + ",5,20000");
        for (String bar : new String[] {"bar_pack_plus", "bar_pack_minus", "bar_bus_plus", "bar_bus_minus"}) {
            b.part(bar, Place.PACK, "splice");
        }
        b.part("battery_monitor", Place.PACK, "monitor," + ratedV);
    }

    /** On the pack's side a relay takes each charger off the pack when the cut-off is pressed; on the bus the contactors do. */
    private void chargers() {
        boolean onBus = b.vehicle.is(Parameter.CHARGER_SIDE, "bus-side");
        int count = b.chargers();
        double[] maxW = {
            b.vehicle.get(Parameter.CHARGER_1_MAX_W),
            b.vehicle.get(Parameter.CHARGER_2_MAX_W),
            b.vehicle.get(Parameter.CHARGER_3_MAX_W)
        };
        double greatestA = 0;
        for (int n = 1; n <= count; n++) {
            greatestA = Math.max(greatestA, maxW[n - 1] / minV);
        }
        double fuseA = Sizes.fuseA(greatestA);
        for (int n = 1; n <= count; n++) {
            String charger = "charger_" + n;
            double currentA = maxW[n - 1] / minV;
            b.part("fuse_" + charger, Place.PACK, "fuse," + ratedV + "," + Sizes.text(fuseA) + ",20000");
            b.part(charger, Place.INLET, "charger," + ratedV + "," + Sizes.text(currentA));
            String pole = n == 1 ? "" : "_" + n;
            branch("relay_charge", pole, charger, onBus, new double[] {fuseA, currentA});
        }
    }

    private void branch(String relay, String pole, String taker, boolean onBus, double[] fuseAndCurrentA) {
        double fuseA = fuseAndCurrentA[0];
        double currentA = fuseAndCurrentA[1];
        b.stub(
                Builder.next(onBus ? "bar_bus_plus" : "bar_pack_plus"),
                "fuse_" + taker + ".in",
                onBus ? "bus_plus" : "pack_fused",
                fuseA);
        String feed = "fuse_" + taker + ".out";
        if (!onBus) {
            b.part(
                    relay,
                    Place.PACK,
                    "relay," + ratedV + "," + Sizes.text(fuseA) + "," + Sizes.text(fuseA) + ",10,zener,holds-off");
            b.traction(feed, relay + ".in" + pole, taker + "_fused", fuseA, currentA);
            feed = relay + ".out" + pole;
        }
        b.traction(feed, taker + ".plus", taker + "_plus", fuseA, currentA);
        b.minus(
                taker + ".minus",
                Builder.next(onBus ? "bar_bus_minus" : "bar_pack_minus"),
                onBus ? "bus_minus" : "pack_return",
                fuseA,
                currentA);
    }

    /** What the DC-DC converter gives on the 12 V side (A): what the loads need, or more when its label says so. */
    static double converterA(Builder b) {
        double sum = OTHER_LOW_A;
        for (SizingParameter each : new SizingParameter[] {
            SizingParameter.SUPPLY_LIGHTS_A, SizingParameter.SUPPLY_WIPERS_A, SizingParameter.SUPPLY_ASSIST_A
        }) {
            double given = b.vehicle.get(each);
            sum += Double.isNaN(given) ? 0 : given;
        }
        return Math.max(Math.ceil(sum * 1.25 / 10) * 10, b.vehicle.get(CarParameter.LV_DCDC_MAX_A));
    }

    private void converter() {
        double currentA = converterA(b) * LOW_V / CONVERTER_EFFICIENCY / minV;
        double fuseA = Sizes.fuseA(currentA);
        b.part("fuse_dcdc", Place.PACK, "fuse," + ratedV + "," + Sizes.text(fuseA) + ",20000");
        b.part("dcdc", Place.MOTOR, "dcdc," + ratedV + "," + Sizes.text(currentA));
        branch("relay_dcdc", "", "dcdc", b.vehicle.is(Parameter.DCDC_SIDE, "bus-side"), new double[] {fuseA, currentA});
    }

    private void heater() {
        double currentA = b.answers.heaterW() / minV;
        double fuseA = Sizes.fuseA(currentA);
        b.part("fuse_heater", Place.PACK, "fuse," + ratedV + "," + Sizes.text(fuseA) + ",20000");
        b.part(
                "relay_heater",
                Place.PACK,
                "relay," + ratedV + "," + Sizes.text(fuseA) + "," + Sizes.text(fuseA) + ",10,zener");
        b.part("heater", Place.CABIN, "heater," + ratedV + "," + Sizes.text(currentA));
        b.stub(Builder.next("bar_bus_plus"), "fuse_heater.in", "bus_plus", fuseA);
        b.traction("fuse_heater.out", "relay_heater.in", "heater_fused", fuseA, currentA);
        b.traction("relay_heater.out", "heater.plus", "heater_plus", fuseA, currentA);
        b.minus("heater.minus", Builder.next("bar_bus_minus"), "bus_minus", fuseA, currentA);
    }
}
