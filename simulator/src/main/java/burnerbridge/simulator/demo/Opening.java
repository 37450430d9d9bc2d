package burnerbridge.simulator.demo;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What the demo says before it shows anything: the caution, what runs where, and how to look at it. */
record Opening(Ports ports, Path site, Path log) {
    static final String CAUTION = """
            Not a safety device and no part of what protects a burner: hard-wired limits
            and interlocks must do their work with this box unplugged. Adjusting burners is
            for licensed, competent people with combustion instruments; local codes, the
            maker's instructions and the authority on site come first. Check every point
            against the controller's own display before use.""";

    String text() {
        List<String> lines = new ArrayList<>();
        lines.add("Burner Bridge demo: one hot-water boiler of Quillmere Glasshouses (invented)");
        lines.add("");
        lines.add(CAUTION);
        lines.add("");
        ports.differencesTo(Ports.USUAL).forEach(lines::add);
        lines.add(places());
        return String.join("\n", lines) + "\n";
    }

    private String places() {
        return String.format(
                Locale.ROOT,
                """
                Runs here, on loopback only  To look at it from another terminal
                 boiler-1  Modbus TCP %5d   mbpoll -m tcp -p %d -t 3 -c 11 -1 127.0.0.1
                 broker    MQTT       %5d   mosquitto_sub -p %d -V 5 -t 'plant/#' -v
                 bridge    BACnet/IP  %5d   a BACnet client: 127.0.0.1:%d, device 711001
                 its site  %s
                 its log   %s
                Every second firing loses its flame and locks out, until somebody in the plant
                resets it at the burner (the bridge cannot). Ctrl-C ends everything.""",
                ports.modbus(),
                ports.modbus(),
                ports.mqtt(),
                ports.mqtt(),
                ports.bacnet(),
                ports.bacnet(),
                site,
                log);
    }
}
