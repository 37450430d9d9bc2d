package burnerbridge.daemon;

import burnerbridge.bacnet.plan.ObjectChoices;
import burnerbridge.bacnet.plan.ObjectPlan;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.awaitility.Awaitility;

/**
 * Stamped units and the bridge in a network of their own, until there is a file {@link #END}. A program of its own: {@code
 * FOLDER BEGIN PORT}. It leaves in the folder which BACnet object has which key, and what was written.
 */
public final class PoorlyConnectedPlant {
    static final String END = "end";
    /** Of each stamped point {@code TYPE:INSTANCE KEY}, and in the last line the object by which the demand is asked for. */
    static final String OBJECTS = "objects";

    static final String DEMANDS = "demands";
    private static final int POSITIVE_INTEGER_VALUE = 48;
    private static final int ANALOG_VALUE = 2;
    private static final Duration LONGEST = Duration.ofMinutes(5);

    private PoorlyConnectedPlant() {}

    public static void main(String[] arguments) throws Exception {
        Path folder = Path.of(arguments[0]);
        Path siteFolder = folder.resolve("site");
        StopStack started = new StopStack();
        StampedUnits units = new StampedUnits(Long.parseLong(arguments[1]));
        started.push(units);
        units.writeSite(
                siteFolder,
                "bacnet: {device-instance: 3, bind: 10.77.0.1, port: " + arguments[2] + "}",
                "mqtt: {brokers: ['tcp://10.77.0.2:1883'], root: plant}");
        WholeBridge.command("check", siteFolder.toString(), "--bind");
        Site site = WholeBridge.start(siteFolder, folder.resolve("state"), started);
        Awaitility.await().atMost(LONGEST).until(() -> WholeBridge.isApproved(siteFolder, folder.resolve("state")));
        leave(folder, OBJECTS, objects(site));
        Awaitility.await().atMost(LONGEST).until(() -> {
            leave(
                    folder,
                    DEMANDS,
                    units.demands().stream().map(Object::toString).collect(Collectors.toList()));
            return Files.exists(folder.resolve(END));
        });
        started.close();
    }

    private static List<String> objects(Site site) {
        List<String> objects = new ArrayList<>();
        for (SitePoint point : site.points()) {
            String name = point.id().point().text();
            if (name.startsWith("stamp-")) {
                int unit = Integer.parseInt(point.id().controller().text().substring("boiler-".length()));
                int key = StampedUnits.key(unit, Integer.parseInt(name.substring("stamp-".length())));
                objects.add(POSITIVE_INTEGER_VALUE + ":"
                        + site.bindings().instanceOf(point).orElseThrow() + " " + key);
            }
        }
        ObjectPlan.of(site, ObjectChoices.USUAL)
                .asked()
                .forEach(asked -> objects.add(ANALOG_VALUE + ":" + asked.instance()));
        return objects;
    }

    /** Whole, or not at all. */
    private static void leave(Path folder, String name, List<String> lines) throws Exception {
        Files.move(
                Files.write(folder.resolve(name + ".telling"), lines),
                folder.resolve(name),
                StandardCopyOption.REPLACE_EXISTING);
    }
}
