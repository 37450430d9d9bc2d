package burnerbridge.config;

import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;

/** Reads the {@code lines} of {@code site.yaml}. */
final class LineReader {
    private static final Duration DEFAULT_REPLY = Duration.ofSeconds(1);
    private static final Duration DEFAULT_CONNECT = Duration.ofSeconds(3);
    private static final Duration SHORTEST = Duration.ofMillis(20);
    private static final Duration LONGEST = Duration.ofMinutes(1);

    private static final int DEFAULT_PORT = 502;
    /** The default of MODBUS over Serial Line V1.02, 3.1 (from memory). */
    private static final int DEFAULT_BAUD = 19200;

    private static final List<String> ENDPOINTS = List.of("tcp", "rtu-over-tcp");
    private static final Set<String> KEYS =
            new TreeSet<>(Set.of("tcp", "rtu-over-tcp", "reply-timeout", "connect-timeout"));
    /** In rising order. */
    private static final Set<String> BAUDS =
            new LinkedHashSet<>(List.of("1200", "2400", "4800", "9600", "19200", "38400", "57600", "76800", "115200"));

    private final Problems problems;
    private final Map<String, Name> endpoints = new HashMap<>();

    LineReader(Problems problems) {
        this.problems = problems;
    }

    List<LineDefinition> read(YamlMap top) {
        List<LineDefinition> lines = new ArrayList<>();
        if (!top.has("lines")) {
            top.error("lines", "is missing; it names each Modbus connection");
        }
        top.named("lines").forEach((name, map) -> line(name, map).ifPresent(lines::add));
        return lines;
    }

    private Optional<LineDefinition> line(Name name, YamlMap map) {
        map.allowOnly(KEYS, Set.of("serial"));
        Optional<Duration> reply = map.duration("reply-timeout", SHORTEST, LONGEST);
        Optional<Duration> connect = map.duration("connect-timeout", SHORTEST, LONGEST);
        return endpoint(name, map)
                .map(endpoint -> new LineDefinition(
                        name, endpoint, reply.orElse(DEFAULT_REPLY), connect.orElse(DEFAULT_CONNECT)));
    }

    private Optional<LineDefinition.Endpoint> endpoint(Name name, YamlMap map) {
        List<String> given = ENDPOINTS.stream().filter(map::has).toList();
        if (given.isEmpty() && !map.has("serial")) {
            problems.error(
                    map.place(),
                    "lines." + name + ": must say where it leads: one of " + String.join(", ", ENDPOINTS)
                            + ", like tcp: {host: 192.0.2.7}");
        }
        if (given.size() > 1) {
            map.error(given.get(1), "a line leads to one place, and this one has " + given.get(0) + " already");
            return Optional.empty();
        }
        Optional<LineDefinition.Endpoint> tcp = map.map("tcp").flatMap(at -> tcp(name, at));
        return tcp.or(() -> map.map("rtu-over-tcp").flatMap(at -> rtuOverTcp(name, at)));
    }

    private Optional<LineDefinition.Endpoint> tcp(Name name, YamlMap map) {
        map.allowOnly(new TreeSet<>(Set.of("host", "port")), Set.of());
        OptionalInt port = map.integer("port", 1, 65535);
        return host(map).map(host -> {
            LineDefinition.Tcp tcp = new LineDefinition.Tcp(host, port.orElse(DEFAULT_PORT));
            claim(map, "host", tcp.toString(), name);
            return tcp;
        });
    }

    private Optional<LineDefinition.Endpoint> rtuOverTcp(Name name, YamlMap map) {
        map.allowOnly(new TreeSet<>(Set.of("host", "port", "baud")), Set.of());
        OptionalInt port = map.requiredInteger("port", 1, 65535, "device servers have no usual one");
        int baud = baud(map);
        Optional<String> host = host(map);
        if (host.isEmpty() || port.isEmpty()) {
            return Optional.empty();
        }
        LineDefinition.RtuOverTcp rtu = new LineDefinition.RtuOverTcp(host.get(), port.getAsInt(), baud);
        claim(map, "host", rtu.toString(), name);
        return Optional.of(rtu);
    }

    private static int baud(YamlMap map) {
        return map.word("baud", BAUDS).map(Integer::parseInt).orElse(DEFAULT_BAUD);
    }

    private static Optional<String> host(YamlMap map) {
        Optional<String> host = map.requiredText("host", "the address of the controller or its gateway");
        if (host.isPresent() && host.get().isBlank()) {
            map.error("host", "must not be empty");
            return Optional.empty();
        }
        return host;
    }

    /** A controller's sockets are few and a serial port is one, so that two lines never share an endpoint. */
    private void claim(YamlMap map, String key, String endpoint, Name name) {
        Name other = endpoints.putIfAbsent(endpoint, name);
        if (other != null) {
            map.error(key, endpoint + " is already line " + other + "; a line has one connection");
        }
    }
}
