package sprag.bench.panel.bench;

/**
 * Which page is in control. One at a time: whoever asks first; after that whoever asks, when the one in control agrees, is
 * gone, or has fallen silent. When the one in control does not answer in time, a page that insists gets control; the question of any
 * other page lapses.
 *
 * <p>Every change of hands starts a new term; what was ordered in an old term is not done any more.
 */
public final class ControlLease {
    /** A page in control that has said nothing for so long has lost it. It speaks every {@link #SPEAK_MS}. */
    public static final long SILENT_MS = 1500;
    /** How often a page in control must speak. */
    public static final long SPEAK_MS = 400;
    /** A question to the page in control that is not answered for so long is over. */
    public static final long ANSWER_MS = 10_000;

    private static final long NOBODY = 0;
    private static final long NS_PER_MS = 1_000_000;

    private final long silentMs;
    private long holder = NOBODY;
    private long asking = NOBODY;
    private long heardNs;
    private long askedNs;
    private boolean insists;
    private int term;
    private volatile int version;
    private String lost = "";

    /** Nobody in control; silence is {@link #SILENT_MS}. */
    public ControlLease() {
        this(SILENT_MS);
    }

    /** Nobody in control.
     *
     * @param silentMs how long a page in control may say nothing
     */
    public ControlLease(long silentMs) {
        this.silentMs = silentMs;
    }

    /** A page is gone. */
    public synchronized void left(long page, long nowNs) {
        if (asking == page) {
            asking = NOBODY;
        }
        if (holder == page) {
            give(asking, nowNs, "the page in control has gone");
        }
        version++;
    }

    /** A page has said something. */
    public synchronized void heard(long page, long nowNs) {
        if (page == holder) {
            heardNs = nowNs;
        }
    }

    /** A page wants control.
     *
     * @param insisting whether no answer counts as agreed
     * @return false when another page asks already
     */
    public synchronized boolean ask(long page, boolean insisting, long nowNs) {
        if (holder == NOBODY) {
            give(page, nowNs, "");
        } else if (page != holder && asking == NOBODY) {
            asking = page;
            askedNs = nowNs;
            insists = insisting;
        }
        version++;
        return holder == page || asking == page;
    }

    /** The page in control gives it to whoever asked, or to nobody. */
    public synchronized void yield(long page, long nowNs) {
        if (page == holder) {
            give(asking, nowNs, "control was handed over");
        }
    }

    /** Gives control to a page at once, whoever has it: the teacher decides. */
    public synchronized void hand(long page, long nowNs, String why) {
        if (page != holder) {
            give(page, nowNs, why);
        }
    }

    /** Sends to every page again who is in control. Needed when a page has come or has changed its name. */
    public synchronized void tellAnew() {
        version++;
    }

    /** The page in control, 0 for none. */
    public synchronized long holder() {
        return holder;
    }

    /** The page that asks for control, 0 for none. */
    public synchronized long asking() {
        return asking;
    }

    /** The page in control keeps it. */
    public synchronized void keep(long page) {
        if (page == holder) {
            asking = NOBODY;
            version++;
        }
    }

    /** Takes control from a page that is silent, or that has not answered a question. To be called often. */
    public synchronized void watch(long nowNs) {
        if (holder != NOBODY && nowNs - heardNs > silentMs * NS_PER_MS) {
            give(asking, nowNs, "the page in control was silent for " + silentMs / 1000.0 + " s");
        } else if (asking != NOBODY && nowNs - askedNs > ANSWER_MS * NS_PER_MS) {
            if (insists) {
                give(asking, nowNs, "another page asked, and was not answered within " + ANSWER_MS / 1000 + " s");
            } else {
                asking = NOBODY;
                version++;
            }
        }
    }

    private void give(long page, long nowNs, String why) {
        holder = page;
        asking = NOBODY;
        heardNs = nowNs;
        term++;
        version++;
        lost = why.isEmpty() ? lost : why;
    }

    public synchronized boolean holds(long page) {
        return page == holder;
    }

    /** Whether anybody is in control. */
    public synchronized boolean isHeld() {
        return holder != NOBODY;
    }

    public synchronized boolean isAsking(long page) {
        return page == asking;
    }

    /** Whether a question waits for an answer. */
    public synchronized boolean isAsked() {
        return asking != NOBODY;
    }

    /** The number of the present term. */
    public synchronized int term() {
        return term;
    }

    /** Why the last term ended; empty for the first. */
    public synchronized String lost() {
        return lost;
    }

    /** Grows with every change, so that viewers know. */
    public int version() {
        return version;
    }
}
