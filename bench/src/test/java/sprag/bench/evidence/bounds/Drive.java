package sprag.bench.evidence.bounds;

import java.lang.reflect.Field;
import sprag.supervisor.drive.TorqueShaper;
import sprag.supervisor.input.TickFacts;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Direction;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Permissions;
import sprag.supervisor.vocabulary.TorquePermission;

/** One tick of the torque shaper with every reading, every fact and every torque of the tick before at once. */
final class Drive {
    /** The most that facts with labels have. */
    private static final Ints ANY_FACT = new Ints(0, 3);

    final Cars car;
    final Permissions may = new Permissions();
    private final TorqueShaper shaper;
    private final TickFacts facts = new TickFacts();
    private final Conditioned c = new Conditioned();
    private final Commands out = new Commands();
    private Walk walk = new Walk();

    Drive(Cars car) {
        this.car = car;
        shaper = new TorqueShaper(car.settings());
        may.torque = TorquePermission.FOLLOW_PEDAL;
        may.engaged = Direction.FORWARD;
        may.inverterEnabled = true;
        may.limited = true;
        for (Field field : Conditioned.class.getDeclaredFields()) {
            if (field.getType() == double.class) {
                walk.set(c, field.getName(), Reals.ANY);
            }
        }
        quantity("travel", Reals.between(0, 1).orNan());
        quantity("regenAsked", Reals.between(0, 1));
        quantity("regenShare", Reals.between(0, 1).orNan());
        walk.set(c, "regenLevel", new Ints(0, 4));
        Object values = walk.get(facts, "value");
        for (Fact fact : Fact.values()) {
            walk.setElement(values, fact.ordinal(), ANY_FACT);
        }
        before(Reals.between(-most(), most()));
    }

    /** The same, to be changed apart. */
    Drive but() {
        return new Drive(this);
    }

    private Drive(Drive other) {
        car = other.car;
        shaper = other.shaper;
        walk = other.walk.copy();
        walk.set(c, "regenLevel", other.walk.get(other.c, "regenLevel"));
        may.torque = other.may.torque;
        may.engaged = other.may.engaged;
        may.inverterEnabled = other.may.inverterEnabled;
        may.limited = other.may.limited;
        for (Field field : Conditioned.class.getDeclaredFields()) {
            walk.set(c, field.getName(), other.walk.get(other.c, field.getName()));
        }
        Object values = walk.get(facts, "value");
        for (Fact fact : Fact.values()) {
            walk.setElement(values, fact.ordinal(), ANY_FACT);
        }
    }

    double most() {
        return Math.max(car.get(Parameter.DRIVE_TORQUE_NM), car.get(Parameter.REGEN_TORQUE_NM));
    }

    Drive quantity(String name, Reals value) {
        walk.set(c, name, value);
        return this;
    }

    Drive level(int level) {
        walk.set(c, "regenLevel", Ints.of(level));
        return this;
    }

    Drive fact(Fact fact, int value) {
        walk.setElement(walk.get(facts, "value"), fact.ordinal(), Ints.of(value));
        return this;
    }

    Drive engaged(Direction direction) {
        may.engaged = direction;
        return this;
    }

    Drive torque(TorquePermission permission) {
        may.torque = permission;
        return this;
    }

    Drive limited(boolean limited) {
        may.limited = limited;
        return this;
    }

    /** The torque of the tick before. */
    Drive before(Reals torqueNm) {
        walk.set(shaper, "torqueNm", torqueNm);
        return this;
    }

    Drive at(Reals alongKph) {
        return quantity("speedKph", may.engaged.sign < 0 ? alongKph.negate() : alongKph);
    }

    /** The torque of the tick after. */
    Reals after() {
        Walk tick = walk.copy();
        tick.call(shaper, "shape", may, facts, c, out);
        return (Reals) tick.element(tick.get(out, "value"), Output.TORQUE_REQUEST_NM.ordinal());
    }

    /** The torque that the shaper remembers for the next tick, together with the one that it asks for. */
    Reals kept() {
        Walk tick = walk.copy();
        tick.call(shaper, "shape", may, facts, c, out);
        return tick.real(shaper, "torqueNm")
                .join((Reals) tick.element(tick.get(out, "value"), Output.TORQUE_REQUEST_NM.ordinal()));
    }

    /** The torque of the tick after along the engaged direction. */
    Reals along() {
        Reals after = after();
        return may.engaged.sign < 0 ? after.negate() : after;
    }

    /** The limits of this tick: to drive, to regenerate, and the step that driving torque may take. */
    Reals limit(String which) {
        Walk tick = walk.copy();
        Object limits = tick.get(shaper, "limits");
        tick.call(limits, "update", may, facts, c);
        return tick.real(limits, which);
    }

    /** The share of the torque limits that the pedal asks for. */
    Reals share(Reals travel, Reals kph, int level) {
        return (Reals) walk.copy().call(walk.get(shaper, "map"), "share", travel, kph, Ints.of(level));
    }

    Reals fade(Reals kph) {
        return (Reals) walk.copy().call(walk.get(shaper, "map"), "fade", kph);
    }

    Reals coast(Reals kph) {
        return (Reals) walk.copy().call(walk.get(shaper, "map"), "coastPoint", kph);
    }

    /** The torque of the tick after, wherever pedal and limits may want it: the ramps and what the pack holds back, alone. */
    Reals towardsAnything() {
        Walk tick = walk.copy().stub("PedalMap.share", args -> Reals.between(-1, 1));
        tick.call(shaper, "shape", may, facts, c, out);
        return (Reals) tick.element(tick.get(out, "value"), Output.TORQUE_REQUEST_NM.ordinal());
    }

    /** The ramp alone: where the torque goes that is wanted. */
    Reals towards(Reals wantedNm) {
        return (Reals) walk.copy().call(shaper, "towards", wantedNm);
    }
}
