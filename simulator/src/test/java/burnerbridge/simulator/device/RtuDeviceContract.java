package burnerbridge.simulator.device;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.simulator.manners.Manners;
import burnerbridge.simulator.manners.Misbehaviour;
import burnerbridge.simulator.modbus.FixedImage;
import burnerbridge.simulator.modbus.ModbusTable;
import burnerbridge.simulator.modbus.UnknownUnit;
import java.io.IOException;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/**
 * What a device does that RTU frames reach. The exchange is that of Modbus Application Protocol V1.1b3,
 * clause 6.3, asked of unit 17; from memory. Checksums were computed with another program.
 */
abstract class RtuDeviceContract {
    static final WireRate RATE = new WireRate(19_200, 10);
    static final String REQUEST = "1103006B00037687";
    static final String REPLY = "110306022B00000064C8BA";

    FieldDevice device;
    Talker master;

    /** What stands at the other end. */
    interface Talker extends AutoCloseable {
        void send(String hex) throws IOException;

        /** So many bytes, waited for. */
        String receive(int count) throws IOException;

        boolean hearsNothing() throws IOException;

        @Override
        void close() throws IOException;
    }

    abstract Door door() throws IOException;

    abstract Talker newMaster() throws IOException;

    @BeforeEach
    void start() throws IOException {
        FixedImage image = new FixedImage(ModbusTable.HOLDING_REGISTER, 107, 555, 0, 100);
        device = new FieldDevice(door(), Map.of(17, image), UnknownUnit.SILENT);
        device.start();
        master = newMaster();
    }

    @AfterEach
    void close() throws IOException {
        master.close();
        device.close();
    }

    private void misbehave(Misbehaviour what, int number) {
        device.behave(what.manners(number, new Random(20261125)));
    }

    @Test
    void aRequestIsAnsweredAtTheRateOfTheWireAfterItsSilence() throws IOException {
        long before = System.nanoTime();
        master.send(REQUEST);
        assertThat(master.receive(11)).isEqualTo(REPLY);

        // 11 characters of 0.52 ms, behind 3.5; those of the request come on top.
        assertThat((System.nanoTime() - before) / 1_000_000).isGreaterThanOrEqualTo((long) (14.5 * 0.52));
    }

    @Test
    void aRequestInPiecesIsAnsweredOnceItIsWhole() throws IOException {
        master.send(REQUEST.substring(0, 6));
        master.send(REQUEST.substring(6));

        assertThat(master.receive(11)).isEqualTo(REPLY);
    }

    @Test
    void requestsAtOnceAreAnsweredInTheirOrder() throws IOException {
        master.send(REQUEST + "1101006B00030F47" + REQUEST);

        assertThat(master.receive(11 + 5 + 11)).startsWith(REPLY + "1181").endsWith(REPLY);
    }

    @Test
    void otherUnitsAndWrongChecksumsAreNotAnswered() throws IOException {
        master.send("1203006B000376B4");
        assertThat(master.hearsNothing()).isTrue();
        master.send("1103006B00037688");
        assertThat(master.hearsNothing()).isTrue();
        master.send(REQUEST);
        assertThat(master.receive(11)).isEqualTo(REPLY);
    }

    @Test
    void whatItIsToldItDoes() throws IOException {
        misbehave(Misbehaviour.SILENT, 0);
        master.send(REQUEST);
        assertThat(master.hearsNothing()).isTrue();
        misbehave(Misbehaviour.BUSY, 0);
        master.send(REQUEST);
        assertThat(master.receive(5)).isEqualTo("118306C0F7");
        misbehave(Misbehaviour.TWICE, 0);
        master.send(REQUEST);
        assertThat(master.receive(22)).isEqualTo(REPLY + REPLY);
        misbehave(Misbehaviour.DRIBBLED, 5);
        master.send(REQUEST);
        assertThat(master.receive(11)).isEqualTo(REPLY);
        device.behave(Manners.WELL);
        master.send(REQUEST);
        assertThat(master.receive(11)).isEqualTo(REPLY);
    }

    @Test
    void aReplyThatWaitsForTheNextRequestComesThen() throws IOException {
        misbehave(Misbehaviour.ONE_BEHIND, 2);
        master.send(REQUEST);
        assertThat(master.hearsNothing()).isTrue();
        master.send("1101006B00030F47");
        assertThat(master.receive(16)).startsWith(REPLY + "1181");
    }

    @Test
    void aPulledCableIsSilent() throws IOException {
        device.pullCable();
        master.send(REQUEST);
        assertThat(master.hearsNothing()).isTrue();
        device.plugCableIn();
        master.send(REQUEST);
        assertThat(master.receive(11)).isEqualTo(REPLY);
    }
}
