package burnerbridge.mqtt;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.TimeUnit;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** {@code mosquitto_sub}, which looks at what a broker of this machine has and gets. */
public final class Subscriber {
    private static final JsonMapper JSON = JsonMapper.builder().build();
    private static final String FORMAT = "%r\t%q\t%E\t%t\t%p";

    private final List<String> command;

    /** @param options for its door: {@code -u}, {@code --cafile} and the like */
    public Subscriber(int port, List<String> options) {
        command = new ArrayList<>(
                List.of("mosquitto_sub", "-h", "127.0.0.1", "-p", Integer.toString(port), "-V", "5", "-q", "1"));
        command.addAll(options);
    }

    /**
     * What the broker delivered.
     *
     * @param expiry seconds that are left of its message expiry interval; -1 where it has none
     */
    public record Delivered(boolean retained, int quality, long expiry, String topic, JsonNode payload) {

        static Delivered parse(String line) {
            String[] parts = line.split("\t", 5);
            long expiry = parts[2].isEmpty() ? -1 : Long.parseLong(parts[2]);
            return new Delivered(
                    parts[0].equals("1"), Integer.parseInt(parts[1]), expiry, parts[3], JSON.readTree(parts[4]));
        }
    }

    /** What the broker holds, by topic. */
    public record Retained(Map<String, Delivered> byTopic) {

        public boolean has(String topic) {
            return byTopic.containsKey(topic);
        }

        public Delivered of(String topic) {
            Delivered delivered = byTopic.get(topic);
            if (delivered == null) {
                throw new AssertionError(topic + " is not retained");
            }
            return delivered;
        }

        public JsonNode valueOf(String topic) {
            return of(topic).payload().path("value");
        }
    }

    /** What a subscriber that comes now is given at once. */
    public Retained retained() {
        Map<String, Delivered> delivered = new LinkedHashMap<>();
        Process process = start("-t", "#", "--retained-only", "-W", "1", "-F", FORMAT);
        process.inputReader(StandardCharsets.UTF_8)
                .lines()
                .map(Delivered::parse)
                .forEach(d -> delivered.put(d.topic(), d));
        awaitEnd(process);
        return new Retained(delivered);
    }

    /** Leaves a message of somebody else's, retained. */
    public void publish(List<String> options, String topic, String payload) {
        List<String> all = new ArrayList<>(command.subList(1, 7));
        all.add(0, "mosquitto_pub");
        all.addAll(options);
        all.addAll(List.of("-r", "-t", topic, "-m", payload));
        awaitEnd(started(all));
    }

    /** Listens until it is closed. */
    public Listening listen(String filter) {
        return new Listening(start("-t", filter, "-F", FORMAT));
    }

    /** A subscription that stays. */
    public static final class Listening implements AutoCloseable {
        private final Process process;
        private final List<Delivered> heard = new CopyOnWriteArrayList<>();

        private Listening(Process process) {
            this.process = process;
            Thread thread = new Thread(
                    () -> process.inputReader(StandardCharsets.UTF_8)
                            .lines()
                            .map(Delivered::parse)
                            .forEach(heard::add),
                    "listening");
            thread.setDaemon(true);
            thread.start();
        }

        public List<Delivered> heard() {
            return heard;
        }

        @Override
        public void close() {
            process.destroy();
            awaitEnd(process);
        }
    }

    private Process start(String... arguments) {
        List<String> all = new ArrayList<>(command);
        all.addAll(List.of(arguments));
        return started(all);
    }

    private static Process started(List<String> all) {
        try {
            return new ProcessBuilder(all)
                    .redirectError(ProcessBuilder.Redirect.DISCARD)
                    .start();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void awaitEnd(Process process) {
        try {
            if (!process.waitFor(10, TimeUnit.SECONDS)) {
                throw new AssertionError("mosquitto_sub does not end");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
