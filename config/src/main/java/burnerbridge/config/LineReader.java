package burnerbridge.config;

import burnerbridge.site.LineDefinition;
import burnerbridge.site.Name;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** Reads the {@code lines} of {@code site.yaml}. */
final class LineReader {
    private static final Duration DEFAULT_REPLY = Duration.ofSeconds(1);
    private static final Duration DEFAULT_CONNECT = Duration.ofSeconds(3);
    private static final Duration SHORTEST = Duration.ofMillis(20);
    private static final Duration LONGEST = Duration.ofMinutes(1);

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
        map.allowOnly(
                new TreeSet<>(Set.of("tcp", "reply-timeout", "connect-timeout")), Set.of("serial", "rtu-over-tcp"));
        Optional<Duration> reply = map.duration("reply-timeout", SHORTEST, LONGEST);
        Optional<Duration> connect = map.duration("connect-timeout", SHORTEST, LONGEST);
        if (!map.has("tcp") && !map.has("serial") && !map.has("rtu-over-tcp")) {
            problems.error(map.place(), "lines." + name + ": must say where it leads, like tcp: {host: 192.0.2.7}");
        }
        return map.map("tcp")
                .flatMap(tcp -> endpoint(name, tcp))
                .map(tcp ->
                        new LineDefinition(name, tcp, reply.orElse(DEFAULT_REPLY), connect.orElse(DEFAULT_CONNECT)));
    }

    private Optional<LineDefinition.Tcp> endpoint(Name name, YamlMap tcp) {
        tcp.allowOnly(new TreeSet<>(Set.of("host", "port")), Set.of());
        Optional<String> host = tcp.requiredText("host", "the address of the controller or its gateway");
        int port = tcp.integer("port", 1, 65535).orElse(502);
        if (host.isEmpty()) {
            return Optional.empty();
        }
        if (host.get().isBlank()) {
            tcp.error("host", "must not be empty");
            return Optional.empty();
        }
        Name other = endpoints.putIfAbsent(host.get() + ":" + port, name);
        if (other != null) {
            tcp.error("host", host.get() + ":" + port + " is already line " + other + "; a line has one connection");
        }
        return Optional.of(new LineDefinition.Tcp(host.get(), port));
    }
}
