package burnerbridge.simulator.modbus;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.net.InetAddress;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Reads the server with a program that others wrote. */
class MbpollIT {
    private static final Pattern CELL = Pattern.compile("(?m)^\\[(\\d+)]:\\s+(\\S+)");

    @BeforeAll
    static void needsMbpoll() {
        OutsideProgram.require("mbpoll", "mbpoll");
    }

    @ParameterizedTest
    @CsvSource({
        "COIL,             0, 1 0 1 1",
        "DISCRETE_INPUT,   1, 0 0 1 1",
        "INPUT_REGISTER,   3, 7 300 0 32767",
        "HOLDING_REGISTER, 4, 12 0 1 500",
    })
    void anotherProgramReadsWhatTheImageHolds(ModbusTable table, String mbpollType, String values)
            throws IOException, InterruptedException {
        List<String> expected = List.of(values.split(" "));
        RegisterImage image = new FixedImage(
                table, 16, expected.stream().mapToInt(Integer::parseInt).toArray());
        try (ModbusTcpServer server =
                new ModbusTcpServer(InetAddress.getLoopbackAddress(), 0, Map.of(3, image), UnknownUnit.REFUSED)) {
            server.start();

            String told = mbpoll(server.port(), mbpollType, expected.size());

            assertThat(cells(told)).as(told).isEqualTo(expected);
        }
    }

    /** It counts references from 1, so 17 is the address 16. */
    private static String mbpoll(int port, String type, int count) throws IOException, InterruptedException {
        return OutsideProgram.output(List.of(
                "mbpoll",
                "-m",
                "tcp",
                "-p",
                String.valueOf(port),
                "-a",
                "3",
                "-t",
                type,
                "-r",
                "17",
                "-c",
                String.valueOf(count),
                "-1",
                "127.0.0.1"));
    }

    private static List<String> cells(String told) {
        List<String> cells = new ArrayList<>();
        CELL.matcher(told).results().map((MatchResult m) -> m.group(2)).forEach(cells::add);
        return cells;
    }
}
