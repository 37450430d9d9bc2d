package burnerbridge.benchmark.bacnet.client;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.ByteBuffer;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;

/** Datagrams made by hand after ASHRAE 135, 20.2 and 21. */
class FramesTest {
    private static final HexFormat HEX = HexFormat.ofDelimiter(" ");
    private static final String HEAD = "81 0A 00 21 01 00 30 07 0E ";

    @Test
    void flagsOfSeveralInputsAreAskedForAtOnce() {
        ByteBuffer frame = ByteBuffer.allocate(Frames.ROOM);

        Frames.readFlags(frame, 7, new int[] {5, 1005});

        byte[] sent = new byte[frame.remaining()];
        frame.get(sent);
        assertThat(HEX.withUpperCase().formatHex(sent))
                .isEqualTo("81 0A 00 1C 01 04 00 05 07 0E 0C 00 00 00 05 1E 09 6F 1F 0C 00 00 03 ED 1E 09 6F 1F");
    }

    @Test
    void oneObjectWithClearFlagsIsEnough() {
        assertThat(Frames.hasClearFlags(reply(result(5, "82 04 40") + " " + result(1005, "82 04 00"))))
                .isTrue();
    }

    @Test
    void aFaultOrAnErrorIsNotClear() {
        assertThat(Frames.hasClearFlags(reply(result(5, "82 04 40")))).isFalse();
        assertThat(Frames.hasClearFlags(reply("0C 00 00 00 05 1E 29 6F 5E 91 01 91 1F 5F 1F")))
                .isFalse();
    }

    private static String result(int input, String flags) {
        return "0C " + HEX.formatHex(ByteBuffer.allocate(4).putInt(input).array()) + " 1E 29 6F 4E " + flags + " 4F 1F";
    }

    private static ByteBuffer reply(String results) {
        return ByteBuffer.wrap(HEX.parseHex(HEAD + results));
    }
}
