/**
 * The decisions of the vehicle supervisor. It needs nothing but {@code java.base}.
 *
 * <p>{@link sprag.supervisor} runs a tick, {@link sprag.supervisor.vocabulary} holds the tables and the data of a tick, and
 * {@link sprag.supervisor.logic} is open to a program that explores its states. The other stages are nobody else's business.
 */
module sprag.supervisor {
    exports sprag.supervisor;
    exports sprag.supervisor.vocabulary;
    exports sprag.supervisor.logic;
}
