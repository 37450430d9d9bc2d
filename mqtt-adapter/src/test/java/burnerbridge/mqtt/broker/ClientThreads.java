package burnerbridge.mqtt.broker;

import java.util.List;
import java.util.Map;

/** The threads of the client library and of the sender that still run, with what they do. */
public final class ClientThreads {
    private ClientThreads() {}

    public static List<String> running() {
        return Thread.getAllStackTraces().entrySet().stream()
                .filter(e ->
                        e.getKey().getName().toLowerCase(java.util.Locale.ROOT).startsWith("mqtt "))
                .map(ClientThreads::text)
                .toList();
    }

    private static String text(Map.Entry<Thread, StackTraceElement[]> thread) {
        return thread.getKey().getName() + " " + List.of(thread.getValue());
    }
}
