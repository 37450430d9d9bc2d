package burnerbridge.site;

import java.time.Duration;

/**
 * One Modbus connection.
 *
 * @param replyTimeout from the request's first byte to the reply's last; where the endpoint has a baud
 *     rate, the time that both need on the wire comes on top
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

    /**
     * RTU frames through a device server, which passes every byte on to a serial line.
     *
     * @param baud the rate of the serial line behind it, in bits a second
     */
    public record RtuOverTcp(String host, int port, int baud) implements Endpoint {
        @Override
        public String toString() {
            return host + ":" + port;
        }
    }
}
