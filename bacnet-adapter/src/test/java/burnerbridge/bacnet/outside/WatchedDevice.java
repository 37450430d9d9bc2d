package burnerbridge.bacnet.outside;

import burnerbridge.bacnet.BacnetAdapter;
import burnerbridge.bacnet.Plant;
import burnerbridge.bacnet.Told;
import burnerbridge.model.RunningClock;
import burnerbridge.site.BacnetOptions;
import burnerbridge.site.BacnetSettings;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.awaitility.Awaitility;

/**
 * A device in a process of its own, on the address and port that it is given, which says each time that another thing is
 * wrong. Its clock hurries.
 */
public final class WatchedDevice {
    private static final String STATE = "burner_bridge_bacnet_broadcasts_state[";

    private WatchedDevice() {}

    public static void main(String[] arguments) throws Exception {
        Plant plant = new Plant(new RunningClock());
        int port = Integer.parseInt(arguments[1]);
        BacnetSettings settings =
                new BacnetSettings(Plant.DEVICE, "quillmere bridge", arguments[0], port, Optional.empty(), 99);
        try (BacnetAdapter adapter =
                new BacnetAdapter(settings.with(BacnetOptions.USUAL), plant.site, plant.table, new HastyClock())) {
            adapter.start();
            System.out.println("the bridge has started");
            String[] said = {""};
            Awaitility.await()
                    .atMost(Duration.ofMinutes(5))
                    .pollInterval(Duration.ofMillis(20))
                    .until(() -> {
                        String now = said(adapter);
                        if (!now.equals(said[0])) {
                            said[0] = now;
                            System.out.println(now);
                        }
                        return false;
                    });
        }
    }

    private static String said(BacnetAdapter adapter) {
        List<String> states = Told.figures(adapter).entrySet().stream()
                .filter(each -> each.getKey().startsWith(STATE) && each.getValue() == 1)
                .map(Map.Entry::getKey)
                .toList();
        List<String> troubles = Told.troubles(adapter).stream()
                .map(trouble -> trouble.weight().word() + ": " + trouble.sentence())
                .toList();
        return states + " " + troubles;
    }
}
