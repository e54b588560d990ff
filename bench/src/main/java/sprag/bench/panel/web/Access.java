package sprag.bench.panel.web;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.Set;

/**
 * Who may come in. The name in the Host header must be one of ours, so that a foreign name that points at this machine gets
 * nothing; the Origin, where there is one, must be ours, so that a foreign page in the same browser gets nothing. All but the
 * page's own files needs the token that was printed.
 */
final class Access {
    private static final int TOKEN_BYTES = 24;

    private final Set<String> hosts;
    private final byte[] token;
    private final String tokenText;

    /** Makes a new token.
     *
     * @param hosts the allowed values of the Host header, in lower case, with the port
     */
    Access(Set<String> hosts) {
        this.hosts = Set.copyOf(hosts);
        byte[] random = new byte[TOKEN_BYTES];
        new SecureRandom().nextBytes(random);
        tokenText = Base64.getUrlEncoder().withoutPadding().encodeToString(random);
        token = tokenText.getBytes(StandardCharsets.US_ASCII);
    }

    /** The token, for the printed link. */
    String token() {
        return tokenText;
    }

    /** Whether a request is addressed to us. */
    boolean knowsHost(String host) {
        return host != null && hosts.contains(host.toLowerCase(java.util.Locale.ROOT));
    }

    /** Whether a request comes from one of our own pages. */
    boolean knowsOrigin(String origin) {
        return origin != null && origin.startsWith("http://") && knowsHost(origin.substring("http://".length()));
    }

    /** Whether a token is the one that was printed; takes the same time whatever is wrong with it. */
    boolean knowsToken(String offered) {
        return offered != null && MessageDigest.isEqual(token, offered.getBytes(StandardCharsets.UTF_8));
    }
}
