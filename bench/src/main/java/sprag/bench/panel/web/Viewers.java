package sprag.bench.panel.web;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Map;
import java.util.concurrent.ConcurrentSkipListMap;

/** The pages that look on now. Any thread may use it. */
final class Viewers {
    private static final ObjectMapper JSON = new ObjectMapper();

    private final Panel panel;
    private final Map<Long, Viewer> pages = new ConcurrentSkipListMap<>();
    private volatile String invitations = "";

    Viewers(Panel panel) {
        this.panel = panel;
    }

    /** Lets a page look on. */
    Viewer admit(long page, Rank rank, Viewer.Wire wire) {
        Viewer viewer = new Viewer(page, rank, this, wire, nowNs());
        pages.put(page, viewer);
        panel.lease().tellAnew();
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

    Panel panel() {
        return panel;
    }

    /** The page of a number, null when it is gone. */
    Viewer at(long page) {
        return pages.get(page);
    }

    /** The name of a page, empty when there is none of that number. */
    String name(long page) {
        Viewer viewer = pages.get(page);
        return viewer == null ? "" : viewer.name();
    }

    /** Gives a page a name, unless another page has it: the teacher must know whom control is given to. Returns whether it got it. */
    synchronized boolean rename(Viewer page, String name) {
        boolean taken = pages.values().stream()
                .anyMatch(each -> each != page && each.name().equalsIgnoreCase(name));
        if (!taken) {
            page.name(name);
            panel.lease().tellAnew();
        }
        return !taken;
    }

    /** The number of the page of a name, 0 when there is none. */
    long numberOf(String name) {
        return pages.entrySet().stream()
                .filter(each -> each.getValue().name().equals(name))
                .mapToLong(Map.Entry::getKey)
                .findFirst()
                .orElse(0);
    }

    /** Who sits where, for the teacher. */
    ObjectNode seats() {
        ObjectNode message = JSON.createObjectNode().put("t", "seats");
        ArrayNode all = message.putArray("seats");
        for (Map.Entry<Long, Viewer> each : pages.entrySet()) {
            long page = each.getKey();
            Rank rank = each.getValue().rank();
            all.addObject()
                    .put("page", page)
                    .put("name", each.getValue().name())
                    .put("rank", rank.name())
                    .put("mayDrive", rank != Rank.ONLOOKER)
                    .put("control", panel.lease().holds(page))
                    .put("asking", panel.lease().isAsking(page));
        }
        return message;
    }

    /** The links for others, as the teacher's page reads them; empty for none. */
    String invitations() {
        return invitations;
    }

    void invitations(String text) {
        invitations = text;
    }
}
