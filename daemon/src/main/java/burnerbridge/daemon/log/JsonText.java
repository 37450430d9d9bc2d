package burnerbridge.daemon.log;

import burnerbridge.control.JsonLine;
import ch.qos.logback.classic.spi.ILoggingEvent;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A line of the log as programs read it: one JSON object. */
final class JsonText {
    /** What a message is about stands before its first colon, unless that is part of a sentence. */
    private static final Pattern ABOUT =
            Pattern.compile("(line [^ :]+|mqtt|bacnet|web|write gate|write permits|site [^ :]+|state folder|log)\\b.*");

    private JsonText() {}

    static String of(ILoggingEvent event) {
        String message = event.getFormattedMessage();
        Matcher about = ABOUT.matcher(message.split("\n", 2)[0]);
        String stack = TextLine.stack(event);
        return JsonLine.object(json -> {
            json.writeStringProperty("time", TextLine.time(event));
            json.writeStringProperty("level", event.getLevel().toString());
            json.writeStringProperty("about", about.matches() ? about.group(1) : "bridge");
            json.writeStringProperty("message", message);
            json.writeStringProperty("thread", event.getThreadName());
            if (!stack.isEmpty()) {
                json.writeStringProperty("stack", stack);
            }
        });
    }
}
