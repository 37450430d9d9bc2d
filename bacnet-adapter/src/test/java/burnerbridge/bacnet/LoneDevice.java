package burnerbridge.bacnet;

import burnerbridge.model.RunningClock;
import burnerbridge.site.BacnetSettings;
import java.util.Optional;

/** A device in a process of its own, until it is ended: on the address and port that it is given. */
public final class LoneDevice {
    private LoneDevice() {}

    public static void main(String[] arguments) throws Exception {
        Plant plant = new Plant(new RunningClock());
        BacnetSettings settings = new BacnetSettings(
                Plant.DEVICE, "quillmere bridge", arguments[0], Integer.parseInt(arguments[1]), Optional.empty(), 99);
        try (BacnetAdapter adapter = new BacnetAdapter(settings, plant.site, plant.table, new RunningClock())) {
            adapter.start();
            Thread.currentThread().join();
        }
    }
}
