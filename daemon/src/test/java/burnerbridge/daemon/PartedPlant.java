package burnerbridge.daemon;

import burnerbridge.simulator.controller.Quillmere;
import burnerbridge.simulator.device.WrittenFrame;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.Callable;
import org.awaitility.Awaitility;

/**
 * Plant and bridge in a network of their own, with one cable to where a station asks; the cable is cut and joined again, and
 * what is then on the wire to the burner is told. A program of its own: {@code FOLDER PORT CABLE}.
 */
public final class PartedPlant {
    private static final Duration LONGEST = Duration.ofSeconds(120);
    static final String TOLD = "told";
    private static final String PERMITS = """
            write-permits:
              - {point: boiler-1.load-limit, from: {bacnet: [10.77.0.2]}, range: 20..100, interval: 1 s, storage: volatile, function: 6, silence-after: 6 s, on-silence: write 20, reason: a test}
            """;

    private PartedPlant() {}

    public static void main(String[] arguments) throws Exception {
        Path folder = Path.of(arguments[0]);
        StopStack started = new StopStack();
        Quillmere plant = WritablePlant.start();
        started.push(plant);
        WritablePlant.site(
                folder.resolve("site"),
                plant,
                PERMITS,
                "bacnet: {device-instance: 3, bind: 10.77.0.1, port: " + arguments[1] + "}");
        WholeBridge.start(folder.resolve("site"), folder.resolve("state"), started);
        until(() -> WholeBridge.isApproved(folder.resolve("site"), folder.resolve("state")));
        awaitWrites(plant, 1);
        cable(arguments[2], "down");
        long parted = System.nanoTime();
        awaitWrites(plant, 2);
        long silence = plant.written(Quillmere.BOILER_1).get(1).nanos();
        cable(arguments[2], "up");
        awaitWrites(plant, 3);
        List<Integer> values = plant.written(Quillmere.BOILER_1).stream()
                .map(PartedPlant::value)
                .toList();
        Path told = Files.writeString(
                folder.resolve("telling"), values.subList(0, 3) + " " + (silence - parted) / 1_000_000);
        Files.move(told, folder.resolve(TOLD));
        started.close();
    }

    private static void until(Callable<Boolean> is) {
        Awaitility.await().atMost(LONGEST).until(is);
    }

    private static void awaitWrites(Quillmere plant, int count) {
        until(() -> plant.written(Quillmere.BOILER_1).size() >= count);
    }

    private static void cable(String cable, String state) throws Exception {
        new ProcessBuilder("ip", "link", "set", cable, state)
                .inheritIO()
                .start()
                .waitFor();
    }

    private static int value(WrittenFrame frame) {
        return (frame.bytes()[4] & 0xFF) << 8 | frame.bytes()[5] & 0xFF;
    }
}
