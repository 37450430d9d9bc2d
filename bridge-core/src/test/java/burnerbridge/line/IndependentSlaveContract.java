package burnerbridge.line;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.Registers;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.UnitId;
import java.io.IOException;
import java.net.ServerSocket;
import java.nio.file.Path;
import java.time.Duration;
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

    @TempDir
    @SuppressWarnings("NullAway.Init")
    Path folder;

    @SuppressWarnings("NullAway.Init")
    private LineTransport transport;

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
        transport = LineTransportContract.transport(startSlave(), Duration.ofSeconds(2));
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
}
