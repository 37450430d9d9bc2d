package burnerbridge.site;

import java.time.Duration;

/**
 * One Modbus connection.
 *
 * @param replyTimeout from the request's first byte to the reply's last
 */
public record LineDefinition(Name name, Endpoint endpoint, Duration replyTimeout, Duration connectTimeout) {

    /** Where a line leads. */
    public sealed interface Endpoint {}

    /** Modbus TCP. */
    public record Tcp(String host, int port) implements Endpoint {
        @Override
        public String toString() {
            return host + ":" + port;
        }
    }
}
