package burnerbridge.daemon.outside;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Objects;
import java.util.concurrent.atomic.AtomicReference;
import org.awaitility.Awaitility;
import org.awaitility.core.ConditionFactory;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/** A bridge that is killed and never comes back, as a plant's data people see it on mosquitto. */
class DeadBridgeIT {
    private static final String POINT = "plant/quillmere/boiler-1/main-valve";
    private static final String ABOUT = "plant/quillmere/boiler-1/about";

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private @Nullable Rig rig;

    @BeforeAll
    static void require() {
        Rig.requireDevice();
        OutsideProgram.require("mosquitto", "mosquitto");
        OutsideProgram.require("mosquitto_sub", "mosquitto-clients");
    }

    @AfterEach
    void end() {
        if (rig != null) {
            rig.close();
        }
    }

    @Test
    void onceItsValidityIsOverNobodyCanTakeItsValueForGood() throws IOException, InterruptedException {
        Rig started = new Rig(folder);
        rig = started;
        started.startDevice();
        started.startBroker();
        Program bridge = started.startBridge();
        eventually().until(() -> started.mqtt(ABOUT) != null);
        AtomicReference<JsonNode> before = new AtomicReference<>();
        eventually().until(() -> {
            JsonNode message = started.mqtt(POINT);
            before.set(message);
            return message != null && message.get("quality").asString().equals("good");
        });

        bridge.cut();
        Instant killed = now();

        // A look that is too short for a busy machine sees nothing.
        JsonNode last = Objects.requireNonNullElse(started.mqtt(POINT), before.get());
        Instant end = Instant.parse(last.get("sentAt").asString())
                .plusSeconds(last.get("validFor").asLong());
        assertThat(end).isBefore(killed.plusSeconds(11));
        // The description never expires: a look that misses it was too short to say anything.
        eventually().until(() -> started.mqtt(POINT) == null && started.mqtt(ABOUT) != null);
        // The broker counts from when it got the message, in whole seconds, and a look takes two or more.
        assertThat(now()).isBefore(end.plusSeconds(15));
        JsonNode link = Objects.requireNonNull(started.mqtt("plant/quillmere/_self/link"));
        assertThat(link.get("state").asString()).isEqualTo("down");
        assertThat(link.get("reason").asString()).isEqualTo("connection-lost");
    }

    private static Instant now() {
        return Instant.now();
    }

    private static ConditionFactory eventually() {
        return Awaitility.await()
                .atMost(Duration.ofSeconds(60))
                .pollInterval(Duration.ofMillis(200))
                .ignoreExceptions();
    }
}
