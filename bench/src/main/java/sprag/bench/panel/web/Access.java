package sprag.bench.panel.web;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.EnumMap;
import java.util.Map;
import java.util.Set;

/**
 * Who may come in. The name in the Host header must be one of ours, so that a foreign name that points at this machine gets
 * nothing; the Origin, where there is one, must be ours, so that a foreign page in the same browser gets nothing. All but the
 * page's own files needs the token that was printed.
 */
final class Access {
    private static final int TOKEN_BYTES = 24;

    private final Set<String> hosts;
    private final Map<Rank, String> tokens = new EnumMap<>(Rank.class);

    /** Makes a new token for each rank.
     *
     * @param hosts the allowed values of the Host header, in lower case, with the port
     */
    Access(Set<String> hosts) {
        this.hosts = Set.copyOf(hosts);
        SecureRandom source = new SecureRandom();
        for (Rank rank : Rank.values()) {
            byte[] random = new byte[TOKEN_BYTES];
            source.nextBytes(random);
            tokens.put(rank, Base64.getUrlEncoder().withoutPadding().encodeToString(random));
        }
    }

    /** The token of a rank, for a link. */
    String token(Rank rank) {
        return tokens.get(rank);
    }

    /** Whether a request is addressed to us. */
    boolean knowsHost(String host) {
        return host != null && hosts.contains(host.toLowerCase(java.util.Locale.ROOT));
    }

    /** Whether a request comes from one of our own pages. */
    boolean knowsOrigin(String origin) {
        return origin != null && origin.startsWith("http://") && knowsHost(origin.substring("http://".length()));
    }

    /** The rank that a token gives, null for a wrong one; takes the same time whatever is wrong with it. */
    Rank rankOf(String offered) {
        byte[] bytes = offered == null ? new byte[0] : offered.getBytes(StandardCharsets.UTF_8);
        Rank known = null;
        for (Map.Entry<Rank, String> each : tokens.entrySet()) {
            if (MessageDigest.isEqual(each.getValue().getBytes(StandardCharsets.US_ASCII), bytes)) {
                known = each.getKey();
            }
        }
        return known;
    }
}
