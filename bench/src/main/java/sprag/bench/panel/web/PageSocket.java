package sprag.bench.panel.web;

import java.nio.ByteBuffer;
import org.eclipse.jetty.websocket.api.Callback;
import org.eclipse.jetty.websocket.api.Session;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The live wire to one page. */
public final class PageSocket extends Session.Listener.AbstractAutoDemanding implements Viewer.Wire {
    private static final Logger LOG = LoggerFactory.getLogger(PageSocket.class);
    private static final int UNSUPPORTED = 1003;
    private static final int TRY_LATER = 1013;

    private final Viewers viewers;
    private final long page;
    private final Rank rank;
    private Viewer viewer;

    PageSocket(Viewers viewers, long page, Rank rank) {
        this.rank = rank;
        this.viewers = viewers;
        this.page = page;
    }

    @Override
    public void onWebSocketOpen(Session session) {
        super.onWebSocketOpen(session);
        if (viewers.count() >= RequestGuard.MOST_PAGES) {
            close(TRY_LATER, RequestGuard.MOST_PAGES + " pages look on already");
            return;
        }
        viewer = viewers.admit(page, rank, this);
        viewer.pump();
    }

    @Override
    public void onWebSocketText(String text) {
        if (viewer != null) {
            viewer.heard(text, viewers.nowNs());
        }
    }

    @Override
    public void onWebSocketBinary(ByteBuffer payload, Callback callback) {
        callback.succeed();
        close(UNSUPPORTED, "text only");
    }

    @Override
    public void onWebSocketError(Throwable cause) {
        LOG.debug("page {}: {}", page, cause.toString());
    }

    @Override
    public void onWebSocketClose(int code, String reason, Callback callback) {
        viewers.dismiss(page);
        callback.succeed();
    }

    @Override
    public void text(String text, Runnable done) {
        getSession().sendText(text, Callback.from(done, this::failed));
    }

    @Override
    public void bytes(ByteBuffer bytes, Runnable done) {
        getSession().sendBinary(bytes, Callback.from(done, this::failed));
    }

    /** What cannot be sent ends the page; its message stays under way, so that nothing more is sent. */
    private void failed(Throwable cause) {
        LOG.debug("page {}: {}", page, cause.toString());
        viewers.dismiss(page);
        getSession().disconnect();
    }

    @Override
    public void close(int code, String reason) {
        getSession().close(code, reason, Callback.NOOP);
    }
}
