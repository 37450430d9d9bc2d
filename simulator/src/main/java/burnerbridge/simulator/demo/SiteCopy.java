package burnerbridge.simulator.demo;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** A copy of the example site with other ports in it. */
final class SiteCopy {
    private static final String SITE_FILE = "site.yaml";

    private SiteCopy() {}

    /**
     * Copies a site folder and puts the ports in.
     *
     * @param from a site that uses {@link Ports#USUAL}
     * @param to a folder that does not exist yet
     * @throws DemoException where the site does not name the usual ports
     */
    static void make(Path from, Path to, Ports ports) throws IOException, DemoException {
        List<Path> all;
        try (Stream<Path> walk = Files.walk(from)) {
            all = walk.toList();
        }
        for (Path path : all) {
            Files.copy(path, to.resolve(from.relativize(path).toString()));
        }
        Path file = to.resolve(SITE_FILE);
        Files.writeString(file, withPorts(Files.readString(file), ports));
    }

    private static String withPorts(String yaml, Ports ports) throws DemoException {
        Ports usual = Ports.USUAL;
        String house = replaced(yaml, "port: " + usual.boilerHouse(), "port: " + ports.boilerHouse());
        String annex = replaced(house, "port: " + usual.annex(), "port: " + ports.annex());
        String mqtt = replaced(annex, "127.0.0.1:" + usual.mqtt(), "127.0.0.1:" + ports.mqtt());
        return replaced(mqtt, "port: " + usual.bacnet(), "port: " + ports.bacnet());
    }

    private static String replaced(String yaml, String what, String by) throws DemoException {
        int at = yaml.indexOf(what);
        if (at < 0 || yaml.indexOf(what, at + 1) >= 0) {
            throw new DemoException(
                    DemoException.BAD_INPUT, SITE_FILE + ": '" + what + "' must stand in it once to be replaced");
        }
        return yaml.substring(0, at) + by + yaml.substring(at + what.length());
    }
}
