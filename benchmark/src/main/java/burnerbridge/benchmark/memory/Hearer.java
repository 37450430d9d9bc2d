package burnerbridge.benchmark.memory;

import burnerbridge.benchmark.program.Program;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;

/** Who hears on MQTT of which points something was read, whatever their quality. */
final class Hearer implements AutoCloseable {
    private static final String READ_NOT_YET = "not-read-yet";

    private final Program subscriber;
    private final Set<String> heard = ConcurrentHashMap.newKeySet();

    /** @param subscriber by lines of topic, space and payload */
    Hearer(Program subscriber) {
        this.subscriber = subscriber;
        Thread thread = new Thread(() -> subscriber.toldUntilEnd(this::hear), "hearer");
        thread.setDaemon(true);
        thread.start();
    }

    private void hear(String line) {
        int space = line.indexOf(' ');
        if (line.startsWith("{\"value\":", space + 1) && !line.contains(READ_NOT_YET)) {
            heard.add(line.substring(0, space));
        }
    }

    int points() {
        return heard.size();
    }

    @Override
    public void close() {
        subscriber.close();
    }
}
