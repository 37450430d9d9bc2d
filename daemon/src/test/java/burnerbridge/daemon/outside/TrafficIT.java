package burnerbridge.daemon.outside;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.util.Set;
import java.util.TreeSet;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The bridge's own traffic as an independent analyser understands it. */
class TrafficIT {
    private static final int READS = 12;

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private Rig rig;

    @BeforeAll
    static void require() {
        Rig.requirePrograms();
    }

    @AfterEach
    void end() {
        rig.close();
    }

    @Test
    void noFrameIsMalformedAndTheCountsAreThoseOfWhatWasAsked() throws Exception {
        rig = new Rig(folder);
        rig.startDevice();
        rig.startBroker();
        Capture capture = new Capture(rig);
        Program bridge = rig.startBridge();
        Awaitility.await()
                .atMost(Duration.ofSeconds(30))
                .ignoreExceptions()
                .until(() -> rig.mqtt("plant/quillmere/boiler-1/main-valve") != null);
        String objects = "0:1001,0:1002,0:1003,13:1007,3:1008,3:1009";
        assertThat(rig.bacnet("read", objects, "85,111").size()).isEqualTo(READS);
        assertThat(rig.bacnet("read-multiple", objects, "85").size()).isEqualTo(6);
        assertThat(rig.bacnet("write", "0:1001", "85", "1").path("error").isMissingNode())
                .isFalse();
        assertThat(bridge.end()).isZero();
        capture.end("bacapp.type == 5", 1);

        assertThat(capture.lines("_ws.malformed || _ws.expert.severity == error", "frame.protocols"))
                .isEmpty();
        assertModbus(capture);
        assertBacnet(capture);
        assertMqtt(capture);
    }

    private void assertModbus(Capture capture) throws Exception {
        String toDevice = "mbtcp && tcp.dstport == " + rig.modbusPort;
        String fromDevice = "mbtcp && tcp.srcport == " + rig.modbusPort;
        int queries = capture.count(toDevice);
        // Ten reads a turn; the very last may have been cut off by the end of the bridge.
        assertThat(queries).isGreaterThanOrEqualTo(10);
        assertThat(capture.count(fromDevice)).isBetween(queries - 1, queries);
        Set<String> functions = new TreeSet<>(capture.lines(toDevice, "modbus.func_code"));
        assertThat(functions).containsExactly("1", "2", "3", "4");
        assertThat(capture.count("tcp.len > 0 && tcp.port == " + rig.modbusPort + " && !mbtcp"))
                .isZero();
    }

    private void assertBacnet(Capture capture) throws Exception {
        assertThat(capture.count("bacapp.type == 0 && bacapp.confirmed_service == 12"))
                .isEqualTo(READS);
        assertThat(capture.count("bacapp.type == 3 && bacapp.confirmed_service == 12"))
                .isEqualTo(READS);
        assertThat(capture.count("bacapp.type == 0 && bacapp.confirmed_service == 14"))
                .isEqualTo(1);
        assertThat(capture.count("bacapp.type == 3 && bacapp.confirmed_service == 14"))
                .isEqualTo(1);
        assertThat(capture.count("bacapp.type == 0 && bacapp.confirmed_service == 15"))
                .isEqualTo(1);
        assertThat(capture.count("bacapp.type == 5 && bacapp.confirmed_service == 15"))
                .isEqualTo(1);
        // The I-Am of the start, at least.
        assertThat(capture.count("bacapp.type == 1 && bacapp.unconfirmed_service == 0"))
                .isPositive();
        assertThat(capture.count("udp.port == " + rig.bacnetPort + " && !bvlc")).isZero();
    }

    private void assertMqtt(Capture capture) throws Exception {
        String toBroker = " && tcp.dstport == " + rig.brokerPort;
        String fromBridge = "mqtt.msgtype == 3 && mqtt.qos == 1" + toBroker;
        // A frame may hold several messages, so the messages themselves are counted.
        int published = occurrences(capture, fromBridge, "mqtt.msgtype", "3");
        assertThat(published).isGreaterThanOrEqualTo(FieldPoints.ALL.size() + 3);
        assertThat(occurrences(capture, "mqtt.msgtype == 4 && tcp.srcport == " + rig.brokerPort, "mqtt.msgtype", "4"))
                .isEqualTo(published);
        // A description is longer than a segment; its first ones are not understood until the last is there.
        assertThat(capture.count("tcp.len > 0 && !tcp.reassembled_in && tcp.port == " + rig.brokerPort + " && !mqtt"))
                .isZero();
    }

    private static int occurrences(Capture capture, String filter, String field, String wanted) throws Exception {
        int found = 0;
        for (String line : capture.lines(filter, field)) {
            for (String one : line.split(",")) {
                found += one.equals(wanted) ? 1 : 0;
            }
        }
        return found;
    }
}
