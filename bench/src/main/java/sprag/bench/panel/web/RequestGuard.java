package sprag.bench.panel.web;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Map;
import java.util.concurrent.atomic.AtomicLong;
import org.eclipse.jetty.http.HttpFields;
import org.eclipse.jetty.http.HttpHeader;
import org.eclipse.jetty.server.Handler;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.util.Callback;
import org.eclipse.jetty.util.Fields;
import org.eclipse.jetty.websocket.server.ServerUpgradeResponse;
import org.eclipse.jetty.websocket.server.ServerWebSocketContainer;
import sprag.bench.wired.LiveSheets;

/** Answers every request: checks who asks, then gives the page's files, an export, or the live wire. */
final class RequestGuard extends Handler.Abstract {
    /** The live wire's own word; the token follows it in the list that the page offers. */
    static final String PROTOCOL = "sprag.panel";
    /** How many pages may look on. */
    static final int MOST_PAGES = 64;
    /** The longest message a page may send. */
    static final int LONGEST_MESSAGE = 1024;

    private static final String TOKEN_PREFIX = "token.";
    private static final String NO_TOKEN = "The token is missing or wrong. Use the link that was printed.";
    private static final String BEARER = "Bearer ";
    private static final int IDLE_S = 30;
    private static final Map<String, String> HEADERS = Map.of(
            "Content-Security-Policy",
                    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self';"
                            + " base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
            "X-Content-Type-Options", "nosniff",
            "X-Frame-Options", "DENY",
            "Referrer-Policy", "no-referrer",
            "Cross-Origin-Opener-Policy", "same-origin",
            "Cross-Origin-Resource-Policy", "same-origin",
            "Permissions-Policy", "camera=(), microphone=(), geolocation=()",
            "Cache-Control", "no-store");

    private final Panel panel;
    private final Viewers viewers;
    private final Access access;
    private final Beside beside;
    private final StaticFiles files = new StaticFiles();
    private final ServerWebSocketContainer sockets;
    private final AtomicLong pages = new AtomicLong();

    /** The handler of a server.
     *
     * @param beside what the page shows beside the car, null for nothing
     */
    RequestGuard(Server server, Panel panel, Access access, Beside beside) {
        this.panel = panel;
        this.beside = beside;
        viewers = new Viewers(panel);
        this.access = access;
        sockets = ServerWebSocketContainer.ensure(server);
        sockets.setMaxTextMessageSize(LONGEST_MESSAGE);
        sockets.setMaxBinaryMessageSize(1);
        sockets.setMaxFrameSize(LONGEST_MESSAGE);
        sockets.setIdleTimeout(Duration.ofSeconds(IDLE_S));
    }

    @Override
    public boolean handle(Request request, Response response, Callback callback) {
        HEADERS.forEach((name, value) -> response.getHeaders().put(name, value));
        HttpFields asked = request.getHeaders();
        String authority = request.getHttpURI().getAuthority();
        if (!access.knowsHost(asked.get(HttpHeader.HOST)) || authority != null && !access.knowsHost(authority)) {
            return turnAway(response, callback, 421, "This name is not served here. Use the link that was printed.");
        }
        String origin = asked.get(HttpHeader.ORIGIN);
        if (origin != null && !access.knowsOrigin(origin)) {
            return turnAway(response, callback, 403, "Other pages may not ask here.");
        }
        if (!"GET".equals(request.getMethod())) {
            return turnAway(response, callback, 405, "Only GET is served here.");
        }
        String path = Request.getPathInContext(request);
        StaticFiles.Piece piece = files.at(path);
        if (piece != null) {
            return give(asked, response, callback, piece);
        }
        return switch (path) {
            case "/live" -> live(request, response, callback, origin);
            case "/moment" -> moment(request, asked, response, callback);
            case "/sheets.json" -> sheets(asked, response, callback);
            case "/beside.json" -> beside(request, response, callback);
            case "/trace.csv", "/scenario.toml" -> export(path, asked, response, callback);
            default -> turnAway(response, callback, 404, "There is nothing here.");
        };
    }

    private static boolean give(HttpFields asked, Response response, Callback callback, StaticFiles.Piece piece) {
        boolean packs = asked.getQualityCSV(HttpHeader.ACCEPT_ENCODING).contains("gzip");
        response.getHeaders().put(HttpHeader.VARY, "Accept-Encoding");
        if (packs) {
            response.getHeaders().put(HttpHeader.CONTENT_ENCODING, "gzip");
        }
        return give(response, callback, piece.type(), packs ? piece.packed() : piece.bytes());
    }

    /** The sheets of the drawn circuit, which are laid out when the first page asks for them. */
    private boolean sheets(HttpFields asked, Response response, Callback callback) {
        if (!hasToken(asked)) {
            return turnAway(response, callback, 401, NO_TOKEN);
        }
        LiveSheets drawing = panel.bench().sheets();
        return drawing == null
                ? turnAway(response, callback, 404, "No circuit is drawn here: start the panel with --wired.")
                : give(asked, response, callback, StaticFiles.piece("application/json", SheetText.sheets(drawing)));
    }

    private boolean live(Request request, Response response, Callback callback, String origin) {
        if (origin == null) {
            return turnAway(response, callback, 403, "The live wire is for the page alone.");
        }
        String token = null;
        for (String offered : request.getHeaders().getCSV(HttpHeader.SEC_WEBSOCKET_SUBPROTOCOL, false)) {
            token = offered.startsWith(TOKEN_PREFIX) ? offered.substring(TOKEN_PREFIX.length()) : token;
        }
        Rank rank = access.rankOf(token);
        if (rank == null) {
            return turnAway(response, callback, 401, NO_TOKEN);
        }
        if (!sockets.upgrade((asked, answer, done) -> open(answer, rank), request, response, callback)) {
            return turnAway(response, callback, 426, "This address is for the live wire.");
        }
        return true;
    }

    private Object open(ServerUpgradeResponse response, Rank rank) {
        response.setAcceptedSubProtocol(PROTOCOL);
        return new PageSocket(viewers, pages.incrementAndGet(), rank);
    }

    /** The text beside the car, or the answer to what was typed into it; an empty object when there is none. */
    private boolean beside(Request request, Response response, Callback callback) {
        if (!hasToken(request.getHeaders())) {
            return turnAway(response, callback, 401, NO_TOKEN);
        }
        Fields asked = Request.extractQueryParameters(request);
        String place = asked.getValue("place");
        String typed = asked.getValue("typed");
        String json = beside == null
                ? "{}"
                : place == null ? beside.text() : beside.answer(number(place), typed == null ? "" : typed);
        return give(response, callback, "application/json; charset=utf-8", json.getBytes(StandardCharsets.UTF_8));
    }

    private static int number(String place) {
        return place.matches("\\d{1,3}") ? Integer.parseInt(place) : Integer.MAX_VALUE;
    }

    private boolean hasToken(HttpFields asked) {
        String authorisation = asked.get(HttpHeader.AUTHORIZATION);
        boolean bearer = authorisation != null && authorisation.startsWith(BEARER);
        return bearer && access.rankOf(authorisation.substring(BEARER.length())) != null;
    }

    /** What was so in one tick. */
    private boolean moment(Request request, HttpFields asked, Response response, Callback callback) {
        if (!hasToken(asked)) {
            return turnAway(response, callback, 401, NO_TOKEN);
        }
        String query = request.getHttpURI().getQuery();
        if (query == null || !query.matches("tick=\\d{1,15}")) {
            return turnAway(response, callback, 400, "Ask for /moment?tick=N, N being the number of a tick.");
        }
        long tick = Long.parseLong(query.substring("tick=".length()));
        String text = MomentText.of(panel.bench(), tick);
        return give(response, callback, "application/json", text.getBytes(StandardCharsets.UTF_8));
    }

    private boolean export(String path, HttpFields asked, Response response, Callback callback) {
        if (!hasToken(asked)) {
            return turnAway(response, callback, 401, NO_TOKEN);
        }
        boolean trace = path.equals("/trace.csv");
        String text;
        try {
            text = trace ? panel.bench().recent().csv() : panel.bench().scenario();
        } catch (IOException e) {
            return turnAway(response, callback, 500, "The trace could not be written: " + e.getMessage());
        }
        String type = trace ? "text/csv; charset=utf-8" : "application/toml; charset=utf-8";
        return give(response, callback, type, text.getBytes(StandardCharsets.UTF_8));
    }

    private static boolean give(Response response, Callback callback, String type, byte[] bytes) {
        response.getHeaders().put(HttpHeader.CONTENT_TYPE, type);
        response.getHeaders().put(HttpHeader.CONTENT_LENGTH, bytes.length);
        response.write(true, ByteBuffer.wrap(bytes), callback);
        return true;
    }

    private boolean turnAway(Response response, Callback callback, int status, String reason) {
        response.setStatus(status);
        return give(response, callback, "text/plain; charset=utf-8", reason.getBytes(StandardCharsets.UTF_8));
    }

    /** The pages that look on. */
    Viewers viewers() {
        return viewers;
    }

    Access access() {
        return access;
    }
}
