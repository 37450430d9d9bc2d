package burnerbridge.bacnet.outside;

import burnerbridge.bacnet.BacnetAdapter;
import burnerbridge.bacnet.Plant;
import burnerbridge.bacnet.edge.ForeignDevice;
import burnerbridge.model.RunningClock;
import burnerbridge.site.BacnetOptions;
import burnerbridge.site.BacnetSettings;
import java.time.Duration;
import java.util.Optional;
import org.awaitility.Awaitility;

/**
 * A device in a process of its own, until it is ended: on the address and port that it is given. Where another
 * address follows it registers there as a foreign device, and says so when it has.
 */
public final class LoneDevice {
    private LoneDevice() {}

    public static void main(String[] arguments) throws Exception {
        Plant plant = new Plant(new RunningClock());
        int port = Integer.parseInt(arguments[1]);
        BacnetSettings settings =
                new BacnetSettings(Plant.DEVICE, "quillmere bridge", arguments[0], port, Optional.empty(), 99);
        Optional<BacnetOptions.Registration> registration = arguments.length > 2
                ? Optional.of(new BacnetOptions.Registration(arguments[2], port, 60))
                : Optional.empty();
        BacnetOptions usual = BacnetOptions.USUAL;
        BacnetOptions options = new BacnetOptions(
                false,
                usual.objectNames(),
                registration,
                usual.requestsPerSecond(),
                usual.subscriptions(),
                usual.endlessSubscriptions());
        try (BacnetAdapter adapter =
                new BacnetAdapter(settings.with(options), plant.site, plant.table, new RunningClock())) {
            adapter.start();
            if (registration.isPresent()) {
                Awaitility.await()
                        .atMost(Duration.ofMinutes(1))
                        .until(() -> adapter.foreignDevice().equals(Optional.of(ForeignDevice.State.REGISTERED)));
                System.out.println("the bridge is registered");
            }
            Thread.currentThread().join();
        }
    }
}
