package burnerbridge.write.ask;

import burnerbridge.site.permit.AddressBlock;
import burnerbridge.site.permit.Askers;

/** Who asks, as far as the network tells. */
public sealed interface Source {

    /** For people and for the audit: {@code bacnet 192.0.2.7:47808}. */
    String text();

    /** Whether a permit lets it ask. */
    boolean isAmong(Askers askers);

    /**
     * A station on BACnet/IP.
     *
     * @param address of the datagram, as a number, the first octet the most significant
     * @param port of the datagram
     * @param network that the request came from through a router; 0 where the station itself sent it
     */
    record Bacnet(int address, int port, int network) implements Source {
        @Override
        public String text() {
            return "bacnet " + new AddressBlock(address, 32) + ":" + port + (network == 0 ? "" : " network " + network);
        }

        @Override
        public boolean isAmong(Askers askers) {
            return askers.bacnet().stream().anyMatch(block -> block.holds(address));
        }
    }

    /**
     * Whoever may publish to the topic.
     *
     * @param by what it calls itself, which nobody has checked
     */
    record Mqtt(String by) implements Source {
        private static final int LONGEST = 60;

        public Mqtt {
            String line = by.replaceAll("\\p{Cntrl}", "?");
            by = line.length() <= LONGEST ? line : line.substring(0, LONGEST - 1) + "…";
        }

        @Override
        public String text() {
            return by.isEmpty() ? "mqtt" : "mqtt " + by;
        }

        @Override
        public boolean isAmong(Askers askers) {
            return askers.mqtt();
        }
    }

    /** The bridge itself, for what a permit says that it must do. */
    record Bridge(String duty) implements Source {
        public static final Bridge SILENCE = new Bridge("silence");
        public static final Bridge HEARTBEAT = new Bridge("heartbeat");

        @Override
        public String text() {
            return "bridge " + duty;
        }

        @Override
        public boolean isAmong(Askers askers) {
            return true;
        }
    }
}
