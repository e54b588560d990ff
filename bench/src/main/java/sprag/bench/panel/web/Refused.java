package sprag.bench.panel.web;

/** A message from a page that is not an order, with the reason. */
final class Refused extends Exception {
    private static final long serialVersionUID = 1L;

    /** Refuses, without a stack trace: a page may send many. */
    Refused(String reason) {
        super(reason, null, false, false);
    }
}
