package sprag.bench.evidence.prove;

import java.io.PrintWriter;
import java.util.HashSet;
import java.util.Locale;
import java.util.Set;

/** Tells a person who waits how far the explorations are, and of each broken promise as soon as it is known. */
final class ProofProgress {
    /** For results that nobody waits for. */
    static final ProofProgress SILENT = new ProofProgress(null, false);

    private static final long EVERY_NS = 500_000_000;

    private final PrintWriter out;
    private final boolean watched;
    private final Set<String> told = new HashSet<>();
    private long saidNs = System.nanoTime();

    /**
     * Tells beside the results.
     *
     * @param out null for nobody
     * @param watched whether it is a terminal, where a line that says how far things are can be wiped away again
     */
    ProofProgress(PrintWriter out, boolean watched) {
        this.out = out;
        this.watched = watched;
    }

    /** A depth has been worked off. Called by several threads. */
    synchronized void after(String watches, int depth, long transitions) {
        if (watched && System.nanoTime() - saidNs > EVERY_NS) {
            saidNs = System.nanoTime();
            String where = String.format(Locale.ROOT, "depth %,d, %,d transitions: %s", depth, transitions, watches);
            out.print(String.format("\r%-78.78s", where));
            out.flush();
        }
    }

    /** A promise is broken, and the exploration goes on. */
    synchronized void broken(String promise, int ticks) {
        if (out != null && told.add(promise)) {
            wipe();
            out.println(
                    promise + " is broken in " + ProofWords.count(ticks, "tick", "ticks") + "; the rest is explored");
            out.flush();
        }
    }

    /** Wipes the line away. */
    synchronized void wipe() {
        if (watched) {
            out.print("\r" + " ".repeat(78) + "\r");
            out.flush();
        }
    }
}
