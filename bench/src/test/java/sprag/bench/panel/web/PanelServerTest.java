package sprag.bench.panel.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.WebSocket;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletionException;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import sprag.bench.car.Lever;
import sprag.bench.loop.record.Recordings;
import sprag.bench.panel.PanelBench;
import sprag.bench.panel.bench.ControlLease;
import sprag.bench.panel.bench.FrameLayout;
import sprag.bench.panel.bench.FrameLayout.Head;
import sprag.bench.panel.session.Subject;
import sprag.hal.Clock;

/** Hostile and clumsy requests against a real server on the loopback address. */
final class PanelServerTest {
    /** A watchdog against a hang. Every test waits for an event, and how long that takes decides nothing. */
    private static final long PATIENCE_S = 600;
    /** Longer than any test: silence takes no control away here. */
    private static final long NEVER_SILENT_MS = 86_400_000;

    private final HttpClient client = HttpClient.newHttpClient();
    private Panel panel;
    private PanelServer server;
    private Thread bench;
    private String token;

    PanelServerTest() {
        serve(Clock.real());
    }

    private void serve(Clock clock) {
        panel = new Panel(
                new Subject(PanelBench.vehicle("parcel-van"), null, null),
                clock,
                List.of(),
                new ControlLease(NEVER_SILENT_MS),
                Recordings.none());
        server = new PanelServer(panel, "127.0.0.1", 0);
        token = server.link().replaceFirst(".*#", "");
        bench = new Thread(panel.thread());
        bench.start();
    }

    @AfterEach
    void stop() throws InterruptedException {
        panel.thread().stop();
        bench.join();
        server.close();
    }

    /** A page without a browser: it reads everything, or nothing when told to be slow. */
    private static final class Page implements WebSocket.Listener {
        static final int BROKEN = -1;
        final LinkedBlockingQueue<String> texts = new LinkedBlockingQueue<>();
        final AtomicLong frames = new AtomicLong();
        final AtomicInteger closed = new AtomicInteger();
        private final boolean reads;
        private final StringBuilder part = new StringBuilder();

        Page(boolean reads) {
            this.reads = reads;
        }

        @Override
        public void onOpen(WebSocket socket) {
            if (reads) {
                socket.request(1);
            }
        }

        @Override
        public CompletionStage<?> onText(WebSocket socket, CharSequence data, boolean last) {
            part.append(data);
            if (last) {
                texts.add(part.toString());
                part.setLength(0);
            }
            socket.request(1);
            return null;
        }

        @Override
        public CompletionStage<?> onBinary(WebSocket socket, ByteBuffer data, boolean last) {
            frames.incrementAndGet();
            socket.request(1);
            return null;
        }

        @Override
        public CompletionStage<?> onClose(WebSocket socket, int code, String reason) {
            closed.set(code);
            return null;
        }

        @Override
        public void onError(WebSocket socket, Throwable error) {
            closed.compareAndSet(0, BROKEN);
        }

        boolean told(String words) {
            return texts.stream().anyMatch(text -> text.contains(words));
        }
    }

    private String host() {
        return "127.0.0.1:" + server.port();
    }

    private WebSocket open(Page page, String origin, String told) {
        WebSocket.Builder builder = client.newWebSocketBuilder().subprotocols("sprag.panel", "token." + told);
        if (origin != null) {
            builder.header("Origin", origin);
        }
        return builder.buildAsync(URI.create("ws://" + host() + "/live"), page).join();
    }

    /** Opens the wire. The client of the JDK at times misreads frames that come hot on the heels of the answer to its upgrade (the
     * same bytes are sound when read from a plain socket), so a reading page that dies before its first text is opened again. */
    private WebSocket open(Page page) throws InterruptedException {
        while (true) {
            WebSocket socket = open(page, "http://" + host(), token);
            if (!page.reads) {
                return socket;
            }
            await("the first text", () -> !page.texts.isEmpty() || page.closed.get() == Page.BROKEN);
            if (!page.closed.compareAndSet(Page.BROKEN, 0)) {
                return socket;
            }
            page.part.setLength(0);
        }
    }

    private static void await(String what, BooleanSupplier done) throws InterruptedException {
        long endNs = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_S);
        while (!done.getAsBoolean()) {
            assertTrue(System.nanoTime() < endNs, "within " + PATIENCE_S + " s: " + what);
            TimeUnit.MILLISECONDS.sleep(5);
        }
    }

    /** Time that passes at a twentieth of its pace: a machine that is slow to send a flood still exceeds what a page may send. */
    private static final class SlowClock implements Clock {
        private static final long FACTOR = 20;
        private final Clock real = Clock.real();

        @Override
        public long nowNs() {
            return real.nowNs() / FACTOR;
        }

        @Override
        public void waitUntil(long deadlineNs) {
            real.waitUntil(deadlineNs * FACTOR);
        }
    }

    /** Sends bytes as they are and gives the answer's first line. */
    private String raw(String request) throws IOException {
        try (Socket socket = new Socket("127.0.0.1", server.port())) {
            socket.getOutputStream().write(request.getBytes(StandardCharsets.ISO_8859_1));
            socket.setSoTimeout((int) TimeUnit.SECONDS.toMillis(PATIENCE_S));
            String answer = new String(socket.getInputStream().readNBytes(4000), StandardCharsets.ISO_8859_1);
            return answer.lines().findFirst().orElse("");
        }
    }

    private String get(String path, String headers) throws IOException {
        return raw("GET " + path + " HTTP/1.1\r\n" + headers + "Connection: close\r\n\r\n");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            Host: 127.0.0.1:PORT                                     | 200 | the printed link
            Host: localhost:PORT                                     | 200 | the same machine by its other name
            Host: LOCALHOST:PORT                                     | 200 | names have no case
            Host: [::1]:PORT                                         | 200 | the same in the newer protocol
            Host: evil.example:PORT                                  | 421 | a foreign name that points here (rebinding)
            Host: 127.0.0.1.evil.example:PORT                        | 421 | one that begins like ours
            Host: 127.0.0.1                                          | 421 | another port
            Host: 127.0.0.1:1                                        | 421 | another port
            Host: 127.0.0.1:PORT;Origin: http://127.0.0.1:PORT       | 200 | our own page
            Host: 127.0.0.1:PORT;Origin: http://evil.example         | 403 | a foreign page in the same browser
            Host: 127.0.0.1:PORT;Origin: null                        | 403 | a sandboxed or local page
            Host: 127.0.0.1:PORT;Origin: https://127.0.0.1:PORT      | 403 | we speak no other scheme
            """)
    void page_hostAndOrigin_areChecked(String headers, int status, String because) throws IOException {
        String asked = headers.replace("PORT", String.valueOf(server.port())).replace(";", "\r\n") + "\r\n";
        assertTrue(get("/", asked).contains(" " + status + " "), because + ": " + get("/", asked));
    }

    @ParameterizedTest
    @CsvSource({"/trace.csv", "/scenario.toml"})
    void export_withoutTheToken_isRefused_andGivenWithIt(String path) throws IOException {
        String host = "Host: " + host() + "\r\n";
        assertTrue(get(path, host).contains(" 401 "));
        assertTrue(get(
                        path,
                        host + "Authorization: Bearer " + (token.startsWith("x") ? "y" : "x") + token.substring(1)
                                + "\r\n")
                .contains(" 401 "));
        assertTrue(get(path, host + "Authorization: Bearer " + token + "\r\n").contains(" 200 "));
    }

    @ParameterizedTest
    @CsvSource({"/../pom.xml", "/%2e%2e/pom.xml", "/panel/index.html", "/main.js/x", "/live"})
    void otherPaths_giveNothing(String path) throws IOException {
        String status = get(path, "Host: " + host() + "\r\n");
        assertFalse(status.contains(" 200 "), status);
    }

    @Test
    void otherMethods_andAbsoluteFormsOfForeignNames_areRefused() throws IOException {
        String host = "Host: " + host() + "\r\n";
        assertTrue(raw("POST / HTTP/1.1\r\n" + host + "Content-Length: 0\r\nConnection: close\r\n\r\n")
                .contains(" 405 "));
        String foreign = raw("GET http://evil.example/ HTTP/1.1\r\n" + host + "Connection: close\r\n\r\n");
        assertTrue(foreign.matches("HTTP/1.1 4\\d\\d.*"), foreign);
    }

    @Test
    void everyAnswer_carriesTheHeadersThatKeepForeignScriptsOut() throws IOException {
        try (Socket socket = new Socket("127.0.0.1", server.port())) {
            socket.getOutputStream()
                    .write(("GET / HTTP/1.1\r\nHost: " + host() + "\r\nConnection: close\r\n\r\n")
                            .getBytes(StandardCharsets.US_ASCII));
            String answer = new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertTrue(answer.contains("Content-Security-Policy: default-src 'none'; script-src 'self'"), answer);
            assertTrue(answer.contains("frame-ancestors 'none'"), answer);
            assertTrue(answer.contains("X-Content-Type-Options: nosniff"), answer);
            assertFalse(answer.contains("unsafe-inline"), answer);
            assertFalse(answer.contains("http://") && answer.contains("src=\"http"), "content from outside");
            assertFalse(answer.contains(token), "the page itself must not hold the token");
        }
    }

    @ParameterizedTest
    @CsvSource({"http://evil.example,right", "null,right", ",right", "OURS,wrong", "OURS,''"})
    void liveWire_foreignOriginOrWrongToken_isRefused(String origin, String told) {
        String from = "OURS".equals(origin) ? "http://" + host() : origin;
        String with = "right".equals(told) ? token : told;
        try {
            open(new Page(true), from, with).abort();
        } catch (CompletionException | IllegalArgumentException e) {
            assertEquals(0, server.guard().viewers().count());
            return;
        }
        throw new AssertionError("it was let in with origin " + origin + " and a token that is " + told);
    }

    @Test
    void soundPage_asksForControl_isTold_andSteers() throws InterruptedException {
        Page page = new Page(true);
        WebSocket socket = open(page);
        await("hello", () -> page.told("\"t\":\"hello\""));
        await("frames", () -> page.frames.get() > 3);
        socket.sendText("{\"do\":\"ask\"}", true).join();
        await("control", () -> page.told("\"control\":true"));
        socket.sendText("{\"do\":\"lever\",\"lever\":\"ambient_c\",\"to\":33}", true)
                .join();
        await("the lever moves", () -> lever(Lever.AMBIENT_C) == 33);
        socket.abort();
        await("the page is gone", () -> server.guard().viewers().count() == 0);
        await("and nobody is in control", () -> !panel.lease().isHeld());
    }

    private double lever(Lever lever) {
        return PanelBench.number(panel.publisher().frame(), FrameLayout.Section.LEVERS.offset() + lever.ordinal());
    }

    private double head(Head field) {
        return PanelBench.number(panel.publisher().frame(), field.ordinal());
    }

    @ParameterizedTest
    @CsvSource({
        "tick=5, right, 200",
        "tick=999999999, right, 200",
        "tick=5, wrong, 401",
        "tick=-1, right, 400",
        "tick=1e3, right, 400",
        "tick=99999999999999999999, right, 400",
        "'', right, 400"
    })
    void moment_isGivenToThePageAlone_andNonsenseIsRefused(String query, String told, int status)
            throws IOException, InterruptedException {
        java.net.http.HttpRequest request = java.net.http.HttpRequest.newBuilder(
                        URI.create("http://" + host() + "/moment" + (query.isEmpty() ? "" : "?" + query)))
                .header("Authorization", "Bearer " + (told.equals("right") ? token : told))
                .build();
        await("some ticks", () -> head(Head.TICK) > 10);
        var answer = HttpClient.newHttpClient().send(request, java.net.http.HttpResponse.BodyHandlers.ofString());
        assertEquals(status, answer.statusCode(), answer.body());
        if (status == 200) {
            assertEquals(query.equals("tick=5"), answer.body().contains("\"chain\":["), answer.body());
            assertEquals(!query.equals("tick=5"), answer.body().equals("null"), answer.body());
        }
    }

    @Test
    void pageThatLooksOn_sendsAnOrder_isRefused() throws InterruptedException {
        Page first = new Page(true);
        Page second = new Page(true);
        WebSocket holder = open(first);
        holder.sendText("{\"do\":\"ask\"}", true).join();
        await("control", () -> first.told("\"control\":true"));
        WebSocket other = open(second);
        other.sendText("{\"do\":\"lever\",\"lever\":\"ambient_c\",\"to\":-40}", true)
                .join();
        await("refused", () -> second.told("only looks on"));
        assertEquals(20, lever(Lever.AMBIENT_C));
        holder.abort();
        other.abort();
    }

    @Test
    void tenThousandMessages_thatPageIsEnded_othersAreServedAndNoTickIsLost() throws InterruptedException {
        stop();
        serve(new SlowClock());
        Page good = new Page(true);
        WebSocket sound = open(good);
        Page bad = new Page(true);
        WebSocket flood = open(bad);
        double ticks = head(Head.TICK);
        for (int i = 0; i < 10_000 && bad.closed.get() == 0; i++) {
            try {
                flood.sendText(i % 2 == 0 ? "{\"do\":\"alive\"}" : "nonsense " + i, true)
                        .join();
            } catch (CompletionException e) {
                break;
            }
        }
        await("the flood is ended", () -> server.guard().viewers().count() == 1);
        long frames = good.frames.get();
        await("the other page goes on", () -> good.frames.get() > frames + 5);
        await("the bench goes on", () -> head(Head.TICK) > ticks + 10);
        assertEquals(0, head(Head.OVERRUNS));
        sound.abort();
    }

    @ParameterizedTest
    @CsvSource({"1024,open", "1025,ended", "200000,ended"})
    void message_ofThatManyBytes_isReadOrEndsThePage(int bytes, String outcome) throws InterruptedException {
        Page page = new Page(true);
        WebSocket socket = open(page);
        String text = "{\"do\":\"" + "x".repeat(bytes - 9) + "\"}";
        try {
            socket.sendText(text, true).join();
        } catch (CompletionException e) {
            assertEquals("ended", outcome, e.toString());
        }
        await(
                outcome,
                () -> outcome.equals("open")
                        ? page.told("refused")
                        : server.guard().viewers().count() == 0);
    }

    @Test
    void binaryMessage_endsThePage() throws InterruptedException {
        Page page = new Page(true);
        open(page).sendBinary(ByteBuffer.wrap(new byte[1]), true).join();
        await("ended", () -> server.guard().viewers().count() == 0);
    }

    @Test
    void pageThatNeverReads_theBenchAndTheOthersGoOn() throws InterruptedException {
        Page asleep = new Page(false);
        WebSocket suspended = open(asleep);
        Page awake = new Page(true);
        WebSocket sound = open(awake);
        await("frames for who reads", () -> awake.frames.get() > 100);
        assertEquals(0, asleep.frames.get());
        assertEquals(0, head(Head.OVERRUNS));
        suspended.abort();
        sound.abort();
    }

    @Test
    void fortyPagesLookOn_allGetFrames_noTickIsLate_andOneTooManyIsToldWhy() throws InterruptedException {
        List<WebSocket> held = new ArrayList<>();
        List<Page> pages = new ArrayList<>();
        for (int i = 0; i < RequestGuard.MOST_PAGES; i++) {
            Page page = new Page(true);
            held.add(open(page));
            pages.add(page);
        }
        await("all are there", () -> server.guard().viewers().count() == RequestGuard.MOST_PAGES);
        await("all get frames", () -> pages.stream().allMatch(page -> page.frames.get() > 5));
        assertEquals(0, head(Head.OVERRUNS));
        Page late = new Page(true);
        open(late, "http://" + host(), token);
        await("it is told", () -> late.closed.get() == 1013);
        assertEquals(RequestGuard.MOST_PAGES, server.guard().viewers().count());
        held.forEach(WebSocket::abort);
    }

    private String tokenOf(Rank rank) {
        return server.guard().access().token(rank);
    }

    private Page join(Rank rank, List<WebSocket> sockets) throws InterruptedException {
        Page page = new Page(true);
        String mine = token;
        token = tokenOf(rank);
        sockets.add(open(page));
        token = mine;
        return page;
    }

    private static void say(WebSocket socket, String text) {
        socket.sendText(text.replace('\'', '"'), true).join();
    }

    @Test
    void onlooker_neverGetsControl_notEvenWhenNobodyHasIt() throws InterruptedException {
        List<WebSocket> sockets = new ArrayList<>();
        Page page = join(Rank.ONLOOKER, sockets);
        say(sockets.get(0), "{'do':'ask'}");
        await("refused", () -> page.told("never gets control"));
        say(sockets.get(0), "{'do':'take'}");
        say(sockets.get(0), "{'do':'lever','lever':'key','to':1}");
        await("frames go on", () -> page.frames.get() > 5);
        assertFalse(panel.lease().isHeld());
        assertEquals(0, lever(Lever.KEY));
        sockets.forEach(WebSocket::abort);
    }

    @Test
    void teacher_handsControlToANamedSeat_takesItBack_andBothAreToldWhy() throws InterruptedException {
        List<WebSocket> sockets = new ArrayList<>();
        Page teacher = join(Rank.TEACHER, sockets);
        Page driver = join(Rank.DRIVER, sockets);
        Page onlooker = join(Rank.ONLOOKER, sockets);
        say(sockets.get(1), "{'do':'name','name':'Group 2'}");
        await("the teacher sees the name", () -> teacher.told("\"name\":\"Group 2\""));
        assertFalse(onlooker.told("\"t\":\"seats\""), "the list of seats is for the teacher");
        say(sockets.get(0), "{'do':'ask'}");
        await("the teacher is in control", () -> teacher.told("\"control\":true,\"held\""));
        long seat = server.guard().viewers().numberOf("Group 2");
        say(sockets.get(1), "{'do':'hand','page':" + seat + "}");
        await("a seat cannot hand", () -> driver.told("only the teacher hands control"));
        say(sockets.get(0), "{'do':'hand','page':" + server.guard().viewers().numberOf("seat " + (seat + 1)) + "}");
        await("nor to an onlooker", () -> teacher.told("only looks on"));
        say(sockets.get(0), "{'do':'hand','page':" + seat + "}");
        await("handed", () -> panel.lease().holds(seat));
        await("told", () -> teacher.told("\"holder\":\"Group 2\"") && onlooker.told("\"holder\":\"Group 2\""));
        say(sockets.get(0), "{'do':'take'}");
        await("taken back", () -> !panel.lease().holds(seat) && panel.lease().isHeld());
        await("the seat is told why", () -> driver.told("the teacher took control"));
        sockets.forEach(WebSocket::abort);
    }

    @Test
    void seat_takesTheNameOfAnother_orOneThatTheBenchGives_isRefused() throws InterruptedException {
        List<WebSocket> sockets = new ArrayList<>();
        Page teacher = join(Rank.TEACHER, sockets);
        Page driver = join(Rank.DRIVER, sockets);
        Page other = join(Rank.DRIVER, sockets);
        say(sockets.get(1), "{'do':'name','name':'Group 2'}");
        await("the teacher sees the name", () -> teacher.told("\"name\":\"Group 2\""));
        say(sockets.get(2), "{'do':'name','name':'group 2'}");
        await("the same name twice", () -> other.told("another page is called group 2 already"));
        say(sockets.get(2), "{'do':'name','name':'Teacher 1'}");
        await("the teacher's name", () -> other.told("the bench itself gives names like"));
        say(sockets.get(1), "{'do':'name','name':'Group 2'}");
        say(sockets.get(1), "{'do':'name','name':'Group 3'}");
        await("its own name again, and another", () -> teacher.told("\"name\":\"Group 3\""));
        assertFalse(driver.told("\"t\":\"refused\""));
        assertFalse(teacher.told("\"name\":\"group 2\"") || teacher.told("\"name\":\"Teacher 1\""));
        sockets.forEach(WebSocket::abort);
    }

    @Test
    void control_askedFor_bySecondSeat_whileOneAsks_secondIsTold() throws InterruptedException {
        List<WebSocket> sockets = new ArrayList<>();
        Page teacher = join(Rank.TEACHER, sockets);
        join(Rank.DRIVER, sockets);
        Page second = join(Rank.DRIVER, sockets);
        say(sockets.get(0), "{'do':'ask'}");
        await("the teacher is in control", () -> teacher.told("\"control\":true,\"held\""));
        say(sockets.get(1), "{'do':'ask'}");
        await("one asks", () -> panel.lease().isAsked());
        say(sockets.get(2), "{'do':'ask'}");
        await("the second is told", () -> second.told("another page asks already"));
        sockets.forEach(WebSocket::abort);
    }

    @ParameterizedTest
    @CsvSource({
        // from memory of RFC 5952, 4.2: the longest row of zeros, the first of two, never a single one
        "fd00:0:0:0:0:0:0:2, fd00::2",
        "2001:db8:0:0:0:0:2:1, 2001:db8::2:1",
        "2001:db8:0:1:1:1:1:1, 2001:db8:0:1:1:1:1:1",
        "2001:0:0:1:0:0:0:1, 2001:0:0:1::1",
        "2001:db8:0:0:1:0:0:1, 2001:db8::1:0:0:1",
        "2001:10:0:0:1:1:1:100, 2001:10::1:1:1:100",
        "0:0:0:0:0:0:0:1, ::1",
        "fe80:0:0:0:1:0:0:0, fe80::1:0:0:0",
        "2001:db8:1:1:1:1:0:0, 2001:db8:1:1:1:1::"
    })
    void addressOfSixthVersion_isWrittenAsABrowserWritesIt(String java, String browser) {
        assertEquals(browser, PanelServer.shortest(java));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", " ", "abcdefghijklmnopqrstuvwxy", "<b>", "a\nb", "-a"})
    void name_thatIsNone_isRefused(String name) {
        String text = com.fasterxml.jackson.databind.node.JsonNodeFactory.instance
                .objectNode()
                .put("do", "name")
                .put("name", name)
                .toString();
        org.junit.jupiter.api.Assertions.assertThrows(
                Refused.class, () -> panel.reader().read(text));
    }

    @Test
    void invitations_onLoopbackAlone_areNone_onAllAddresses_eachHasAllowanceAndCode() {
        assertEquals(List.of(), server.invitations());
        try (PanelServer open = new PanelServer(panel, "0.0.0.0", 0)) {
            assertTrue(open.link().startsWith("http://127.0.0.1:"), open.link());
            for (Invitation each : open.invitations()) {
                assertTrue(each.url().matches("http://[^/]+:" + open.port() + "/#[\\w-]{32}"), each.url());
                assertFalse(each.url().contains("127.0.0.1"), each.url());
                assertFalse(each.url().endsWith(open.guard().access().token(Rank.TEACHER)), each.url());
            }
        }
    }

    @Test
    void page_packed_isBelow100kB_andTheSameWhenUnpacked() throws IOException {
        StaticFiles files = new StaticFiles();
        // the live wire packs its texts as well (RFC 7692)
        int sum = StaticFiles.packed(panel.description().getBytes(StandardCharsets.UTF_8)).length;
        for (String path : files.paths()) {
            StaticFiles.Piece piece = files.at(path);
            sum += piece.packed().length;
            try (var in = new java.util.zip.GZIPInputStream(new java.io.ByteArrayInputStream(piece.packed()))) {
                org.junit.jupiter.api.Assertions.assertArrayEquals(piece.bytes(), in.readAllBytes(), path);
            }
        }
        assertTrue(sum < 100_000, "the page has " + sum + " bytes over the wire");
    }

    @ParameterizedTest
    @CsvSource({"'br, gzip;q=0.8',gzip", "gzip,gzip", "gzip;q=0,''", "identity,''", "GZIP,gzip"})
    void files_arePackedForWhoCanUnpackThem(String accepts, String packed) throws IOException, InterruptedException {
        var request = java.net.http.HttpRequest.newBuilder(URI.create("http://" + host() + "/main.js"))
                .header("Accept-Encoding", accepts)
                .build();
        var answer = HttpClient.newHttpClient().send(request, java.net.http.HttpResponse.BodyHandlers.ofByteArray());
        assertEquals(packed, answer.headers().firstValue("Content-Encoding").orElse(""));
        assertEquals("Accept-Encoding", answer.headers().firstValue("Vary").orElse(""));
    }

    @Test
    void qrCode_isReadBack() throws Exception {
        String link = "http://192.0.2.17:8640/#" + token;
        List<String> rows = QrCode.rows(link);
        int size = rows.size() - 8;
        boolean[][] modules = new boolean[size][size];
        for (int y = 0; y < size; y++) {
            for (int x = 0; x < size; x++) {
                modules[y][x] = rows.get(y + 4).charAt(x + 4) == '1';
            }
        }
        assertEquals(
                link,
                new com.google.zxing.qrcode.decoder.Decoder().decode(modules).getText());
    }
}
