package sprag.bench.evidence.prove.explore;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;

/**
 * A stepper with properties and observers beside it, as a machine.
 *
 * <p>The memories of the observers lie above the stepper's own bits. Events are numbered: first the stepper's labels, then
 * the properties and the observers that were broken, then the properties and the observers that applied, in the order given.
 */
public final class Watched<T extends Stepper> implements Machine {
    private static final int MOST_BRANCHES = 1 << 20;
    private static final int RECENT = 128;
    private static final int RECENT_SHIFT = Long.SIZE - Integer.numberOfTrailingZeros(RECENT);

    private final T stepper;
    private final Property<? super T>[] property;
    private final Observer<? super T>[] observer;
    private final int[] shift;
    private final long[] memoryMask;
    private final int allBits;
    private final Shapes shapes = new Shapes();
    private final List<int[]> concernedProperties = new ArrayList<>();
    private final List<boolean[]> concernedObservers = new ArrayList<>();
    private final Choices choices;
    private final long ownMask;
    /** The properties that a branch of this state has broken already: they are not asked again, or each would multiply the rest. */
    private final boolean[] broken;

    private int leastCount;
    private int mostCount;

    private final long[] recentShape = new long[RECENT];
    private final int[] recentNumber = new int[RECENT];

    /** Puts watchers beside a stepper.
     *
     * @param properties what must hold on every step
     * @param observers what must hold over several steps
     */
    @SuppressWarnings("unchecked")
    public Watched(
            T stepper, List<? extends Property<? super T>> properties, List<? extends Observer<? super T>> observers) {
        this.stepper = stepper;
        this.property = (Property<? super T>[]) properties.toArray(new Property<?>[0]);
        this.observer = (Observer<? super T>[]) observers.toArray(new Observer<?>[0]);
        this.memoryMask = new long[observer.length];
        this.shift = new int[observer.length];
        this.allBits = layOut();
        this.choices = new Choices(stepper.keys());
        Arrays.fill(recentNumber, -1);
        this.ownMask = mask(stepper.bits());
        this.broken = new boolean[property.length];
    }

    /** Puts the observers' memories above the stepper's bits. */
    private int layOut() {
        int bits = stepper.bits();
        for (int i = 0; i < shift.length; i++) {
            shift[i] = bits;
            memoryMask[i] = mask(observer[i].bits());
            bits += observer[i].bits();
        }
        if (bits > MOST_BITS) {
            throw new IllegalArgumentException("the machine's " + stepper.bits() + " bits and the observers' "
                    + (bits - stepper.bits()) + " exceed " + MOST_BITS + ": explore fewer observers at a time");
        }
        return bits;
    }

    private static long mask(int bits) {
        return (1L << bits) - 1;
    }

    @Override
    public long initial() {
        return stepper.initial();
    }

    @Override
    public int bits() {
        return allBits;
    }

    @Override
    public int events() {
        return stepper.labels() + 2 * (property.length + observer.length);
    }

    /** The event of a property. Noted when it is broken. */
    public int eventOfProperty(int i) {
        return stepper.labels() + i;
    }

    /** The event of an observer. Noted when it is broken. */
    public int eventOfObserver(int i) {
        return stepper.labels() + property.length + i;
    }

    /** The event of a property that had something to say. Noted at the first step that it speaks of. */
    public int eventOfConcern(int i) {
        return eventOfProperty(i) + property.length + observer.length;
    }

    /** The event of an observer that had something to say. Noted at the first step to which it applies. */
    public int eventOfApplying(int i) {
        return eventOfObserver(i) + property.length + observer.length;
    }

    @Override
    public void expand(long state, Successors out) {
        begin();
        int branches = 0;
        do {
            if (++branches > MOST_BRANCHES) {
                out.giveUp(MOST_BRANCHES);
                return;
            }
            out.add(stepOnce(state, out));
        } while (choices.next());
    }

    private void begin() {
        choices.begin();
        leastCount = 0;
        mostCount = Integer.MAX_VALUE;
        Arrays.fill(broken, false);
    }

    private long stepOnce(long state, Successors out) {
        long after = stepper.step(state & ownMask, choices, out);
        stepper.conclude();
        if ((after & ~ownMask) != 0) {
            throw new IllegalStateException(
                    "state " + after + " does not fit the " + stepper.bits() + " bits declared");
        }
        if (property.length + observer.length == 0) {
            return after;
        }
        long watchedAfter = watch(state, after, out);
        leastCount = Math.max(leastCount, stepper.leastCount());
        mostCount = Math.min(mostCount, stepper.mostCount());
        return watchedAfter;
    }

    private long watch(long state, long stepped, Successors out) {
        long after = stepped;
        int number = number(stepper.shape());
        for (int i : concernedProperties.get(number)) {
            out.note(eventOfConcern(i));
            if (!broken[i] && !property[i].holds(stepper)) {
                broken[i] = true;
                out.note(eventOfProperty(i));
            }
        }
        boolean[] concerned = concernedObservers.get(number);
        for (int i = 0; i < observer.length; i++) {
            int memory = (int) (state >>> shift[i] & memoryMask[i]);
            if (memory != 0 || concerned[i]) {
                after |= observe(i, memory, out) << shift[i];
            }
        }
        return after;
    }

    /** The number of a shape. Neighbouring steps have few shapes between them, so a handful is kept at hand. */
    private int number(long shape) {
        int at = Mixer.spread(shape, RECENT_SHIFT);
        if (recentNumber[at] < 0 || recentShape[at] != shape) {
            int found = shapes.find(shape);
            if (found < 0) {
                found = shapes.add(shape);
                askWhoIsConcerned();
            }
            recentShape[at] = shape;
            recentNumber[at] = found;
        }
        return recentNumber[at];
    }

    private void askWhoIsConcerned() {
        concernedProperties.add(IntStream.range(0, property.length)
                .filter(i -> property[i].concerns(stepper))
                .toArray());
        boolean[] concerned = new boolean[observer.length];
        for (int i = 0; i < concerned.length; i++) {
            concerned[i] = observer[i].concerns(stepper);
        }
        concernedObservers.add(concerned);
    }

    private long observe(int i, int memory, Successors out) {
        int next = observer[i].next(memory, stepper);
        if (next == Observer.BROKEN) {
            out.note(eventOfObserver(i));
            out.note(eventOfApplying(i));
            return 0;
        }
        if (observer[i].applies(memory, stepper)) {
            out.note(eventOfApplying(i));
        }
        if ((next & ~memoryMask[i]) != 0) {
            throw new IllegalStateException(
                    observer[i].name() + " remembers " + next + ", more than its " + observer[i].bits() + " bits hold");
        }
        return next;
    }

    T stepper() {
        return stepper;
    }

    /** Of the state that was expanded last: the least count with which the watchers would have been told the same. */
    int leastCount() {
        return leastCount;
    }

    /** The greatest such count. */
    int mostCount() {
        return mostCount;
    }

    /** How many observers there are. */
    int observers() {
        return observer.length;
    }

    /** The memory of an observer in a state, at its place. */
    long memoryAt(int i, long state) {
        return state & memoryMask[i] << shift[i];
    }

    /** One step of an observer's memory, at its place. */
    long oneAt(int i) {
        return 1L << shift[i];
    }

    /** Whether the memory that an observer has in a state is a count that goes on or ends. */
    boolean countsOn(int i, long state) {
        return observer[i].countsOn((int) (state >>> shift[i] & memoryMask[i]));
    }

    /** Takes one step of a trace again, so that the stepper's fields and the choices show it.
     *
     * @param step a step found on a machine like this one
     * @return the stepper, showing that step
     */
    public T show(Trace.Step step) {
        Successors ignored = new Successors(events());
        begin();
        long after = stepOnce(step.before(), ignored);
        for (int branch = 0; branch < step.branch(); branch++) {
            if (!choices.next()) {
                throw new UnrepeatableMachineException("state " + step.before() + " has no branch " + step.branch());
            }
            after = stepOnce(step.before(), ignored);
        }
        if (after != step.after()) {
            throw new UnrepeatableMachineException("branch " + step.branch() + " of state " + step.before()
                    + " leads to " + after + ", not to " + step.after());
        }
        return stepper;
    }

    /** The choices of the step shown last. Valid until the next step. */
    public Choices choices() {
        return choices;
    }
}
