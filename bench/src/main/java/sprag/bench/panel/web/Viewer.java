package sprag.bench.panel.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.ByteBuffer;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.atomic.AtomicReference;
import java.util.regex.Pattern;
import sprag.bench.panel.bench.BenchThread;
import sprag.bench.panel.bench.ControlLease;
import sprag.bench.panel.bench.Note;
import sprag.bench.panel.bench.NoteBook;
import sprag.bench.panel.bench.Order;
import sprag.bench.panel.bench.PageState;
import sprag.bench.panel.bench.Publisher;
import sprag.bench.wired.LiveSheets;

/**
 * One page that looks on. One message is under way at a time; while it is, newer frames take the place of older ones, so a slow
 * page sees fewer frames and costs nothing more.
 */
final class Viewer {
    /** How many refused messages end the connection. */
    static final int PATIENCE = 300;

    private static final Pattern GIVEN_NAME = Pattern.compile("(?iu)\\s*(teacher|seat)[ .'-]*\\d*\\s*");

    private static final ObjectMapper JSON = new ObjectMapper();
    private static final int NOTES_AT_ONCE = 100;
    private static final int POLICY = 1008;

    /** The wire to a page. Neither call may block. */
    interface Wire {
        /** Sends a text. */
        void text(String text, Runnable done);

        /** Sends bytes. */
        void bytes(ByteBuffer bytes, Runnable done);

        /** Ends the connection. */
        void close(int code, String reason);
    }

    private final long page;
    private final Rank rank;
    private final Viewers all;
    private volatile String name;
    private final BenchThread bench;
    private final Publisher publisher;
    private final NoteBook notes;
    private final ControlLease lease;
    private final MessageReader reader;
    private final Wire wire;
    private final Allowance allowance;
    private final AtomicBoolean underWay = new AtomicBoolean();
    private final AtomicReference<String> reply = new AtomicReference<>();
    private final AtomicLong refused = new AtomicLong();

    // guarded by underWay: whoever has set it may touch these
    private String hello;
    private int leaseSeen = -1;
    private int seatsSeen = -1;
    private String invitationsSeen = "";
    private PageState stateSeen;
    private LiveSheets.State circuitSeen;
    private long noteNext;
    private byte[] frameSeen;

    /** A page that has just come. */
    Viewer(long page, Rank rank, Viewers all, Wire wire, long nowNs) {
        Panel panel = all.panel();
        this.page = page;
        this.rank = rank;
        this.all = all;
        this.name = (rank == Rank.TEACHER ? "teacher " : "seat ") + page;
        this.bench = panel.thread();
        this.publisher = panel.publisher();
        this.notes = panel.bench().notes();
        this.lease = panel.lease();
        this.reader = panel.reader();
        this.hello = panel.description();
        this.wire = wire;
        this.allowance = new Allowance(nowNs);
        this.noteNext = Math.max(0, notes.count() - NOTES_AT_ONCE);
    }

    /** The page is gone. */
    void left(long nowNs) {
        lease.left(page, nowNs);
    }

    /** The page has said something. */
    void heard(String text, long nowNs) {
        if (!allowance.take(nowNs)) {
            refuse("too many messages");
            return;
        }
        try {
            Message message = reader.read(text);
            lease.heard(page, nowNs);
            if (rank == Rank.ONLOOKER && message != Message.Word.ALIVE && !(message instanceof Message.Named)) {
                refuse("this link only looks on: it never gets control");
            } else if (message instanceof Message.Ordered ordered) {
                order(ordered.order());
            } else if (message instanceof Message.Word word) {
                say(word, nowNs);
            } else if (message instanceof Message.Handed handed) {
                hand(handed.page(), nowNs);
            } else if (message instanceof Message.Named named) {
                rename(named.name());
            }
        } catch (Refused e) {
            refuse(e.getMessage());
        }
    }

    private void order(Order order) {
        if (!lease.holds(page)) {
            refuse("this page only looks on: ask for control first");
        } else if (!bench.order(order)) {
            refuse("too many orders at once");
        }
    }

    private void say(Message.Word word, long nowNs) {
        switch (word) {
            case ALIVE -> lease.heard(page, nowNs);
            case ASK -> ask(nowNs);
            case TAKE -> take(nowNs);
            case YIELD -> lease.yield(page, nowNs);
            case KEEP -> lease.keep(page);
        }
    }

    private void ask(long nowNs) {
        boolean insists = rank == Rank.TEACHER;
        if (!lease.ask(page, insists, nowNs)) {
            refuse("another page asks already: ask again when that is decided");
        }
    }

    private void rename(String wanted) {
        if (rank != Rank.TEACHER && GIVEN_NAME.matcher(wanted).matches()) {
            refuse("the bench itself gives names like \"" + wanted + "\": choose another");
        } else if (!all.rename(this, wanted)) {
            refuse("another page is called " + wanted + " already: choose another name");
        }
    }

    private void take(long nowNs) {
        if (rank == Rank.TEACHER) {
            lease.hand(page, nowNs, "the teacher took control");
        } else {
            refuse("only the teacher takes control without asking");
        }
    }

    private void hand(long to, long nowNs) {
        Viewer seat = all.at(to);
        if (rank != Rank.TEACHER) {
            refuse("only the teacher hands control to a seat");
        } else if (seat == null || seat.rank == Rank.ONLOOKER) {
            refuse(seat == null ? "that page has gone" : seat.name + " has come by a link that only looks on");
        } else {
            lease.hand(to, nowNs, "the teacher gave control to " + seat.name);
        }
    }

    void name(String given) {
        name = given;
    }

    Rank rank() {
        return rank;
    }

    /** Who sits before it. */
    String name() {
        return name;
    }

    /** Refuses what the page has sent. */
    void refuse(String reason) {
        reply.set(reason);
        if (refused.incrementAndGet() > PATIENCE) {
            wire.close(POLICY, "too many messages that were refused");
        }
    }

    /** Sends what is new, unless something is still under way. Never waits. */
    void pump() {
        if (!underWay.compareAndSet(false, true)) {
            return;
        }
        String text = nextText();
        if (text != null) {
            wire.text(text, this::arrived);
            return;
        }
        byte[] frame = publisher.frame();
        if (frame != frameSeen) {
            frameSeen = frame;
            wire.bytes(ByteBuffer.wrap(frame), () -> underWay.set(false));
        } else {
            underWay.set(false);
        }
    }

    private void arrived() {
        underWay.set(false);
        pump();
    }

    private String nextText() {
        if (hello != null) {
            String text = hello;
            hello = null;
            return text;
        }
        int version = lease.version();
        if (version != leaseSeen) {
            leaseSeen = version;
            return role();
        }
        if (rank == Rank.TEACHER && version != seatsSeen) {
            seatsSeen = version;
            return write(all.seats());
        }
        if (rank == Rank.TEACHER && !all.invitations().equals(invitationsSeen)) {
            invitationsSeen = all.invitations();
            return invitationsSeen;
        }
        PageState told = publisher.state();
        if (told != stateSeen) {
            stateSeen = told;
            return write(JSON.<ObjectNode>valueToTree(told).put("t", "told"));
        }
        LiveSheets.State circuit = publisher.circuit();
        if (circuit != circuitSeen) {
            String text = write(SheetText.changes(circuitSeen, circuit));
            circuitSeen = circuit;
            return text;
        }
        if (noteNext < notes.count()) {
            return notes();
        }
        String refusal = reply.getAndSet(null);
        return refusal == null ? null : write(message("refused").put("reason", refusal));
    }

    private String role() {
        return write(message("role")
                .put("control", lease.holds(page))
                .put("held", lease.isHeld())
                .put("asking", lease.isAsking(page))
                .put("asked", lease.holds(page) && lease.isAsked())
                .put("rank", rank.name())
                .put("seat", name)
                .put("holder", all.name(lease.holder()))
                .put("asker", all.name(lease.asking()))
                .put("lost", lease.lost()));
    }

    private String notes() {
        ObjectNode message = message("notes");
        ArrayNode all = message.putArray("notes");
        long end = Math.min(notes.count(), noteNext + NOTES_AT_ONCE);
        for (; noteNext < end; noteNext++) {
            Note note = notes.get(noteNext);
            if (note != null) {
                all.add(JSON.<ObjectNode>valueToTree(note));
            }
        }
        return write(message);
    }

    private static ObjectNode message(String kind) {
        return JSON.createObjectNode().put("t", kind);
    }

    private static String write(ObjectNode node) {
        try {
            return JSON.writeValueAsString(node);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a tree of texts and numbers could not be written: " + node, e);
        }
    }
}
