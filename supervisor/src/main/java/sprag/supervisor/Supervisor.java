package sprag.supervisor;

import java.util.EnumSet;
import java.util.Set;
import sprag.supervisor.auxiliaries.Auxiliaries;
import sprag.supervisor.charge.ChargeShaper;
import sprag.supervisor.drive.TorqueShaper;
import sprag.supervisor.gate.Gate;
import sprag.supervisor.input.Conditioner;
import sprag.supervisor.input.TickFacts;
import sprag.supervisor.logic.Logic;
import sprag.supervisor.logic.LogicState;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Facts;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Permissions;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;

/**
 * The whole of it: one call a tick, from readings to commands.
 *
 * <p>{@link #step} never throws, never allocates, never blocks; readings that are NaN, infinite or out of range are sensor
 * faults. Nothing here is certified for use on a road.
 */
public final class Supervisor {
    private final Set<Interlock> without;
    private final Conditioner conditioner;
    private final Logic logic;
    private final TorqueShaper torque;
    private final ChargeShaper charge;
    private final Auxiliaries auxiliaries;
    private final Gate gate;
    private final Diagnostics diagnostics;
    private final Commands last = new Commands();
    private boolean vetoed;

    /** A supervisor that has just woken up, with everything released.
     *
     * @param settings the vehicle's values
     */
    public Supervisor(Settings settings) {
        this(settings, EnumSet.noneOf(Interlock.class));
    }

    /** A supervisor with interlocks taken out, to show in a simulation what each is needed for.
     *
     * @param settings the vehicle's values
     * @param without the interlocks taken out
     */
    public Supervisor(Settings settings, Set<Interlock> without) {
        this.without = Set.copyOf(without);
        diagnostics = new Diagnostics(this.without);
        conditioner = new Conditioner(settings);
        logic = new Logic(settings, without, diagnostics);
        torque = new TorqueShaper(settings, this.without);
        charge = new ChargeShaper(settings);
        auxiliaries = new Auxiliaries(settings);
        gate = new Gate(settings);
    }

    /** Wakes up with what was remembered when power went, so that a latch which needs service survives it.
     * A number that no state packs to wakes up latched, because it may have held such a latch.
     *
     * @param packed what {@link LogicState#pack()} gave then, or what has become of it; call before the first step
     */
    public void wake(long packed) {
        logic.wake(packed);
    }

    /** Runs one tick.
     *
     * @param tick the number of this tick, for the record only
     * @param in what the connector shows
     * @param out what is asked of it; all of it is written
     */
    public void step(long tick, Readings in, Commands out) {
        Permissions may = logic.permissions();
        Conditioned c = conditioner.conditioned();
        TickFacts facts = conditioner.facts();
        diagnostics.begin(tick);
        conditioner.update(in, last, vetoed);
        logic.step(facts);
        out.set(Output.NEGATIVE_CONTACTOR, may.negativeClosed);
        out.set(Output.PRECHARGE_RELAY, may.prechargeClosed);
        out.set(Output.POSITIVE_CONTACTOR, may.positiveClosed);
        torque.shape(may, facts, c, out);
        charge.shape(may, c, in, out);
        auxiliaries.shape(logic, facts, c, in, out);
        vetoed = gate.check(in, out);
        last.copyFrom(out);
        diagnostics.survey(facts);
    }

    /** The interlocks that were taken out.
     *
     * @return none in any vehicle
     */
    public Set<Interlock> without() {
        return without;
    }

    /** What it remembers for its decisions.
     *
     * @return the state, live
     */
    public LogicState state() {
        return logic.state();
    }

    /** What each actuator may do since the last step.
     *
     * @return the permissions, live
     */
    public Permissions permissions() {
        return logic.permissions();
    }

    /** What was true in the last step.
     *
     * @return the facts, live
     */
    public Facts facts() {
        return conditioner.facts();
    }

    /** The physical quantities of the last step.
     *
     * @return the quantities, live
     */
    public Conditioned conditioned() {
        return conditioner.conditioned();
    }

    /** The memory for people.
     *
     * @return the diagnostics, live
     */
    public Diagnostics diagnostics() {
        return diagnostics;
    }

    /** Whether the gate had to take something back in the last step.
     *
     * @return true when it did
     */
    public boolean vetoed() {
        return vetoed;
    }
}
