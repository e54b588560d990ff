package sprag.bench.hand.emulated;

import static sprag.hal.board.PseudoTerminals.await;

import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.WebSocket;
import java.nio.ByteBuffer;
import java.util.List;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A page without a browser, in control of a panel that runs as a process of its own. */
final class PanelDriver implements WebSocket.Listener, AutoCloseable {
    private static final Pattern LINK = Pattern.compile("http://(\\S+?)/?#(\\S+)\\s");
    private static final long SOON_NS = 30_000_000_000L;
    private static final long SPEAK_MS = 200;
    private static final long PRESS_MS = 700;

    private final ScheduledExecutorService alive = Executors.newSingleThreadScheduledExecutor();
    private final List<String> texts = new CopyOnWriteArrayList<>();
    private final StringBuilder part = new StringBuilder();
    private final WebSocket socket;
    private volatile boolean broken;

    PanelDriver(Program program) {
        program.await("the panel's link", () -> LINK.matcher(program.said()).find());
        Matcher link = LINK.matcher(program.said());
        link.find();
        socket = open(link.group(1), link.group(2));
        alive.scheduleAtFixedRate(() -> send("{\"do\":\"alive\"}"), SPEAK_MS, SPEAK_MS, TimeUnit.MILLISECONDS);
        send("{\"do\":\"ask\"}");
    }

    /** The client of the JDK at times misreads the first frames; it is opened again then. */
    private WebSocket open(String host, String token) {
        while (true) {
            broken = false;
            WebSocket opened = HttpClient.newHttpClient()
                    .newWebSocketBuilder()
                    .subprotocols("sprag.panel", "token." + token)
                    .header("Origin", "http://" + host)
                    .buildAsync(URI.create("ws://" + host + "/live"), this)
                    .join();
            await("the first text", SOON_NS, () -> !texts.isEmpty() || broken);
            if (!broken) {
                return opened;
            }
            part.setLength(0);
        }
    }

    void arm() {
        await("the armed board", SOON_NS, () -> {
            send("{\"do\":\"arm\",\"pack_absent\":true,\"cautions_taken\":true}");
            pause(SPEAK_MS); // a page that sends too much is refused
            return isTold("armed: its outputs");
        });
    }

    /** Brake held, start pressed once more. */
    void start() {
        lever("brake", 1);
        lever("start", 0);
        pause(PRESS_MS);
        lever("start", 1);
    }

    static void pause(long ms) {
        LockSupport.parkNanos(TimeUnit.MILLISECONDS.toNanos(ms));
    }

    /** Moves a lever of the simulated car. */
    void lever(String name, int to) {
        send("{\"do\":\"lever\",\"lever\":\"" + name + "\",\"to\":" + to + "}");
    }

    boolean isTold(String words) {
        return texts.stream().anyMatch(text -> text.contains(words));
    }

    String lastTexts() {
        return String.join("\n", texts.subList(Math.max(0, texts.size() - 10), texts.size()));
    }

    private synchronized void send(String text) {
        if (!socket.isOutputClosed()) {
            socket.sendText(text, true).join();
        }
    }

    @Override
    public void onOpen(WebSocket opened) {
        opened.request(1);
    }

    @Override
    public CompletionStage<?> onText(WebSocket from, CharSequence data, boolean last) {
        part.append(data);
        if (last) {
            texts.add(part.toString());
            part.setLength(0);
        }
        from.request(1);
        return null;
    }

    @Override
    public CompletionStage<?> onBinary(WebSocket from, ByteBuffer data, boolean last) {
        from.request(1);
        return null;
    }

    @Override
    public void onError(WebSocket from, Throwable error) {
        broken = true;
    }

    @Override
    public void close() {
        alive.shutdownNow();
        socket.abort();
    }
}
