package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.Outcome.Answered;
import burnerbridge.line.Outcome.Refused;
import burnerbridge.model.Registers;
import burnerbridge.model.RunningClock;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The examples of the Modbus Application Protocol V1.1b3, 6.1 to 6.4 and 7 (from memory), as whole frames on
 * each wire. The checksums of 6.2, of 6.4, of the request of 6.3 and of the refusal stand in descriptions of
 * RTU frames (from memory); those of 6.1 and of the reply of 6.3 were worked out with another library.
 */
class StandardExamplesIT {
    private static final Duration REPLY_TIMEOUT = Duration.ofSeconds(2);

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private static Outcome read(LineDefinition.Endpoint endpoint, ReadRequest request) {
        LineDefinition line = new LineDefinition(new Name("tested"), endpoint, REPLY_TIMEOUT, Duration.ofSeconds(3));
        try (LineTransport transport = Lines.transport(line, new RunningClock())) {
            return transport.read(request);
        }
    }

    /** Has a peer of RTU frames say exactly these bytes, and sees exactly those come. */
    private static Outcome overRtu(
            ScriptedPeer peer, LineDefinition.Endpoint endpoint, ReadRequest request, String asked, String said) {
        peer.then((bytes, out, connection) -> out.write(ScriptedPeer.hex(said)));
        Outcome outcome = read(endpoint, request);
        assertThat(peer.requests).containsExactly(ScriptedPeer.hex(asked));
        return outcome;
    }

    private List<Outcome> overEveryRtuWire(ReadRequest request, String asked, String said) {
        try (ScriptedTcpPeer server = new ScriptedTcpPeer(ScriptedPeer.Shape.RTU);
                ScriptedPtyPeer port = new ScriptedPtyPeer(folder)) {
            LineDefinition.Endpoint rtuOverTcp = new LineDefinition.RtuOverTcp("127.0.0.1", server.port(), 115200);
            LineDefinition.Endpoint serial = SerialTransportIT.serial(port.cable.ours, false);
            return List.of(
                    overRtu(server, rtuOverTcp, request, asked, said), overRtu(port, serial, request, asked, said));
        }
    }

    /** A header of transaction, protocol 0 and length goes before the frame, which has no checksum. */
    private static Outcome overTcp(ReadRequest request, String asked, String length, String said) {
        try (ScriptedTcpPeer peer = new ScriptedTcpPeer(ScriptedPeer.Shape.TCP)) {
            peer.then((bytes, out, connection) -> {
                out.write(bytes, 0, 2);
                out.write(ScriptedPeer.hex("0000" + length + said));
            });
            Outcome outcome = read(new LineDefinition.Tcp("127.0.0.1", peer.port()), request);
            byte[] came = peer.requests.get(0);
            assertThat(Arrays.copyOfRange(came, 2, came.length)).isEqualTo(ScriptedPeer.hex("0000 0006" + asked));
            return outcome;
        }
    }

    private static Registers registers(String hex) {
        return Registers.of(Arrays.stream(hex.split(" "))
                .mapToInt(word -> Integer.parseInt(word, 16))
                .toArray());
    }

    @ParameterizedTest
    @CsvSource({
        // 6.1: coils 20 to 38. 6.2: discrete inputs 197 to 218. 6.3: holding registers 108 to 110 hold 555, 0, 100.
        // 6.4: input register 9 holds 10.
        "COIL, 19, 19, 11 01 0013 0013, 8E92, 0006, 11 01 03 CD 6B 05, 4012,"
                + " 1 0 1 1 0 0 1 1 1 1 0 1 0 1 1 0 1 0 1",
        "DISCRETE_INPUT, 196, 22, 11 02 00C4 0016, BAA9, 0006, 11 02 03 AC DB 35, 2018,"
                + " 0 0 1 1 0 1 0 1 1 1 0 1 1 0 1 1 1 0 1 0 1 1",
        "HOLDING_REGISTER, 107, 3, 11 03 006B 0003, 7687, 0009, 11 03 06 022B 0000 0064, C8BA, 022B 0000 0064",
        "INPUT_REGISTER, 8, 1, 11 04 0008 0001, B298, 0005, 11 04 02 000A, F8F4, 000A"
    })
    void theReadsOfTheStandardAreTheseFramesOnEveryWire(
            RegisterTable table,
            int first,
            int count,
            String asked,
            String askedChecksum,
            String length,
            String said,
            String saidChecksum,
            String words) {
        ReadRequest request = new ReadRequest(new UnitId(0x11), table, first, count);
        assertThat(overEveryRtuWire(request, asked + askedChecksum, said + saidChecksum))
                .hasSize(2)
                .allSatisfy(rtu -> assertThat(((Answered) rtu).data()).isEqualTo(registers(words)));
        Outcome tcp = overTcp(request, asked, length, said);
        assertThat(((Answered) tcp).data()).isEqualTo(registers(words));
    }

    /** 7: output 1185, which is not there. */
    @Test
    void theRefusalOfTheStandardIsTheseFramesOnEveryWire() {
        ReadRequest request = new ReadRequest(new UnitId(0x0A), RegisterTable.COIL, 0x04A1, 1);
        assertThat(overEveryRtuWire(request, "0A 01 04A1 0001 AC63", "0A 81 02 B053"))
                .hasSize(2)
                .allSatisfy(rtu -> assertThat(((Refused) rtu).code()).isEqualTo(2));
        Outcome tcp = overTcp(request, "0A 01 04A1 0001", "0003", "0A 81 02");
        assertThat(((Refused) tcp).code()).isEqualTo(2);
    }
}
