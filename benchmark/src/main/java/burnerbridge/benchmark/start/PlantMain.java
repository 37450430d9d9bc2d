package burnerbridge.benchmark.start;

import burnerbridge.benchmark.measure.MachineClock;
import burnerbridge.simulator.controller.Quillmere;
import java.io.IOException;
import java.net.InetAddress;
import java.util.concurrent.CountDownLatch;

/** The simulated plant of the example site, a process of its own on free ports, which it says in one line. */
public final class PlantMain {
    private static final long SEED = 20261128;

    private PlantMain() {}

    public static void main(String[] arguments) throws IOException, InterruptedException {
        try (Quillmere plant = new Quillmere(
                new Quillmere.Places(InetAddress.getLoopbackAddress(), 0, 0, 0),
                SEED,
                new MachineClock().now().wall())) {
            plant.start();
            System.out.println(plant.boilerHousePort() + " " + plant.annexPort());
            System.out.flush();
            new CountDownLatch(1).await();
        }
    }
}
