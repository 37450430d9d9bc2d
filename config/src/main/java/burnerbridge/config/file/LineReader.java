package burnerbridge.config.file;

import burnerbridge.config.problem.Problems;
import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.LineDefinition.Parity;
import burnerbridge.site.LineDefinition.Rs485;
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
import java.util.TreeMap;
import java.util.TreeSet;

/** Reads the {@code lines} of {@code site.yaml}. */
final class LineReader {
    private static final Duration DEFAULT_REPLY = Duration.ofSeconds(1);
    private static final Duration DEFAULT_REPLY_SERIAL = Duration.ofMillis(500);
    private static final Duration DEFAULT_CONNECT = Duration.ofSeconds(3);
    private static final Duration SHORTEST = Duration.ofMillis(20);
    private static final Duration LONGEST = Duration.ofMinutes(1);

    private static final int DEFAULT_PORT = 502;
    /** The default of MODBUS over Serial Line V1.02, 3.1 (from memory). */
    private static final int DEFAULT_BAUD = 19200;

    private static final List<String> ENDPOINTS = List.of("tcp", "rtu-over-tcp", "serial");
    private static final Set<String> KEYS =
            new TreeSet<>(Set.of("tcp", "rtu-over-tcp", "serial", "reply-timeout", "connect-timeout"));
    private static final Set<String> SERIAL_KEYS =
            new TreeSet<>(Set.of("port", "baud", "parity", "stop-bits", "rs485", "echo"));
    private static final String EXAMPLE_PORT = "/dev/serial/by-id/usb-adapter-port0";
    private static final Map<String, Parity> PARITIES =
            new TreeMap<>(Map.of("none", Parity.NONE, "odd", Parity.ODD, "even", Parity.EVEN));
    private static final Map<String, Rs485> RS485 =
            new TreeMap<>(Map.of("auto", Rs485.AUTO, "rts-high", Rs485.RTS_HIGH, "rts-low", Rs485.RTS_LOW));
    private static final Set<String> TRUE_OR_FALSE = new TreeSet<>(Set.of("true", "false"));
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
        map.allowOnly(KEYS, Set.of());
        Optional<Duration> reply = map.duration("reply-timeout", SHORTEST, LONGEST);
        Optional<Duration> connect = map.duration("connect-timeout", SHORTEST, LONGEST);
        return endpoint(name, map)
                .map(endpoint -> new LineDefinition(
                        name, endpoint, reply.orElse(defaultReply(endpoint)), connect.orElse(DEFAULT_CONNECT)));
    }

    private static Duration defaultReply(LineDefinition.Endpoint endpoint) {
        return endpoint instanceof LineDefinition.Serial ? DEFAULT_REPLY_SERIAL : DEFAULT_REPLY;
    }

    private Optional<LineDefinition.Endpoint> endpoint(Name name, YamlMap map) {
        List<String> given = ENDPOINTS.stream().filter(map::has).toList();
        if (given.isEmpty()) {
            problems.error(
                    map.place(),
                    "lines." + name + ": must say where it leads: one of " + String.join(", ", ENDPOINTS)
                            + ", like tcp: {host: 192.0.2.7}");
        }
        if (given.size() > 1) {
            map.error(given.get(1), "a line leads to one place, and this one has " + given.get(0) + " already");
            return Optional.empty();
        }
        return map.map("tcp")
                .flatMap(at -> tcp(name, at))
                .or(() -> map.map("rtu-over-tcp").flatMap(at -> rtuOverTcp(name, at)))
                .or(() -> map.map("serial").flatMap(at -> serial(name, at)));
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

    private Optional<LineDefinition.Endpoint> serial(Name name, YamlMap map) {
        map.allowOnly(SERIAL_KEYS, Set.of());
        Optional<String> port = port(map);
        Parity parity = map.word("parity", PARITIES.keySet()).map(PARITIES::get).orElse(Parity.EVEN);
        LineDefinition.Serial serial = new LineDefinition.Serial(
                port.orElse(""),
                baud(map),
                parity,
                stopBits(map, parity),
                map.word("rs485", RS485.keySet()).map(RS485::get).orElse(Rs485.AUTO),
                map.word("echo", TRUE_OR_FALSE).map(Boolean::parseBoolean).orElse(false));
        if (port.isEmpty()) {
            return Optional.empty();
        }
        claim(map, "port", serial.port(), name);
        return Optional.of(serial);
    }

    private static Optional<String> port(YamlMap map) {
        Optional<String> port = map.requiredText("port", "the path of the serial port, like " + EXAMPLE_PORT);
        if (port.isPresent() && !port.get().matches("/.*[^/]")) {
            map.error("port", "must be a whole path, like " + EXAMPLE_PORT + " (was '" + port.get() + "')");
            return Optional.empty();
        }
        return port;
    }

    /** Without parity the standard asks for two stop bits, and much equipment has one: it must be said. */
    private static int stopBits(YamlMap map, Parity parity) {
        if (parity == Parity.NONE && !map.has("stop-bits")) {
            map.error("parity", "with none, say stop-bits too: 2 by the standard, 1 on much equipment");
        }
        return map.integer("stop-bits", 1, 2).orElse(1);
    }

    private static int baud(YamlMap map) {
        return map.word("baud", BAUDS).map(Integer::parseInt).orElse(DEFAULT_BAUD);
    }

    private static Optional<String> host(YamlMap map) {
        Optional<String> host = map.requiredText("host", "the address of the controller or its gateway");
        if (host.isPresent() && !host.get().matches("[A-Za-z0-9._-]+|[0-9a-fA-F:]+")) {
            map.error(
                    "host",
                    "must be a name or an address alone, the port is a key of its own (was '" + host.get() + "')");
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
