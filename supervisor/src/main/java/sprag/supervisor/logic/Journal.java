package sprag.supervisor.logic;

import sprag.supervisor.vocabulary.Interlock;
import sprag.supervisor.vocabulary.Transition;

/** Who is told what Logic did. Nothing is read back. */
public interface Journal {
    /** The state changed.
     *
     * @param via how
     */
    void entered(Transition via);

    /** An interlock acts in this tick.
     *
     * @param row which one
     */
    void acted(Interlock row);

    /** Nobody is told. */
    Journal SILENT = new Journal() {
        @Override
        public void entered(Transition via) {
            // nobody listens
        }

        @Override
        public void acted(Interlock row) {
            // nobody listens
        }
    };
}
