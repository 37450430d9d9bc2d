package burnerbridge.simulator.manners;

import burnerbridge.simulator.frame.Frame;
import burnerbridge.simulator.frame.Transport;
import java.time.Duration;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * The example of Modbus Application Protocol V1.1b3, clause 6.3, as unit 17 is asked for it: registers 107
 * to 109 hold 555, 0 and 100; from memory. Checksums were computed with another program.
 */
final class Exchanges {
    static final String REQUEST = "1103006B00037687";
    static final String REPLY = "110306022B00000064C8BA";
    static final String TCP_REQUEST = "BEEF00000006" + "1103006B0003";
    static final String TCP_REPLY = "BEEF00000009" + "110306022B00000064";
    private static final HexFormat HEX = HexFormat.of().withUpperCase();

    private Exchanges() {}

    static Exchange on(Transport transport) {
        return on(transport, "03006B0003", "0306022B00000064", Duration.ZERO);
    }

    static Exchange on(Transport transport, String request, String reply, Duration age) {
        Frame asked = new Frame(transport.isRtu() ? 0 : 0xBEEF, 0, 0x11, bytes(request));
        return new Exchange(
                transport,
                asked,
                asked.withPdu(bytes(reply)),
                (unit, pdu) -> Optional.of(new byte[] {(byte) (pdu[0] | 0x80), 4}),
                Duration.ofMillis(2),
                () -> age);
    }

    static byte[] bytes(String hex) {
        return HEX.parseHex(hex);
    }

    static String hex(byte[] bytes) {
        return HEX.formatHex(bytes);
    }

    /** Acts as words: bytes as hex, pauses and delays in milliseconds. */
    static String told(List<Act> acts) {
        return acts.stream().map(Exchanges::told).collect(Collectors.joining(" "));
    }

    private static String told(Act act) {
        if (act instanceof Act.Send send) {
            return hex(send.bytes());
        }
        if (act instanceof Act.Pause pause) {
            return "pause-" + pause.length().toMillis();
        }
        if (act instanceof Act.NotBefore late) {
            return "not-before-" + late.afterRequest().toMillis();
        }
        return act instanceof Act.Refuse refuse ? "refuse-" + refuse.length().toMillis() : "hang-up";
    }
}
