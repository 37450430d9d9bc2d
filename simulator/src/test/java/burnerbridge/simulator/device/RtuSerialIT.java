package burnerbridge.simulator.device;

import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.simulator.modbus.UnknownUnit;
import com.fazecast.jSerialComm.SerialPort;
import java.io.IOException;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RtuSerialIT extends RtuDeviceContract {
    private static final HexFormat HEX = HexFormat.of().withUpperCase();

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private @Nullable PtyPair cable;

    @Override
    Door door() throws IOException {
        cable = new PtyPair(folder);
        return new Door.RtuSerial(cable.device, RATE);
    }

    @Override
    Talker newMaster() throws IOException {
        return new SerialTalker(folder.resolve("master"));
    }

    @AfterEach
    void unplug() {
        if (cable != null) {
            cable.close();
        }
    }

    private static final class SerialTalker implements Talker {
        private final SerialPort port;

        SerialTalker(Path path) throws IOException {
            port = SerialPort.getCommPort(path.toString());
            port.setComPortParameters(19_200, 8, SerialPort.ONE_STOP_BIT, SerialPort.NO_PARITY);
            port.setComPortTimeouts(SerialPort.TIMEOUT_READ_BLOCKING, 300, 0);
            if (!port.openPort()) {
                throw new IOException(path + " cannot be opened");
            }
        }

        @Override
        public void send(String hex) {
            byte[] bytes = HEX.parseHex(hex);
            port.writeBytes(bytes, bytes.length);
        }

        @Override
        public String receive(int count) {
            byte[] bytes = new byte[count];
            int got = 0;
            for (int tries = 0; got < count && tries < 20; tries++) {
                got += Math.max(0, port.readBytes(bytes, count - got, got));
            }
            return HEX.formatHex(bytes, 0, got);
        }

        @Override
        public boolean hearsNothing() {
            return port.readBytes(new byte[1], 1) <= 0;
        }

        @Override
        public void close() {
            port.closePort();
        }
    }

    @Test
    void aPortThatIsNotThereIsSaid() {
        Path none = folder.resolve("none");
        FieldDevice nowhere = new FieldDevice(new Door.RtuSerial(none, RATE), Map.of(), UnknownUnit.SILENT);

        assertThatThrownBy(nowhere::start).hasMessage(none + ": there is no such port");
    }
}
