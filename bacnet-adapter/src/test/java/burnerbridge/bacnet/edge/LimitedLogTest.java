package burnerbridge.bacnet.edge;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.model.HandClock;
import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.time.Duration;
import org.junit.jupiter.api.Test;

final class LimitedLogTest {
    private final HandClock clock = new HandClock();
    private final ListAppender<ILoggingEvent> lines = new ListAppender<>();
    private final LimitedLog log = new LimitedLog(logger(), clock);

    private Logger logger() {
        Logger logger = new LoggerContext().getLogger("limited");
        logger.setLevel(Level.INFO);
        lines.start();
        logger.addAppender(lines);
        return logger;
    }

    @Test
    void aFloodOfOneKindIsOneLineAMinuteThatCountsTheRest() {
        for (int i = 0; i < 1000; i++) {
            log.tell("tags", () -> "dropped");
        }
        assertThat(lines.list).hasSize(1);
        clock.forward(Duration.ofMinutes(1));
        log.tell("tags", () -> "dropped");
        assertThat(lines.list).hasSize(2);
        assertThat(lines.list.get(1).getFormattedMessage())
                .isEqualTo("dropped (and 999 more since the last such line)");
    }

    @Test
    void kindsDoNotSilenceEachOther() {
        log.tell("tags", () -> "a");
        log.tell("length", () -> "b");
        assertThat(lines.list).hasSize(2);
    }
}
