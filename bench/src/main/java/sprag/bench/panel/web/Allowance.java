package sprag.bench.panel.web;

/** How many messages a page may send: a number at once, and so many a second after that. One thread at a time. */
final class Allowance {
    /** More than a person's hands and a page's own words ever need. */
    static final int AT_ONCE = 120;
    /** What is given back each second. */
    static final int PER_SECOND = 60;

    private double left = AT_ONCE;
    private long lastNs;

    Allowance(long nowNs) {
        lastNs = nowNs;
    }

    /** Takes one. Returns false when none is left. */
    boolean take(long nowNs) {
        left = Math.min(AT_ONCE, left + (nowNs - lastNs) / 1e9 * PER_SECOND);
        lastNs = nowNs;
        if (left < 1) {
            return false;
        }
        left--;
        return true;
    }
}
