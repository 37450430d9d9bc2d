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

    /**
     * RTU frames on a serial port of this machine, with eight data bits.
     *
     * @param port an absolute path, best one that stays the same when an adapter is plugged in again
     * @param baud bits a second
     * @param stopBits 1 or 2
     * @param echo whether the adapter hands every request back before its reply
     */
    public record Serial(String port, int baud, Parity parity, int stopBits, Rs485 rs485, boolean echo)
            implements Endpoint {
        public Serial {
            if (stopBits < 1 || stopBits > 2) {
                throw new IllegalArgumentException("a character has 1 or 2 stop bits (was " + stopBits + ")");
            }
        }

        /** A start bit, eight data bits, the parity bit if any, and the stop bits: 10 to 12. */
        public int bitsPerCharacter() {
            return 9 + (parity == Parity.NONE ? 0 : 1) + stopBits;
        }

        @Override
        public String toString() {
            return port;
        }
    }

    public enum Parity {
        NONE,
        ODD,
        EVEN
    }

    /** Who switches the transmitter of an RS-485 port on and off. */
    public enum Rs485 {
        /** The adapter does, or the driver as it is set up already: nothing of it is touched. */
        AUTO,
        /** The driver is told to, with RTS high while it sends. */
        RTS_HIGH,
        /** The driver is told to, with RTS low while it sends. */
        RTS_LOW
    }
}
