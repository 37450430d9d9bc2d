package burnerbridge.benchmark.bacnet.device;

import burnerbridge.benchmark.measure.MachineClock;
import burnerbridge.site.Site;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.time.Duration;

/**
 * A device in a process of its own: {@code SIDE OBJECTS PORT}. It says {@code ready} with the microseconds
 * that making it took, and then follows commands, a line each:
 *
 * <ul>
 *   <li>{@code all}: every object changes, to 1, 2 and so on with each such command or single change
 *   <li>{@code single N}: the first object changes N times, 2 ms apart; answered with the ticks of each
 *   <li>{@code every-second}: from now on all change each second; not answered
 *   <li>{@code state}: what it holds, and the octets that are in use after everything unused was cleared
 * </ul>
 */
public final class ServerMain {
    private static final Duration BETWEEN = Duration.ofMillis(2);
    private static final Duration SECOND = Duration.ofSeconds(1);

    private final MachineClock clock = new MachineClock();
    private final Served served;
    private final int objects;
    private int changes;

    private ServerMain(Side side, int objects, int port) {
        this.objects = objects;
        Site site = MeasuredSite.of(objects);
        long begin = clock.ticks();
        served = side == Side.LIBRARY
                ? LibraryServed.start(objects, port)
                : AdapterServed.start(site, side == Side.USUAL, port, clock);
        say("ready " + (clock.ticks() - begin) / 1000);
    }

    public static void main(String[] arguments) throws IOException {
        ServerMain server = new ServerMain(
                Side.valueOf(arguments[0]), Integer.parseInt(arguments[1]), Integer.parseInt(arguments[2]));
        BufferedReader commands = new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
        for (String line = commands.readLine(); line != null; line = commands.readLine()) {
            server.follow(line.split(" ", -1));
        }
        System.exit(0);
    }

    private void follow(String[] words) {
        switch (words[0]) {
            case "all" -> changeAll();
            case "single" -> say(single(Integer.parseInt(words[1])));
            case "every-second" -> startChanging();
            case "state" -> say(served.state() + ", octets in use " + used());
            default -> throw new IllegalArgumentException("no command: " + words[0]);
        }
    }

    private void changeAll() {
        changes++;
        for (int i = 0; i < objects; i++) {
            served.change(i, changes);
        }
    }

    private String single(int times) {
        StringBuilder ticks = new StringBuilder();
        for (int i = 0; i < times; i++) {
            clock.pause(BETWEEN);
            ticks.append(i == 0 ? "" : " ").append(clock.ticks());
            served.change(0, ++changes);
        }
        return ticks.toString();
    }

    private void startChanging() {
        Thread thread = new Thread(
                () -> {
                    while (!Thread.currentThread().isInterrupted()) {
                        clock.pause(SECOND);
                        changeAll();
                    }
                },
                "changes");
        thread.setDaemon(true);
        thread.start();
    }

    private static long used() {
        System.gc();
        return ManagementFactory.getMemoryMXBean().getHeapMemoryUsage().getUsed();
    }

    private static void say(String line) {
        System.out.println(line);
        System.out.flush();
    }
}
