package sprag.bench.evidence.prove;

import java.lang.reflect.Field;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import sprag.bench.evidence.prove.export.PromelaModel;
import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Parameter;
import sprag.supervisor.vocabulary.Reset;
import sprag.supervisor.vocabulary.Response;
import sprag.supervisor.vocabulary.Settings;
import sprag.supervisor.vocabulary.State;
import sprag.supervisor.vocabulary.Step;

/**
 * Logic with one defect, chosen by a number: an interlock left out, a row changed, or a wait changed by a tick.
 *
 * <p>Rows are constants of the whole program. So that no other test meets a changed one, this class runs among classes of its own; see
 * {@link ApartLoader}. It gives back what it found in types of the language alone.
 */
public final class Mutant {
    private static final List<Parameter> WAITS = List.of(
            Parameter.CONTACTOR_WELD_TEST_MS,
            Parameter.CONTACTOR_RELEASE_MS,
            Parameter.CONTACTOR_OVERLAP_MS,
            Parameter.PRECHARGE_MIN_MS,
            Parameter.PRECHARGE_TIMEOUT_MS,
            Parameter.RUNDOWN_WAIT_MS,
            Parameter.RUNDOWN_SPIN_MS);

    private final Random random;
    private final Settings promised;
    private Settings settings;
    private final Set<Interlock> without = EnumSet.noneOf(Interlock.class);
    private String what;
    private Runnable undo = () -> {};

    private Mutant(long seed, Settings settings) {
        random = new Random(seed);
        this.settings = settings;
        promised = settings;
    }

    /** Makes the mutant of a number, proves it, and writes its model.
     *
     * @param values the vehicle's values, in the order of the parameters
     * @return what was changed, the model, and the names of the promises that are broken
     */
    public static Object[] prove(long seed, double[] values) throws Exception {
        Mutant mutant = new Mutant(seed, Settings.of(values, Set.of()));
        try {
            mutant.change((int) (seed % 5));
            return mutant.proved();
        } finally {
            mutant.undo.run();
        }
    }

    private Object[] proved() throws InterruptedException {
        Proof proof = new Prover(settings)
                .promised(promised)
                .without(without)
                .patience(Long.MAX_VALUE)
                .prove();
        if (!proof.complete()) {
            throw new IllegalStateException(what + ": " + proof.stoppedBy());
        }
        String model = PromelaModel.of("mutant", settings, promised, without);
        Set<String> broken =
                proof.broken().stream().map(Proof.Verdict::id).collect(Collectors.toCollection(TreeSet::new));
        return new Object[] {what, model, broken};
    }

    private void change(int kind) throws ReflectiveOperationException {
        switch (kind) {
            case 0, 1 -> leaveOut();
            case 2 -> changeInterlock();
            case 3 -> changeStep();
            default -> changeWait();
        }
    }

    private void leaveOut() {
        Interlock row = acting(any -> true);
        without.add(row);
        what = "without " + row.id();
    }

    /** Another response, another reset, or one state less in which it is asked. */
    private void changeInterlock() throws ReflectiveOperationException {
        Interlock row = acting(each -> each.cause.isFact() && each.where.size() > 1);
        switch (random.nextInt(3)) {
            case 0 -> set(row, "response", another(Response.values(), row.response, Response.WARN));
            case 1 -> set(row, "reset", another(Reset.values(), row.reset, row.reset));
            default -> {
                Set<State> fewer = EnumSet.copyOf(row.where);
                fewer.remove(any(List.copyOf(row.where)));
                set(row, "where", Collections.unmodifiableSet(fewer));
            }
        }
    }

    private void changeStep() throws ReflectiveOperationException {
        Step step = any(List.of(Step.values()));
        String contact = any(List.of("negativeClosed", "prechargeClosed", "positiveClosed"));
        set(step, contact, !Step.class.getField(contact).getBoolean(step));
    }

    private void changeWait() {
        Parameter wait = any(WAITS);
        double tickMs = settings.get(Parameter.LOOP_TICK_MS);
        boolean shorter = !random.nextBoolean() && settings.get(wait) - tickMs >= wait.min();
        int ticks = shorter ? -1 : 1;
        settings = settings.with(wait, settings.get(wait) + ticks * tickMs);
        what = wait.key() + " " + ticks + " tick";
    }

    private void set(Enum<?> row, String column, Object value) throws ReflectiveOperationException {
        Field field = row.getDeclaringClass().getField(column);
        field.setAccessible(true);
        Object before = field.get(row);
        field.set(row, value);
        undo = () -> {
            try {
                field.set(row, before);
            } catch (IllegalAccessException e) {
                throw new IllegalStateException(e);
            }
        };
        what = row + " with " + column + " " + value;
    }

    private Interlock acting(Predicate<Interlock> wanted) {
        return any(Stream.of(Interlock.values())
                .filter(row -> row.response != Response.WARN)
                .filter(wanted)
                .toList());
    }

    private <T> T another(T[] all, T now, T never) {
        List<T> others = new ArrayList<>(List.of(all));
        others.removeAll(List.of(now, never));
        return any(others);
    }

    private <T> T any(List<T> all) {
        return all.get(random.nextInt(all.size()));
    }
}
