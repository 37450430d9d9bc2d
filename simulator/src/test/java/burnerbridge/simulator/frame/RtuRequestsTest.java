package burnerbridge.simulator.frame;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The checksums of 02 07 and of 11 03 00 6B 00 03 stand in MODBUS over Serial Line V1.02 and in many texts
 * on it; from memory. Others were computed with another program.
 */
class RtuRequestsTest {
    private static final String READ = "1103006B00037687";
    private final RtuRequests requests = new RtuRequests();

    @ParameterizedTest
    @CsvSource({
        READ + ", 17, 03006B0003",
        "02074112, 2, 07",
        "11100001000204000A0102C6F0, 17, 100001000204000A0102",
    })
    void aRequestEndsWhereItsFunctionSaysSo(String bytes, int unit, String pdu) {
        List<Frame> found = take(bytes);

        assertThat(found).hasSize(1);
        assertThat(found.get(0).unit()).isEqualTo(unit);
        assertThat(HexFormat.of().withUpperCase().formatHex(found.get(0).pdu())).isEqualTo(pdu);
        assertThat(requests.isInsideOne()).isFalse();
    }

    @Test
    void requestsRightBehindEachOtherAreApart() {
        assertThat(take(READ + READ + "02074112")).hasSize(3);
    }

    @Test
    void aRequestOfAnUnknownFunctionEndsWithASilence() {
        assertThat(take("0141C010")).isEmpty();

        assertThat(requests.silence()).map(Frame::function).contains(0x41);
        assertThat(requests.isInsideOne()).isFalse();
    }

    @Test
    void whatDoesNotCheckIsForgottenWithTheNextSilence() {
        assertThat(take("1103006B00037688" + "1103")).isEmpty();
        assertThat(requests.isInsideOne()).isTrue();

        assertThat(requests.silence()).isEmpty();
        assertThat(take(READ)).hasSize(1);
    }

    @Test
    void whatNeverEndsIsForgottenToo() {
        assertThat(take("00".repeat(1000))).isEmpty();

        assertThat(requests.silence()).isEmpty();
        assertThat(take(READ)).hasSize(1);
    }

    @Test
    void aReplyCarriesItsChecksumLowByteFirst() {
        Frame reply = Frame.rtu(2, new byte[] {7});

        assertThat(HexFormat.of().formatHex(Transport.RTU_SERIAL.bytes(reply))).isEqualTo("02074112");
    }

    private List<Frame> take(String hex) {
        List<Frame> found = new ArrayList<>();
        for (byte one : HexFormat.of().parseHex(hex)) {
            requests.take(one).ifPresent(found::add);
        }
        return found;
    }
}
