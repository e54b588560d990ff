package sprag.bench.evidence.prove.explore;

/** A machine that gave other successors of a state than before: it keeps something that is not in the state. */
public final class UnrepeatableMachineException extends IllegalStateException {
    private static final long serialVersionUID = 1;

    UnrepeatableMachineException(String seen) {
        super(seen + ": the machine keeps something that is not in its state");
    }
}
