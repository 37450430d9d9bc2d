package burnerbridge.bacnet;

import burnerbridge.model.BridgeClock;
import burnerbridge.model.RunningClock;
import burnerbridge.site.BacnetOptions;
import burnerbridge.site.BacnetSettings;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/** A started adapter over the invented plant, and a station to ask it. */
public final class Rig implements AutoCloseable {
    public final Plant plant;
    public final BacnetAdapter adapter;
    public final Station station;

    /** Limits that no test reaches by its haste. */
    public Rig() {
        this(BacnetOptions.USUAL.withLimits(100_000, 500));
    }

    public Rig(BacnetOptions options) {
        this(new Plant(new RunningClock()), options);
    }

    public Rig(Plant plant, BacnetOptions options) {
        this(plant, options, new RunningClock());
    }

    /** With a clock of the test's. */
    public Rig(Plant plant, BacnetOptions options, BridgeClock clock) {
        this.plant = plant;
        BacnetSettings settings = Plant.settings(0).with(options);
        adapter = new BacnetAdapter(settings, plant.site, plant.table, clock);
        try {
            adapter.start();
        } catch (BacnetStartException e) {
            throw new AssertionError(e);
        }
        station = Station.talkingTo(adapter.port());
    }

    /** Every object: the device, and all of both boilers, whether they answer and their views included. */
    public static List<Integer> objects() {
        List<Integer> objects = new ArrayList<>();
        objects.add(8 << 22 | Plant.DEVICE);
        for (int base : new int[] {0, 1000}) {
            for (int analog : new int[] {5, 10, 16, 17}) {
                objects.add(base + analog);
            }
            objects.add(3 << 22 | base + 18);
            objects.add(3 << 22 | base + 19);
            objects.add(13 << 22 | base + 20);
            objects.add(3 << 22 | base);
            objects.add(29 << 22 | base);
        }
        return objects;
    }

    /** Every property of every object as the device tells it, but for its list of subscriptions and the time. */
    public Map<String, String> everything() {
        Map<String, String> all = new LinkedHashMap<>();
        try (Station reader = Station.talkingTo(adapter.port())) {
            for (int object : objects()) {
                for (int property = 0; property <= 512; property++) {
                    if (property != 152 && property != 57) {
                        String reply = reader.ask(readProperty(object, property));
                        if (reply.startsWith("30")) {
                            all.put(String.format(Locale.ROOT, "%08X %d", object, property), reply);
                        }
                    }
                }
            }
        }
        return all;
    }

    public static String readProperty(int object, int property) {
        return String.format(Locale.ROOT, "02 75 01 0C 0C %08X %s", object, propertyTag(1, property));
    }

    /** A property's number in a context tag. */
    public static String propertyTag(int tag, int property) {
        String number = property < 0x100
                ? String.format(Locale.ROOT, "%02X", property)
                : property < 0x10000
                        ? String.format(Locale.ROOT, "%04X", property)
                        : String.format(Locale.ROOT, "%06X", property);
        return String.format(Locale.ROOT, "%02X %s", tag << 4 | 8 | number.length() / 2, number);
    }

    /** Whether the device answers a plain question now. */
    public boolean answers() {
        try (Station asker = Station.talkingTo(adapter.port())) {
            return asker.ask("00 05 01 0C 0C 02 00 00 03 19 4B")
                    .equals("30 01 0C 0C 02 00 00 03 19 4B 3E C4 02 00 00 03 3F");
        }
    }

    /** Nanoseconds of processor time that the library's transport has used. */
    public long transportTime() {
        ThreadMXBean threads = ManagementFactory.getThreadMXBean();
        for (Thread thread : Thread.getAllStackTraces().keySet()) {
            if (thread.getName().equals("bacnet requests")) {
                return threads.getThreadCpuTime(thread.getId());
            }
        }
        throw new AssertionError("the library has no transport thread");
    }

    /** The names of the threads of any BACnet device in this process. */
    public static Set<String> threads() {
        return Thread.getAllStackTraces().keySet().stream()
                .map(Thread::getName)
                .filter(n -> n.startsWith("bacnet") || n.startsWith("BACnet"))
                .collect(Collectors.toSet());
    }

    @Override
    public void close() {
        station.close();
        adapter.close();
    }
}
