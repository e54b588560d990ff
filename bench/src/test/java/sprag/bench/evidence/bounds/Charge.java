package sprag.bench.evidence.bounds;

import java.lang.reflect.Field;
import sprag.supervisor.charge.ChargeShaper;
import sprag.supervisor.input.ChargerLines;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Permissions;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Signal;

/** One tick of the charge shaper with every reading and everything that it can remember at once; which chargers are well is chosen. */
final class Charge {
    private static final double MOST_SAID_A = Signal.CHARGER_1_CURRENT_A.max;

    final Cars car;
    private final int well;
    private final Permissions may = new Permissions();
    private final ChargeShaper shaper;
    private final Conditioned c = new Conditioned();
    private final Readings in = new Readings();
    private final Commands out = new Commands();
    private Walk walk = new Walk();

    /** With the chargers well whose bits are set. */
    Charge(Cars car, int well) {
        this.car = car;
        this.well = well;
        shaper = new ChargeShaper(car.settings());
        may.charging = true;
        for (Field field : Conditioned.class.getDeclaredFields()) {
            if (field.getType() == double.class) {
                walk.set(c, field.getName(), Reals.ANY);
            }
        }
        remember("fromVoltageA", Reals.between(0, greatestA()));
        remember("expectedA", Reals.ANY);
        remember("trimA", Reals.between(0, greatestA()));
        remember("silentA", Reals.between(0, 3 * mostGivenA()));
        for (int i = 0; i < ChargerLines.MOST; i++) {
            asked(i, Reals.between(0, greatestA()));
            walk.setElement(walk.get(shaper, "mayGiveA"), i, Reals.between(0, mostGivenA()));
            walk.setElement(walk.get(shaper, "silentTicks"), i, new Ints(0, mostSilentTicks()));
        }
        walk.stub("ChargerLines.well", args -> Truth.of((well >> ((Ints) args.get(0)).lo() & 1) == 1));
        walk.stub("ChargerLines.currentA", args -> Reals.between(0, MOST_SAID_A).orNan());
    }

    private void remember(String field, Reals value) {
        walk.set(shaper, field, value);
    }

    double greatestA() {
        return Math.min(car.get(Parameter.CHARGE_CURRENT_A), car.get(Parameter.PACK_CHARGE_MAX_A));
    }

    double mostGivenA() {
        return Math.max(MOST_SAID_A, greatestA());
    }

    int mostSilentTicks() {
        return ((Ints) walk.get(shaper, "mostSilentTicks")).lo();
    }

    boolean isLimited() {
        return car.settings().is(Parameter.CHARGER_CONTROL, "limited");
    }

    double wellW() {
        Parameter[] ratings = {Parameter.CHARGER_1_MAX_W, Parameter.CHARGER_2_MAX_W, Parameter.CHARGER_3_MAX_W};
        double sumW = 0;
        for (int i = 0; i < ratings.length; i++) {
            sumW += (well >> i & 1) == 1 ? car.get(ratings[i]) : 0;
        }
        return sumW;
    }

    Charge permitted(boolean charging) {
        may.charging = charging;
        return this;
    }

    Charge asked(int charger, Reals value) {
        walk.setElement(walk.get(shaper, "askedA"), charger, value);
        return this;
    }

    /** The tick with some quantities as given and all else anything. */
    Tick with(Object... namesAndValues) {
        Walk tick = walk.copy();
        for (int i = 0; i < namesAndValues.length; i += 2) {
            tick.set(c, (String) namesAndValues[i], namesAndValues[i + 1]);
        }
        tick.call(shaper, "shape", may, c, in, out);
        return new Tick(tick);
    }

    /** What a tick left behind. */
    final class Tick {
        private final Walk walk;

        private Tick(Walk walk) {
            this.walk = walk;
        }

        Reals out(Output output) {
            return (Reals) walk.element(walk.get(out, "value"), output.ordinal());
        }

        Reals totalA() {
            return out(Output.CHARGE_CURRENT_LIMIT_A);
        }

        Object remembered(String field) {
            return walk.get(shaper, field);
        }

        Object remembered(String array, int i) {
            return walk.element(walk.get(shaper, array), i);
        }
    }
}
