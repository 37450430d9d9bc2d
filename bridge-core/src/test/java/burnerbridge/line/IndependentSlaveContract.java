package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.Registers;
import burnerbridge.model.RunningClock;
import burnerbridge.outside.OutsideProgram;
import burnerbridge.site.AddressRange;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.io.IOException;
import java.net.ServerSocket;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Against slaves that others wrote, whose framing is not ours. At wire address i they hold: the holding
 * register i × 500, the input register 65535 − i, a coil where i is a multiple of 3 and a discrete input
 * where it is even; 0 to 129.
 */
abstract class IndependentSlaveContract {
    static final UnitId UNIT = new UnitId(1);
    static final int ADDRESSES = 130;
    private static final Pattern CELL = Pattern.compile("(?m)^\\[\\d+]:\\s+(\\d+)");

    @TempDir
    @SuppressWarnings("NullAway.Init")
    Path folder;

    @SuppressWarnings("NullAway.Init")
    private LineTransport transport;

    @SuppressWarnings("NullAway.Init")
    private LineDefinition.Endpoint endpoint;

    /** Starts the slave; says where it is. */
    abstract LineDefinition.Endpoint startSlave() throws Exception;

    abstract void endSlave() throws Exception;

    static int freePort() throws IOException {
        try (ServerSocket socket = new ServerSocket(0)) {
            return socket.getLocalPort();
        }
    }

    @BeforeEach
    void start() throws Exception {
        endpoint = startSlave();
        transport = LineTransportContract.transport(endpoint, Duration.ofSeconds(2));
        ReadRequest one = new ReadRequest(UNIT, RegisterTable.HOLDING_REGISTER, 0, 1);
        Awaitility.await().atMost(Duration.ofSeconds(30)).until(() -> transport.read(one) instanceof Outcome.Answered);
    }

    @AfterEach
    void end() throws Exception {
        if (transport != null) {
            transport.close();
        }
        endSlave();
    }

    private Registers read(RegisterTable table, int first, int count) {
        return ((Outcome.Answered) transport.read(new ReadRequest(UNIT, table, first, count))).data();
    }

    @Test
    void everyTableIsReadAtItsOwnAddresses() {
        assertThat(read(RegisterTable.HOLDING_REGISTER, 101, 2)).isEqualTo(Registers.of(50500, 51000));
        assertThat(read(RegisterTable.INPUT_REGISTER, 7, 1)).isEqualTo(Registers.of(65528));
        assertThat(read(RegisterTable.COIL, 8, 3)).isEqualTo(Registers.of(0, 1, 0));
        assertThat(read(RegisterTable.DISCRETE_INPUT, 11, 2)).isEqualTo(Registers.of(0, 1));
    }

    @Test
    void theLargestReadIsAnswered() {
        Registers all = read(RegisterTable.HOLDING_REGISTER, 0, 125);
        assertThat(all.count()).isEqualTo(125);
        assertThat(all.word(124)).isEqualTo(62000);
    }

    @Test
    void anAddressThatIsNotThereIsRefused() {
        Outcome outcome = transport.read(new ReadRequest(UNIT, RegisterTable.HOLDING_REGISTER, 500, 1));
        assertThat(((Outcome.Refused) outcome).code()).isEqualTo(2);
    }

    @Test
    void manyReadsInARowAreAllAnswered() {
        for (int i = 0; i < 60; i++) {
            int first = i % 100;
            assertThat(read(RegisterTable.HOLDING_REGISTER, first, 2))
                    .isEqualTo(Registers.of(first * 500, (first + 1) * 500));
        }
    }

    private static WriteTemplate template(int function, RegisterTable table, int first, int count, int mask) {
        return new WriteTemplate(UNIT, function, AddressRange.of(table, first, count), mask);
    }

    /** Register 4 held 2000, of which bit 4 is set and bit 2 is not. */
    @Test
    void whatWeWriteIsReadByAnotherProgram() throws Exception {
        Map<WriteTemplate, Registers> values = new LinkedHashMap<>();
        values.put(template(5, RegisterTable.COIL, 16, 1, 0), Registers.of(1));
        values.put(template(6, RegisterTable.HOLDING_REGISTER, 44, 1, 0), Registers.of(900));
        values.put(template(15, RegisterTable.COIL, 19, 10, 0), Registers.of(1, 0, 1, 1, 0, 0, 1, 1, 1, 0));
        values.put(template(16, RegisterTable.HOLDING_REGISTER, 1, 2, 0), Registers.of(10, 258));
        values.put(template(22, RegisterTable.HOLDING_REGISTER, 4, 1, 0x14), Registers.of(0x0004));
        transport.close();
        LineDefinition line =
                new LineDefinition(new Name("written"), endpoint, Duration.ofSeconds(2), Duration.ofSeconds(3));
        WritableLine writable =
                Lines.writable(line, new RunningClock(), List.copyOf(values.keySet()), Map.of(UNIT, Guards.beside()));
        transport = writable.transport();
        ReadRequest one = new ReadRequest(UNIT, RegisterTable.HOLDING_REGISTER, 0, 1);
        Awaitility.await().until(() -> transport.read(one) instanceof Outcome.Answered);
        values.forEach((template, value) -> assertThat(writable.writes().write(template, value))
                .as("%s", template)
                .isInstanceOf(WriteOutcome.Accepted.class));
        transport.close();
        assertThat(elsewhere(RegisterTable.COIL, 16, 14)).containsExactly(1, 0, 1, 1, 0, 1, 1, 0, 0, 1, 1, 1, 0, 0);
        assertThat(elsewhere(RegisterTable.HOLDING_REGISTER, 0, 5)).containsExactly(0, 10, 258, 1500, 1988);
        assertThat(elsewhere(RegisterTable.HOLDING_REGISTER, 43, 3)).containsExactly(21500, 900, 22500);
    }

    /** By mbpoll, which counts references from 1; it knows no RTU over TCP, where we read once more by ourselves. */
    private List<Integer> elsewhere(RegisterTable table, int first, int count) throws Exception {
        if (endpoint instanceof LineDefinition.RtuOverTcp) {
            try (LineTransport another = LineTransportContract.transport(endpoint, Duration.ofSeconds(2))) {
                Outcome outcome = another.read(new ReadRequest(UNIT, table, first, count));
                Registers data = ((Outcome.Answered) outcome).data();
                return IntStream.range(0, count).mapToObj(data::word).toList();
            }
        }
        OutsideProgram.require("mbpoll", "mbpoll");
        List<String> command = new ArrayList<>(List.of("mbpoll", "-a", UNIT.toString(), "-1", "-t"));
        command.addAll(List.of(table == RegisterTable.COIL ? "0" : "4", "-r", Integer.toString(first + 1)));
        command.addAll(List.of("-c", Integer.toString(count)));
        if (endpoint instanceof LineDefinition.Tcp tcp) {
            command.addAll(List.of("-m", "tcp", "-p", Integer.toString(tcp.port()), "127.0.0.1"));
        } else {
            command.addAll(List.of("-m", "rtu", "-b", "9600", "-P", "none", "-s", "1", endpoint.toString()));
        }
        String told = OutsideProgram.output(command);
        return CELL.matcher(told)
                .results()
                .map(cell -> Integer.valueOf(cell.group(1)))
                .toList();
    }
}
