package burnerbridge.simulator.demo;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What the demo says before it shows anything: the caution, what runs where, and what to look at. */
record Opening(Ports ports, Path site, Path log, Path state) {
    static final String CAUTION = """
            Not a safety device and no part of what protects a burner: hard-wired limits
            and interlocks must do their work with this box unplugged. Adjusting burners is
            for licensed, competent people with combustion instruments; local codes, the
            maker's instructions and the authority on site come first. Check every point
            against the controller's own display before use. Nothing is writable.""";

    String text() {
        List<String> lines = new ArrayList<>();
        lines.add("Burner Bridge demo: Quillmere Glasshouses, an invented grower");
        lines.add(CAUTION);
        ports.differencesTo(Ports.USUAL).forEach(lines::add);
        lines.add(places());
        lines.add(steps());
        return String.join("\n", lines);
    }

    private String places() {
        return String.format(
                Locale.ROOT,
                """
                Runs here, on loopback only
                  boiler-1, boiler-2  RTU over TCP %5d, one line of 19,200 baud, units 1, 2
                  steam-1             Modbus TCP   %5d, unit 3
                  a second door       Modbus TCP   %5d, units 1 to 3, for tools that compare
                  an MQTT broker      TCP          %5d
                  the bridge          BACnet/IP    %5d, device 711001
                  its log             %s""",
                ports.boilerHouse(),
                ports.annex(),
                ports.secondDoor(),
                ports.mqtt(),
                ports.bacnet(),
                log);
    }

    private String steps() {
        return String.format(Locale.ROOT, """
                To look at
                 1 Here: what the plant has beside what came of it over MQTT. A few points are
                   rightly not good: a sensor that is not fitted, a value without its flame.
                 2 In another terminal, for instance:
                     ./burner-bridge values %s
                       --state %s
                     mosquitto_sub -p %d -V 5 -t 'plant/#' -v
                     mbpoll -m tcp -p %d -a 1 -t 3 -r 8 -1 127.0.0.1
                 3 What goes wrong: pull a cable (c), lock a burner out (l), stop the broker
                   (b), and put it right again.""", shortest(site), state, ports.mqtt(), ports.secondDoor());
    }

    /** As seen from where the demo was started, if that is shorter. */
    private static Path shortest(Path path) {
        Path here = Path.of("").toAbsolutePath();
        return path.startsWith(here) ? here.relativize(path) : path;
    }
}
