package burnerbridge.simulator.frame;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.DataInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MbapFrameTest {

    @Test
    void aFrameIsReadFieldByField() throws IOException {
        Frame frame = read("15010000000611" + "03006B0003");

        assertThat(frame.transaction()).isEqualTo(0x1501);
        assertThat(frame.protocol()).isZero();
        assertThat(frame.unit()).isEqualTo(0x11);
        assertThat(frame.pdu()).isEqualTo(bytes("03006B0003"));
    }

    @Test
    void aReplyCarriesTheIdentifiersOfItsRequest() throws IOException {
        Frame reply = read("FFFE00000006F7" + "0400080001").withPdu(bytes("0402000A"));

        assertThat(Transport.MODBUS_TCP.bytes(reply)).isEqualTo(bytes("FFFE00000005F7" + "0402000A"));
    }

    @ParameterizedTest
    @CsvSource({"0000", "0001", "00FF", "FFFF"})
    void aLengthThatCannotBeOneIsRefused(String length) {
        assertThatThrownBy(() -> read("00010000" + length + "01" + "00".repeat(300)))
                .isInstanceOf(IOException.class)
                .hasMessageContaining("must be 2 to 254 (was " + Integer.parseInt(length, 16) + ")");
    }

    @Test
    void aFrameCutShortIsTheEndOfTheStream() {
        assertThatThrownBy(() -> read("000100000006110300")).isInstanceOf(EOFException.class);
    }

    private static Frame read(String hex) throws IOException {
        return MbapFrame.readFrom(new DataInputStream(new ByteArrayInputStream(bytes(hex))));
    }

    private static byte[] bytes(String hex) {
        return HexFormat.of().parseHex(hex);
    }
}
