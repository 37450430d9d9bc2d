package burnerbridge.mqtt.broker.socket;

import java.io.IOException;
import java.net.Socket;
import javax.net.ssl.SSLParameters;
import javax.net.ssl.SSLSocket;
import javax.net.ssl.SSLSocketFactory;

/** Lays TLS over a connected socket; the broker's certificate must be of the host that was asked for. */
record Encryption(SSLSocketFactory keys, String host, int port) {

    /** The name of RFC 2818's rules for host names (section 3.1), which are those of any TLS client here. */
    private static final String HOST_NAMES = "HTTPS";

    /** Blocks until both sides agree. */
    SSLSocket over(Socket plain) throws IOException {
        SSLSocket encrypted = (SSLSocket) keys.createSocket(plain, bare(host), port, true);
        SSLParameters terms = encrypted.getSSLParameters();
        terms.setEndpointIdentificationAlgorithm(HOST_NAMES);
        encrypted.setSSLParameters(terms);
        encrypted.startHandshake();
        return encrypted;
    }

    /** An IPv6 address stands in brackets in a URI, and without in a certificate. */
    private static String bare(String host) {
        return host.startsWith("[") ? host.substring(1, host.length() - 1) : host;
    }
}
