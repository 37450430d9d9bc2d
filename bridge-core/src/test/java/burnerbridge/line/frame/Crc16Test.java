package burnerbridge.line.frame;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.ScriptedPeer;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class Crc16Test {

    /** The example of MODBUS over Serial Line V1.02, 6.2.2, and one of RTU framing (both from memory). */
    @ParameterizedTest
    @CsvSource({"02 07 41 12", "11 03 00 6B 00 03 76 87"})
    void theChecksumIsSentLowByteFirst(String text) {
        byte[] frame = ScriptedPeer.hex(text);
        assertThat(Crc16.holds(frame, 0, frame.length)).isTrue();
        int crc = Crc16.of(frame, 0, frame.length - 2);
        assertThat(new byte[] {(byte) crc, (byte) (crc >> 8)})
                .containsExactly(frame[frame.length - 2], frame[frame.length - 1]);
    }

    /** The check value by which catalogues of checksums tell CRC-16/MODBUS (from memory). */
    @Test
    void theCheckValueIsThatOfTheCatalogues() {
        byte[] digits = "123456789".getBytes(StandardCharsets.US_ASCII);
        assertThat(Crc16.of(digits, 0, digits.length)).isEqualTo(0x4B37);
    }

    @Test
    void noSingleBitIsLost() {
        byte[] frame = ScriptedPeer.hex("11 03 00 6B 00 03 76 87");
        for (int bit = 0; bit < frame.length * 8; bit++) {
            byte[] spoilt = frame.clone();
            spoilt[bit / 8] ^= (byte) (1 << bit % 8);
            assertThat(Crc16.holds(spoilt, 0, spoilt.length)).isFalse();
        }
    }
}
