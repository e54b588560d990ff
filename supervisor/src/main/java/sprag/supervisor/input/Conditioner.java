package sprag.supervisor.input;

import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Conditioned;
import sprag.supervisor.vocabulary.Fact;
import sprag.supervisor.vocabulary.Readings;
import sprag.supervisor.vocabulary.Settings;

/**
 * From readings to facts: raw to physical, validity, debouncing, thresholds with hysteresis, and everything that takes
 * longer than a few seconds or adds up.
 *
 * <p>What an unknown reading means is decided here, always to the safe side: an unknown plug is a plug, an unknown loop is
 * open, an unknown start button is neither held nor released, an unknown voltage is neither dead nor charged.
 */
public final class Conditioner {
    private final TickFacts facts = new TickFacts();
    private final Conditioned conditioned = new Conditioned();
    private final Debounce debounce;
    private final SwitchInput switches;
    private final DriveInput driver;
    private final PedalInput pedal;
    private final BusInput bus;
    private final PackInput pack;
    private final ThermalInput thermal;
    private final Inlet inlet;
    private final LockInput lock;
    private final CableMotion cable;
    private final LvSupport support;
    private final ChargeMeter charge;
    private final Gauge gauge;

    /** Makes a conditioner that has seen no reading yet.
     *
     * @param settings the vehicle's values
     */
    public Conditioner(Settings settings) {
        debounce = new Debounce(settings);
        switches = new SwitchInput(settings);
        driver = new DriveInput(settings);
        pedal = new PedalInput(settings);
        bus = new BusInput(settings);
        pack = new PackInput(settings);
        thermal = new ThermalInput(settings);
        inlet = new Inlet(settings);
        lock = new LockInput(settings);
        cable = new CableMotion(settings);
        support = new LvSupport(settings);
        charge = new ChargeMeter(settings);
        gauge = new Gauge(settings);
    }

    /** Judges the readings of one tick.
     *
     * @param in the readings
     * @param last the commands of the last tick, after the gate
     * @param vetoed whether the gate overruled them
     */
    public void update(Readings in, Commands last, boolean vetoed) {
        debounce.begin(in);
        switches.update(in, facts, debounce);
        driver.update(in, last, facts, debounce, conditioned);
        pedal.update(in, facts, debounce, conditioned);
        bus.update(in, last, facts, debounce, conditioned);
        thermal.update(in, facts, debounce, conditioned);
        gauge.update(conditioned, facts);
        pack.update(in, facts, debounce, conditioned);
        inlet.update(in, last, facts, debounce, conditioned);
        lock.update(in, last, facts, debounce);
        cable.update(last, facts, debounce, conditioned);
        support.update(in, facts, conditioned);
        charge.update(last, in, facts, debounce, conditioned);
        facts.set(Fact.GATE_VETOED, vetoed);
    }

    /** What is true in this tick.
     *
     * @return the facts, live
     */
    public TickFacts facts() {
        return facts;
    }

    /** The physical quantities behind the facts.
     *
     * @return the quantities, live
     */
    public Conditioned conditioned() {
        return conditioned;
    }
}
