package burnerbridge.benchmark.memory;

import burnerbridge.benchmark.lines.Load;
import burnerbridge.benchmark.lines.Plant;
import burnerbridge.benchmark.measure.MachineClock;
import burnerbridge.benchmark.program.Mosquitto;
import burnerbridge.benchmark.start.ExampleSite;
import burnerbridge.benchmark.start.PlantProcess;
import burnerbridge.config.SiteFolder;
import burnerbridge.site.Site;
import java.io.IOException;
import java.nio.file.Path;

/** A site and the plant of which it tells. */
interface Subject extends AutoCloseable {

    /**
     * Writes the site into a new folder.
     *
     * @return the topics of the points of controllers, and the filters that match them
     */
    Topics write(Path folder, Mosquitto broker) throws IOException;

    String name();

    @Override
    void close();

    /** @param count of points that are read, each of which has a topic */
    record Topics(int count, String... filters) {}

    /** The example site beside its simulated plant. */
    static Subject demo(Path original) {
        PlantProcess plant = PlantProcess.start();
        return new Subject() {
            @Override
            public Topics write(Path folder, Mosquitto broker) throws IOException {
                ExampleSite site = ExampleSite.copy(original, folder, plant, broker.port());
                Site read = SiteFolder.load(folder).site().orElseThrow();
                long count = read.points().stream()
                        .filter(point -> point.definition().isPolled())
                        .count();
                return new Topics((int) count, site.topics().toArray(new String[0]));
            }

            @Override
            public String name() {
                return "the example site";
            }

            @Override
            public void close() {
                plant.close();
            }
        };
    }

    /** Controllers on a line of Modbus TCP each. */
    static Subject large(int controllers, int points, int every) throws IOException {
        Plant plant = Plant.open(new Load(controllers, points, 1), new MachineClock());
        return new Subject() {
            @Override
            public Topics write(Path folder, Mosquitto broker) throws IOException {
                LargeSite site = new LargeSite(plant.ports(), points, every, broker.port(), ExampleSite.freeUdpPort());
                site.write(folder);
                return new Topics(site.topics(), "plant/large/+/+");
            }

            @Override
            public String name() {
                return controllers * points + " points of " + controllers + " controllers";
            }

            @Override
            public void close() {
                plant.close();
            }
        };
    }
}
