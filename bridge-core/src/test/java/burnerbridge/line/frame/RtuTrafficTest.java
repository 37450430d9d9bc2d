package burnerbridge.line.frame;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.Heard;
import burnerbridge.line.ReadRequest;
import burnerbridge.line.ScriptedPeer;
import burnerbridge.line.WriteTemplate;
import burnerbridge.model.Seed;
import burnerbridge.site.AddressRange;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Frames of everybody among bytes; their checksums come from the message library. */
class RtuTrafficTest {
    private static final ReadRequest THREE = new ReadRequest(new UnitId(17), RegisterTable.HOLDING_REGISTER, 107, 3);
    private static final byte[] SENT = ScriptedPeer.hex("11 03 00 6B 00 03 76 87");

    /** @param frames unit and data unit each, in hex; a word of another length than a frame's after {@code ~} as it is */
    private static byte[] bytes(String frames) {
        ByteArrayOutputStream all = new ByteArrayOutputStream();
        for (String frame : frames.split("\\|")) {
            byte[] bytes = ScriptedPeer.hex(frame.replace("~", "").strip());
            all.writeBytes(
                    frame.contains("~")
                            ? bytes
                            : ScriptedPeer.Shape.RTU.frame(
                                    SENT, bytes[0] & 0xFF, Pdu.hex(Arrays.copyOfRange(bytes, 1, bytes.length))));
        }
        return all.toByteArray();
    }

    private static String heard(String frames, boolean settled) {
        List<Overheard> all = RtuTraffic.overheard(bytes(frames), SENT, THREE, settled, null);
        return all.stream().map(Overheard::toString).collect(Collectors.joining(", "));
    }

    /** Data units of the Modbus Application Protocol V1.1b3, 6.1 to 6.6, 6.11 and 6.12 (from memory). */
    @ParameterizedTest
    @CsvSource(delimiter = ';', textBlock = """
                    03 01 0013 0013; REQUEST of unit 3
                    03 02 00C4 0016; REQUEST of unit 3
                    11 03 006B 0002; REQUEST of unit 17
                    05 04 0008 0001; REQUEST of unit 5
                    05 05 00AC FF00; REQUEST of unit 5
                    05 06 0001 0003; REQUEST of unit 5
                    00 06 0001 0003; REQUEST of unit 0
                    05 0F 0013 000A 02 CD01; REQUEST of unit 5
                    05 10 0001 0002 04 000A 0102; REQUEST of unit 5
                    05 0F 0013 000A; OTHERS_REPLY of unit 5
                    05 10 0001 0002; OTHERS_REPLY of unit 5
                    05 05 00AC FF00 | 05 05 00AC FF00; REQUEST of unit 5
                    03 01 03 CD6B05; OTHERS_REPLY of unit 3
                    03 81 02; OTHERS_REPLY of unit 3
                    11 03 006B 0003; ''
                    11 04 06 022B 0000 0064; OTHERS_REPLY of unit 17
                    11 03 04 022B 0000; OTHERS_REPLY of unit 17
                    11 03 006B 0002 | 11 03 04 022B 0000; REQUEST of unit 17, OTHERS_REPLY of unit 17
                    05 03 006B 0003 | 11 03 06 022B 0000 0064; REQUEST of unit 5, OTHERS_REPLY of unit 17
                    ~00 FF | 05 03 006B 0003 | ~FE | 05 03 06 022B 0000 0064; REQUEST of unit 5, OTHERS_REPLY of unit 5
                    ~00; NOISE
                    ~11 03 06 022B 0000 0064 0000; NOISE
                    ~05 03 006B 0003 0000; NOISE
                    """)
    void whatNobodyAskedForIsToldByItsFrames(String frames, String heard) {
        assertThat(heard(frames, true)).isEqualTo(heard);
    }

    @Test
    void aReplyToTheLastRequestIsASecondOneOnlyWhereTheFirstHadCome() {
        assertThat(heard("11 03 06 022B 0000 0064", true)).isEqualTo("SECOND_REPLY of unit 17");
        assertThat(heard("11 83 02", true)).isEqualTo("SECOND_REPLY of unit 17");
        assertThat(heard("11 03 06 022B 0000 0064", false)).isEqualTo("LATE_REPLY of unit 17");
        assertThat(heard("11 83 0B", false)).isEqualTo("LATE_REPLY of unit 17");
    }

    private static WriteRequest write(int function, RegisterTable table, int first, String pdu) {
        return new WriteRequest(
                new WriteTemplate(new UnitId(17), function, AddressRange.of(table, first, 1), function == 22 ? 1 : 0),
                ScriptedPeer.hex(pdu));
    }

    private static String heardAfter(WriteRequest written, boolean isLast, boolean settled, String frames) {
        byte[] sent = isLast ? RtuFrame.of(written.unit(), written.pdu()) : SENT;
        List<Overheard> all = RtuTraffic.overheard(bytes(frames), sent, isLast ? written : THREE, settled, written);
        return all.stream().map(Overheard::toString).collect(Collectors.joining(", "));
    }

    /** The reply to a write may be the write once more, as a second master would send it. */
    @ParameterizedTest
    @CsvSource({
        "6, HOLDING_REGISTER, 44, 06 002C 0384, 06 002C 0384",
        "5, COIL, 16, 05 0010 FF00, 05 0010 FF00",
        "16, HOLDING_REGISTER, 1, 10 0001 0001 02 0384, 10 0001 0001",
        "22, HOLDING_REGISTER, 4, 16 0004 FFFE 0001, 16 0004 FFFE 0001"
    })
    void theLateReplyToAWriteIsNoSecondMaster(int function, RegisterTable table, int first, String pdu, String reply) {
        WriteRequest written = write(function, table, first, pdu);
        String refusal = Integer.toHexString(function | 0x80) + "02";
        assertThat(heardAfter(written, false, false, "11" + reply)).isEqualTo("LATE_REPLY of unit 17");
        assertThat(heardAfter(written, false, true, "11" + refusal)).isEqualTo("LATE_REPLY of unit 17");
        assertThat(heardAfter(written, true, true, "11" + reply)).isEqualTo("SECOND_REPLY of unit 17");
        assertThat(heardAfter(written, false, false, "05" + reply)).doesNotContain("LATE_REPLY");
    }

    @Test
    void anotherWriteThanOursIsThatOfASecondMaster() {
        WriteRequest written = write(6, RegisterTable.HOLDING_REGISTER, 44, "06 002C 0384");
        assertThat(heardAfter(written, false, false, "11 06 002C 0385")).isEqualTo("REQUEST of unit 17");
        assertThat(heardAfter(written, false, false, "11 06 002D 0384")).isEqualTo("REQUEST of unit 17");
    }

    /** As a request it would ask for 5 coils from 0x03CD; as a reply it tells 24 coils. */
    @Test
    void bitsThatLookLikeARequestAreNoSecondMaster() {
        assertThat(heard("05 01 03 CD 00 05", true)).isEqualTo("OTHERS_REPLY of unit 5");
    }

    @Test
    void randomBytesAreNoiseOfAnyLength() {
        long seed = Seed.value();
        Random random = new Random(seed);
        int frames = 0;
        for (int i = 0; i < 2_000; i++) {
            byte[] noise = new byte[1 + random.nextInt(300)];
            random.nextBytes(noise);
            List<Overheard> all = RtuTraffic.overheard(noise, SENT, THREE, true, null);
            frames += all.get(0).what() == Heard.NOISE ? 0 : 1;
        }
        // 300,000 places, of which one in 20 names a function, each with one chance or two in 65,536.
        assertThat(frames).as("seed " + seed).isLessThan(10);
    }
}
