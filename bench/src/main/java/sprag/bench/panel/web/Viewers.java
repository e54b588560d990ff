package sprag.bench.panel.web;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/** The pages that look on now. Any thread may use it. */
final class Viewers {
    private final Panel panel;
    private final Map<Long, Viewer> pages = new ConcurrentHashMap<>();

    Viewers(Panel panel) {
        this.panel = panel;
    }

    /** Lets a page look on. */
    Viewer admit(long page, Viewer.Wire wire) {
        Viewer viewer = new Viewer(page, panel, wire, nowNs());
        pages.put(page, viewer);
        return viewer;
    }

    /** A page is gone. */
    void dismiss(long page) {
        Viewer viewer = pages.remove(page);
        if (viewer != null) {
            viewer.left(nowNs());
        }
    }

    /** Sends every page what is new. Never waits. */
    void pumpAll() {
        pages.values().forEach(Viewer::pump);
    }

    long nowNs() {
        return panel.wall().nowNs();
    }

    /** How many pages look on. */
    int count() {
        return pages.size();
    }
}
