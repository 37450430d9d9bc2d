package burnerbridge.daemon.log;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.control.JsonLine;
import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.spi.LoggingEvent;
import java.time.Instant;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class LinesTest {
    private static LoggingEvent event(Level level, String message, @Nullable Throwable error) {
        Logger logger = new LoggerContext().getLogger("burnerbridge.poll.LinePoller");
        LoggingEvent event = new LoggingEvent("", logger, level, message, error, null);
        event.setInstant(Instant.parse("2026-11-25T08:00:00.250Z"));
        event.setThreadName("line annex");
        return event;
    }

    @Test
    void aLineForPeopleHasTheTimeInUtcTheLevelAndTheMessage() {
        assertThat(TextLine.of(event(Level.WARN, "line annex: is overloaded", null)))
                .isEqualTo("2026-11-25T08:00:00.250Z WARN  line annex: is overloaded");
    }

    @Test
    void noMessageCanLookLikeTwoLines() {
        assertThat(TextLine.of(event(Level.WARN, "mqtt: the broker says 'x\n2026 ERROR y\u001b[2J'", null)))
                .isEqualTo("2026-11-25T08:00:00.250Z WARN  mqtt: the broker says 'x?2026 ERROR y?[2J'");
    }

    @Test
    void anErrorHasItsStackOnLinesOfItsOwn() {
        assertThat(TextLine.of(event(Level.ERROR, "a step failed", new IllegalStateException("why"))))
                .startsWith("2026-11-25T08:00:00.250Z ERROR a step failed\njava.lang.IllegalStateException: why\n")
                .contains("\tat burnerbridge.daemon.log.LinesTest");
    }

    @Test
    void aLineForProgramsIsOneObject() {
        Map<String, @Nullable Object> line =
                JsonLine.parse(JsonText.of(event(Level.INFO, "line annex: controller steam-1: answers", null)));

        assertThat(line)
                .containsEntry("time", "2026-11-25T08:00:00.250Z")
                .containsEntry("level", "INFO")
                .containsEntry("about", "line annex")
                .containsEntry("message", "line annex: controller steam-1: answers")
                .containsEntry("thread", "line annex")
                .doesNotContainKey("stack");
    }

    @Test
    void whatNoPartSaysIsOfTheBridge() {
        assertThat(JsonLine.parse(JsonText.of(event(Level.INFO, "ending", null))))
                .containsEntry("about", "bridge");
        assertThat(JsonLine.parse(JsonText.of(event(Level.INFO, "mqtt tcp://127.0.0.1:1883: connected", null))))
                .containsEntry("about", "mqtt");
        assertThat(JsonLine.parse(JsonText.of(event(Level.ERROR, "x\ny", new IllegalStateException("why")))))
                .containsEntry("message", "x\ny")
                .containsKey("stack");
    }

    @Test
    void theNewestLinesAreKeptAndLongOnesCut() {
        RecentLines recent = new RecentLines();
        for (int i = 0; i < 2 * RecentLines.MOST; i++) {
            recent.add("line " + i);
        }
        recent.add("x".repeat(10_000));

        assertThat(recent.all()).hasSize(RecentLines.MOST).startsWith("line " + (RecentLines.MOST + 1));
        assertThat(recent.all().get(RecentLines.MOST - 1)).hasSize(RecentLines.LONGEST + 1);
    }
}
