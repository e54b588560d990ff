package sprag.bench.panel.web;

import java.io.IOException;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.util.thread.QueuedThreadPool;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import sprag.bench.cli.Trouble;
import sprag.bench.panel.bench.Publisher;

/** The small server that shows a panel to browsers. */
public final class PanelServer implements AutoCloseable {
    private static final int THREADS = 12;
    private static final int HEADER_BYTES = 16 * 1024;
    private static final long IDLE_MS = 30_000;
    private static final Pattern ZEROS = Pattern.compile("\\b0(:0)+\\b");

    private static final Logger LOG = LoggerFactory.getLogger(PanelServer.class);

    private final Server server;
    private final ServerConnector connector;
    private final ScheduledExecutorService sender;
    private final RequestGuard guard;
    private final String address;

    /** Opens the port and begins to serve.
     *
     * @param address where to listen, e.g. {@code 127.0.0.1}
     * @param port which port, 0 for any free one
     * @throws Trouble when the port cannot be had
     */
    public PanelServer(Panel panel, String address, int port) {
        this(panel, address, port, null);
    }

    /** The same with a text beside the car.
     *
     * @param beside the text, null for none
     */
    public PanelServer(Panel panel, String address, int port, Beside beside) {
        this.address = address;
        QueuedThreadPool pool = new QueuedThreadPool(THREADS, 3);
        pool.setName("panel");
        pool.setDaemon(true);
        server = new Server(pool);
        HttpConfiguration http = new HttpConfiguration();
        http.setSendServerVersion(false);
        http.setSendDateHeader(false);
        http.setRequestHeaderSize(HEADER_BYTES);
        connector = new ServerConnector(server, 1, 1, new HttpConnectionFactory(http));
        connector.setHost(address);
        connector.setPort(port);
        connector.setIdleTimeout(IDLE_MS);
        server.addConnector(connector);
        try {
            connector.open();
        } catch (IOException e) {
            throw new Trouble("cannot listen on " + address + " port " + port + ": " + e.getMessage()
                    + ". Choose another port with --port, 0 for any free one.");
        }
        guard = new RequestGuard(server, panel, new Access(hosts(address, connector.getLocalPort())), beside);
        server.setHandler(guard);
        sender = Executors.newSingleThreadScheduledExecutor(work -> {
            Thread thread = new Thread(work, "panel sender");
            thread.setDaemon(true);
            return thread;
        });
        guard.viewers().invitations(Invitation.write(invitations()));
        start();
    }

    private void start() {
        try {
            server.start();
        } catch (Exception e) {
            throw new IllegalStateException("the server for " + address + " did not start", e);
        }
        sender.scheduleAtFixedRate(this::pump, Publisher.FRAME_MS, Publisher.FRAME_MS, TimeUnit.MILLISECONDS);
    }

    /** Sends what is new. A failure is logged and does not end the sending. */
    private void pump() {
        try {
            guard.viewers().pumpAll();
        } catch (RuntimeException e) {
            LOG.error("could not send to the pages", e);
        }
    }

    /** The names under which a browser may address us. */
    private static Set<String> hosts(String address, int port) {
        Set<String> names = new LinkedHashSet<>(Set.of("127.0.0.1", "localhost", "[::1]"));
        try {
            InetAddress bound = InetAddress.getByName(address);
            if (bound.isAnyLocalAddress()) {
                for (NetworkInterface each : java.util.Collections.list(NetworkInterface.getNetworkInterfaces())) {
                    each.inetAddresses().forEach(a -> names.add(written(a)));
                }
                names.add(InetAddress.getLocalHost().getHostName().toLowerCase(Locale.ROOT));
            } else {
                names.add(written(bound));
                names.add(address.toLowerCase(Locale.ROOT));
            }
        } catch (IOException e) {
            throw new Trouble("cannot find the address " + address + ": " + e.getMessage());
        }
        Set<String> hosts = new LinkedHashSet<>();
        names.forEach(name -> hosts.add(name + ":" + port));
        return hosts;
    }

    private static String written(InetAddress address) {
        String text = address.getHostAddress().replaceFirst("%.*", "");
        return text.indexOf(':') >= 0 ? "[" + shortest(text) + "]" : text;
    }

    /** An IPv6 address as browsers write it in the Host header: its longest row of zeros left out (RFC 5952, 4.2). */
    static String shortest(String ipv6) {
        Matcher zeros = ZEROS.matcher(ipv6);
        int from = 0;
        int to = 0;
        while (zeros.find()) {
            if (zeros.end() - zeros.start() > to - from) {
                from = zeros.start();
                to = zeros.end();
            }
        }
        return to == 0
                ? ipv6
                : ipv6.substring(0, from).replaceFirst(":$", "")
                        + "::"
                        + ipv6.substring(to).replaceFirst("^:", "");
    }

    /** The port it listens on. */
    int port() {
        return connector.getLocalPort();
    }

    /** The link for the person who started it. The token stands behind the hash, so that it is never sent as part of an address. */
    public String link() {
        List<String> outside = outside(address);
        boolean any = address(address).isAnyLocalAddress();
        return link(any || outside.isEmpty() ? any ? "127.0.0.1" : bracketed(address) : outside.get(0), Rank.TEACHER);
    }

    /** The links for others, one of each kind for each address of this machine on a network; none on the loopback alone. */
    public List<Invitation> invitations() {
        List<Invitation> all = new ArrayList<>();
        for (Rank rank : List.of(Rank.ONLOOKER, Rank.DRIVER)) {
            outside(address).forEach(host -> all.add(new Invitation(rank.words, link(host, rank))));
        }
        return all;
    }

    private String link(String host, Rank rank) {
        return "http://" + host + ":" + port() + "/#" + guard.access().token(rank);
    }

    /** The addresses under which others reach it: those of this machine when it listens on all. */
    private static List<String> outside(String address) {
        InetAddress bound = address(address);
        if (bound.isLoopbackAddress()) {
            return List.of();
        }
        if (!bound.isAnyLocalAddress()) {
            return List.of(bracketed(address));
        }
        try {
            return NetworkInterface.networkInterfaces()
                    .filter(PanelServer::isUp)
                    .flatMap(NetworkInterface::inetAddresses)
                    .filter(each -> !each.isLoopbackAddress() && !each.isLinkLocalAddress())
                    .map(PanelServer::written)
                    .sorted()
                    .toList();
        } catch (IOException e) {
            throw new Trouble("cannot list the addresses of this machine: " + e.getMessage());
        }
    }

    private static boolean isUp(NetworkInterface each) {
        try {
            return each.isUp();
        } catch (IOException e) {
            return false;
        }
    }

    private static String bracketed(String host) {
        return host.indexOf(':') >= 0 ? "[" + host + "]" : host;
    }

    private static InetAddress address(String name) {
        try {
            return InetAddress.getByName(name);
        } catch (IOException e) {
            throw new Trouble("cannot find the address " + name + ": " + e.getMessage());
        }
    }

    /** Who comes in and who does not. */
    RequestGuard guard() {
        return guard;
    }

    @Override
    public void close() {
        sender.shutdownNow();
        try {
            server.stop();
        } catch (Exception e) {
            throw new IllegalStateException("the server for " + address + " did not stop", e);
        }
    }
}
