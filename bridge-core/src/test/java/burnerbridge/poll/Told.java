package burnerbridge.poll;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.util.List;
import org.slf4j.LoggerFactory;

/** What pollers say in the log, from making this to closing it. */
final class Told implements AutoCloseable {
    private final ListAppender<ILoggingEvent> events = new ListAppender<>();
    private final Logger log = (Logger) LoggerFactory.getLogger("burnerbridge.poll");

    Told() {
        events.start();
        log.addAppender(events);
        log.setLevel(Level.INFO);
        log.setAdditive(false);
    }

    /** Both warnings and what is less. */
    List<String> all() {
        return events.list.stream().map(ILoggingEvent::getFormattedMessage).toList();
    }

    List<String> warnings() {
        return events.list.stream()
                .filter(event -> event.getLevel() == Level.WARN)
                .map(ILoggingEvent::getFormattedMessage)
                .toList();
    }

    @Override
    public void close() {
        log.setAdditive(true);
        log.setLevel(null);
        log.detachAppender(events);
    }
}
