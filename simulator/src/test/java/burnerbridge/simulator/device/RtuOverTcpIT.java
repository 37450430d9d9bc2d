package burnerbridge.simulator.device;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.simulator.manners.Misbehaviour;
import java.io.IOException;
import java.net.InetAddress;
import java.util.Random;
import org.junit.jupiter.api.Test;

class RtuOverTcpIT extends RtuDeviceContract {

    @Override
    Door door() {
        return new Door.RtuOverTcp(InetAddress.getLoopbackAddress(), 0, RATE);
    }

    @Override
    Talker newMaster() throws IOException {
        return new TcpTalker(device.port());
    }

    private static final class TcpTalker implements Talker {
        private final HandMadeClient client;

        TcpTalker(int port) throws IOException {
            client = new HandMadeClient(port);
        }

        @Override
        public void send(String hex) throws IOException {
            client.send(hex);
        }

        @Override
        public String receive(int count) throws IOException {
            return client.receive(count);
        }

        @Override
        public boolean hearsNothing() throws IOException {
            return client.hearsNothing();
        }

        @Override
        public void close() throws IOException {
            client.close();
        }
    }

    @Test
    void theReplyToAConnectionThatIsGoneComesOnTheNext() throws IOException {
        device.behave(Misbehaviour.LATE.manners(400, new Random(1)));
        try (HandMadeClient gone = new HandMadeClient(device.port())) {
            gone.send(REQUEST);
            assertThat(gone.hearsNothing()).isTrue();
        }
        try (HandMadeClient next = new HandMadeClient(device.port())) {
            assertThat(next.receive(11)).isEqualTo(REPLY);
        }
    }

    @Test
    void allThatAreConnectedHearAReply() throws IOException {
        try (HandMadeClient other = new HandMadeClient(device.port())) {
            master.send(REQUEST);

            assertThat(other.receive(11)).isEqualTo(REPLY);
            assertThat(master.receive(11)).isEqualTo(REPLY);
        }
    }
}
