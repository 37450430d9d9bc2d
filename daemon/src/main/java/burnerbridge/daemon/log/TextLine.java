package burnerbridge.daemon.log;

import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.classic.spi.IThrowableProxy;
import ch.qos.logback.classic.spi.ThrowableProxyUtil;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;

/** A line of the log as people read it: the time in UTC, the level, the message. */
final class TextLine {
    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern(
                    "uuuu-MM-dd'T'HH:mm:ss.SSS'Z'", Locale.ROOT)
            .withZone(ZoneOffset.UTC);

    private TextLine() {}

    /** With the stack of an error on lines of its own, and without the end of the last line. */
    static String of(ILoggingEvent event) {
        StringBuilder line = new StringBuilder(time(event))
                .append(' ')
                .append(event.getLevel())
                .append(" ".repeat(Math.max(0, 5 - event.getLevel().toString().length())))
                .append(' ')
                .append(oneLine(event.getFormattedMessage()));
        String stack = stack(event);
        return stack.isEmpty()
                ? line.toString()
                : line.append('\n').append(stack.stripTrailing()).toString();
    }

    static String time(ILoggingEvent event) {
        return TIME.format(Instant.ofEpochMilli(event.getTimeStamp()));
    }

    static String stack(ILoggingEvent event) {
        IThrowableProxy error = event.getThrowableProxy();
        return error == null ? "" : ThrowableProxyUtil.asString(error);
    }

    /** What a peer sends may be in a message, and must not look like a line of its own. */
    static String oneLine(String message) {
        return message.chars().anyMatch(Character::isISOControl) ? message.replaceAll("\\p{Cntrl}", "?") : message;
    }
}
