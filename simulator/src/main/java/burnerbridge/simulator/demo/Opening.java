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
        lines.add(String.format(
                Locale.ROOT,
                """
                Runs here, on loopback only
                  boiler-1, boiler-2  RTU over TCP %5d, one line of 19,200 baud, units 1, 2
                  steam-1             Modbus TCP   %5d, unit 3
                  a second door       Modbus TCP   %5d, all three units, to compare
                  an MQTT broker      TCP          %5d
                  the bridge          BACnet/IP    %5d, device 711001; its log %s""",
                ports.boilerHouse(),
                ports.annex(),
                ports.secondDoor(),
                ports.mqtt(),
                ports.bacnet(),
                log));
        lines.add(String.format(Locale.ROOT, """
                To look at
                 1 here: what the plant has beside what the bridge made of it, over MQTT
                 2 in another terminal: every point with its registers, age and quality, the
                   topics, and a register read by hand (boiler-1, 30008: tenths of a degree):
                     ./burner-bridge values %s --state %s
                     mosquitto_sub -p %d -V 5 -t 'plant/#' -v
                     mbpoll -m tcp -p %d -a 1 -t 3 -r 8 -1 127.0.0.1
                 3 what goes wrong: pull a cable (c), lock a burner out (l), stop the broker
                   (b), watch both sides tell it, and put it right again""", site, state, ports.mqtt(), ports.secondDoor()));
        return String.join("\n", lines);
    }
}
