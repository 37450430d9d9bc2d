package burnerbridge.daemon.outside;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import burnerbridge.daemon.outside.FieldPoints.Field;
import burnerbridge.daemon.outside.FieldPoints.Kind;
import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.awaitility.Awaitility;
import org.awaitility.core.ConditionFactory;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/**
 * The whole way on real input: a field device from one independent library, read by hand with a second,
 * and the bridge's two sides read with a third and a fourth.
 */
class RealInputIT {
    private static final int PRESENT_VALUE = 85;
    private static final int RELIABILITY = 103;
    private static final int STATUS_FLAGS = 111;
    private static final int UNITS = 117;
    /** no-fault-detected and communication-failure of BACnetReliability, ASHRAE 135, clause 21. */
    private static final int NO_FAULT = 0;

    private static final int COMMUNICATION_FAILURE = 12;

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private Rig rig;

    @BeforeAll
    static void require() {
        Rig.requirePrograms();
    }

    @BeforeEach
    void start() {
        rig = new Rig(folder);
    }

    @AfterEach
    void end() {
        rig.close();
    }

    private static ConditionFactory eventually() {
        return Awaitility.await()
                .atMost(Duration.ofSeconds(40))
                .pollInterval(Duration.ofMillis(200))
                .ignoreExceptions();
    }

    private @Nullable JsonNode mqtt(String point) throws IOException, InterruptedException {
        return rig.mqtt("plant/quillmere/boiler-1/" + point);
    }

    private void awaitQuality(String point, String quality, String reason) {
        eventually().untilAsserted(() -> {
            JsonNode message = mqtt(point);
            assertThat(message).isNotNull();
            assertThat(message.path("quality").asString()).isEqualTo(quality);
            assertThat(message.path("reason").asString("")).isEqualTo(reason);
        });
    }

    private void awaitReliability(String object, int reliability, int fault) {
        eventually().untilAsserted(() -> {
            JsonNode read = rig.bacnet("read", object, RELIABILITY + "," + STATUS_FLAGS);
            assertThat(read.path(object + ":" + RELIABILITY).path(0).asInt(-1)).isEqualTo(reliability);
            assertThat(read.path(object + ":" + STATUS_FLAGS).path(0).path(1).asInt(-1))
                    .isEqualTo(fault);
        });
    }

    /** Reads a point straight from the field device, past the bridge. */
    private BigDecimal readByHand(Field field) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of("mbpoll", "-m", "tcp", "-a", "1", "-0", "-1", "-q", "-c", "1"));
        command.addAll(field.mbpollType());
        command.addAll(
                List.of("-r", Integer.toString(field.wire()), "-p", Integer.toString(rig.modbusPort), "127.0.0.1"));
        String said = OutsideProgram.output(command);
        Matcher value = Pattern.compile("\\[" + field.wire() + "]:\\s+(\\S+)(?:\\s+\\((-?\\d+)\\))?")
                .matcher(said);
        assertThat(value.find()).as(said).isTrue();
        boolean signed = field.format().equals("int16") && value.group(2) != null;
        return new BigDecimal(signed ? value.group(2) : value.group(1));
    }

    private static String objects() {
        return IntStream.range(0, FieldPoints.ALL.size())
                .mapToObj(i -> FieldPoints.ALL.get(i).object(i))
                .collect(Collectors.joining(","));
    }

    @Test
    void everyIndependentClientReadsWhatIsInTheDevice() throws Exception {
        rig.startDevice();
        rig.startBroker();
        rig.startBridge();
        awaitQuality("main-valve", "good", "");
        JsonNode single = rig.bacnet("read", objects(), PRESENT_VALUE + "," + STATUS_FLAGS + "," + RELIABILITY);
        JsonNode multiple = rig.bacnet("read-multiple", objects(), Integer.toString(PRESENT_VALUE));
        for (int i = 0; i < FieldPoints.ALL.size(); i++) {
            Field field = FieldPoints.ALL.get(i);
            BigDecimal byHand = field.byHand(readByHand(field));
            JsonNode message = mqtt(field.name());
            assertThat(message).as(field.name()).isNotNull();
            String object = field.object(i);
            assertSame(field, byHand, single.path(object + ":" + PRESENT_VALUE).path(0), message);
            assertThat(multiple.path(object + ":" + PRESENT_VALUE))
                    .isEqualTo(single.path(object + ":" + PRESENT_VALUE));
            assertThat(single.path(object + ":" + STATUS_FLAGS).path(0).toString())
                    .isEqualTo("[0,0,0,0]");
            assertThat(single.path(object + ":" + RELIABILITY).path(0).asInt()).isEqualTo(NO_FAULT);
        }
    }

    private static void assertSame(Field field, BigDecimal byHand, JsonNode bacnet, JsonNode message) {
        JsonNode value = message.path("value");
        assertThat(message.path("quality").asString()).as(field.name()).isEqualTo("good");
        if (field.kind() == Kind.ANALOG_INPUT) {
            // The reading program prints six digits of a float; BACnet's Real holds seven.
            assertThat(value.asDouble()).as(field.name()).isCloseTo(byHand.doubleValue(), within(1e-6 * 65536));
            assertThat(value.asDouble()).isCloseTo(byHand.doubleValue(), within(Math.abs(byHand.doubleValue()) * 1e-6));
            assertThat((float) bacnet.asDouble()).as(field.name()).isEqualTo(value.floatValue());
            assertThat(message.path("unit").asString("")).isEqualTo(field.unit());
        } else if (field.kind() == Kind.MULTI_STATE_INPUT) {
            assertThat(value.path("number").asInt()).isEqualTo(byHand.intValueExact());
            assertThat(value.path("text").asString()).isEqualTo("ignition");
            // The third state of the list.
            assertThat(bacnet.asInt()).isEqualTo(3);
        } else {
            boolean on = byHand.intValueExact() == 1;
            assertThat(
                            field.states().isEmpty()
                                    ? value.asBoolean()
                                    : value.path("number").asInt() == 1)
                    .as(field.name())
                    .isEqualTo(on);
            assertThat(bacnet.asInt()).isEqualTo(on ? 1 : 0);
        }
    }

    @Test
    void theDeviceIsFoundAndItsUnitsAreThoseOfTheStandard() throws Exception {
        rig.startDevice();
        rig.startBridge();
        eventually().untilAsserted(() -> {
            JsonNode found = rig.bacnet("who-is");
            assertThat(found.path("deviceId").asInt()).isEqualTo(711001);
        });
        for (int i = 0; i < FieldPoints.ALL.size(); i++) {
            Field field = FieldPoints.ALL.get(i);
            if (field.kind() == Kind.ANALOG_INPUT) {
                JsonNode read = rig.bacnet("read", field.object(i), Integer.toString(UNITS));
                assertThat(read.path(field.object(i) + ":" + UNITS).path(0).asInt())
                        .isEqualTo(field.bacnetUnit());
            }
        }
    }

    @Test
    void aWriteFromTheNetworkIsRefusedAndChangesNothing() throws Exception {
        rig.startDevice();
        rig.startBroker();
        rig.startBridge();
        awaitQuality("starts", "good", "");
        String starts = FieldPoints.ALL.get(5).object(5);
        // Error class property (2), error code write-access-denied (40).
        assertThat(rig.bacnet("write", starts, "85", "3").path("error").asString())
                .contains("Class:2")
                .contains("Code:40");
        assertThat(rig.bacnet("write", starts, "81", "1").path("error").asString())
                .contains("Class:2")
                .contains("Code:40");
        assertThat(rig.bacnet("write", "0:999999", "85", "3").path("error").asString())
                .contains("Class:1")
                .contains("Code:31");
        assertThat(rig.bacnet("read", starts, "85").path(starts + ":85").path(0).asInt())
                .isEqualTo(65535);
        assertThat(readByHand(FieldPoints.ALL.get(5))).isEqualByComparingTo("65535");
    }

    @Test
    void aRefusedRegisterIsToldAtItsPointOnly() throws Exception {
        rig.startDevice();
        rig.startBroker();
        rig.startBridge();
        awaitQuality("nowhere", "bad", "refused");
        JsonNode message = mqtt("nowhere");
        assertThat(message).isNotNull();
        assertThat(message.path("value").isNull()).isTrue();
        assertThat(message.path("exceptionCode").asInt()).isEqualTo(2);
        awaitQuality("starts", "good", "");
    }

    @Test
    void aDeviceThatStopsAndComesBackIsToldOnBothSidesWithoutARestart() throws Exception {
        rig.startDevice();
        rig.startBroker();
        Program bridge = rig.startBridge();
        String oxygen = FieldPoints.ALL.get(2).object(2);
        awaitQuality("oxygen", "good", "");
        rig.stopDevice();
        awaitQuality("oxygen", "stale", "line-down");
        JsonNode stale = mqtt("oxygen");
        assertThat(stale).isNotNull();
        assertThat(stale.path("value").isNull()).isTrue();
        assertThat(stale.path("lastGood").path("value").asDouble()).isEqualTo(123.456);
        awaitReliability(oxygen, COMMUNICATION_FAILURE, 1);
        assertThat((float) rig.bacnet("read", oxygen, "85")
                        .path(oxygen + ":85")
                        .path(0)
                        .asDouble())
                .isEqualTo(123.456f);
        JsonNode link = rig.mqtt("plant/quillmere/boiler-1/link");
        assertThat(link).isNotNull();
        assertThat(link.path("state").asString()).isEqualTo("down");
        rig.startDevice();
        awaitQuality("oxygen", "good", "");
        awaitReliability(oxygen, NO_FAULT, 0);
        assertThat(bridge.isAlive()).isTrue();
        assertThat(bridge.end()).isZero();
    }

    @Test
    void aBrokerThatStopsAndComesBackHoldsEverythingAgain() throws Exception {
        rig.startDevice();
        Program bridge = rig.startBridge();
        // Not there yet at the first try.
        rig.startBroker();
        awaitQuality("starts", "good", "");
        rig.stopBroker();
        assertThat(bridge.isAlive()).isTrue();
        awaitReliability(FieldPoints.ALL.get(0).object(0), NO_FAULT, 0);
        Instant before = Instant.now();
        rig.startBroker();
        for (Field field : FieldPoints.ALL) {
            awaitQuality(field.name(), "good", "");
        }
        JsonNode message = mqtt("starts");
        assertThat(message).isNotNull();
        assertThat(Instant.parse(message.path("readAt").asString())).isAfter(before.minusSeconds(1));
        JsonNode self = rig.mqtt("plant/quillmere/_self/link");
        assertThat(self).isNotNull();
        assertThat(self.path("state").asString()).isEqualTo("up");
    }

    @Test
    void aBridgeThatDiesOrEndsIsToldByTheBroker() throws Exception {
        rig.startDevice();
        rig.startBroker();
        Program bridge = rig.startBridge();
        awaitQuality("starts", "good", "");
        bridge.cut();
        awaitSelf("down", "connection-lost");
        Program next = rig.startBridge();
        awaitSelf("up", "");
        assertThat(next.end()).isZero();
        awaitSelf("down", "stopped");
    }

    private void awaitSelf(String state, String reason) {
        eventually().untilAsserted(() -> {
            JsonNode self = rig.mqtt("plant/quillmere/_self/link");
            assertThat(self).isNotNull();
            assertThat(self.path("state").asString()).isEqualTo(state);
            assertThat(self.path("reason").asString("")).isEqualTo(reason);
        });
    }
}
