package burnerbridge.site;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.stream.Stream;

/**
 * The example site with permits, for tests of any module: demand and enable of boiler-1 and boiler-2, and the demand of
 * steam-1. The older type has no row that could be permitted, so this one gives it two; no register of the invented
 * plant answers there.
 */
public final class QuillmereWithPermits {
    private static final Path EXAMPLE = Path.of("..", "config", "examples", "quillmere");
    private static final String NONE = "write-permits: [] ";

    public static final String PERMITS = """
            write-permits:
              - point: boiler-1.load-limit
                from: {bacnet: [127.0.0.0/8], mqtt: true}
                range: 20..90
                step: 10
                interval: 60 s
                storage: volatile
                function: 6
                silence-after: 15 min
                on-silence: write 20
                reason: the plant's optimiser limits the load in summer
              - point: boiler-1.remote-enable
                from: {bacnet: [127.0.0.1], mqtt: true}
                states: [held, released]
                interval: 30 s
                storage: volatile
                function: 5
                mqtt-priority: 10
                silence-after: 15 min
                on-silence: write held
                reason: the plant above decides which boilers run
              - point: boiler-2.load-limit
                from: {mqtt: true}
                range: 30..100
                interval: 10 min
                lifetime-writes: 100000
                function: 16
                silence-after: 1 h
                on-silence: write 100
                reason: the plant's optimiser limits the load in summer
              - point: boiler-2.remote-enable
                from: {bacnet: [127.0.0.1]}
                states: [0, 1]
                interval: 30 s
                storage: volatile
                function: 15
                silence-after: 15 min
                on-silence: write held
                reason: the plant above decides which boilers run
              - point: steam-1.load-limit
                from: {bacnet: [127.0.0.1], mqtt: true}
                range: 25.5..100
                step: 5
                interval: 60 s
                storage: volatile
                function: 6
                silence-after: 10 min
                on-silence: write 25.5
                reason: steam that the glasshouses can take
            """;

    private QuillmereWithPermits() {}

    /** Copies the example into a folder that need not be there. */
    public static void writeTo(Path folder) throws IOException {
        writeTo(folder, PERMITS);
    }

    /** @param permits the part {@code write-permits} */
    public static void writeTo(Path folder, String permits) throws IOException {
        try (Stream<Path> files = Files.walk(EXAMPLE)) {
            for (Path file : files.toList()) {
                Path to = folder.resolve(EXAMPLE.relativize(file).toString());
                if (Files.isDirectory(file)) {
                    Files.createDirectories(to);
                } else {
                    Files.copy(file, to);
                }
            }
        }
        Path yaml = folder.resolve("site.yaml");
        String text = Files.readString(yaml);
        if (!text.contains(NONE)) {
            throw new IllegalStateException("the example site has no '" + NONE + "'");
        }
        Files.writeString(yaml, text.replaceFirst("(?m)^write-permits: \\[\\] .*$", "") + permits);
        append(folder.resolve("points/hot-water-old.csv"), """
                load-limit,Highest load that the plant above allows; half percents,holding-register,44001,uint16,,0.5,,,,,,%,,demand,,,,,,0..100,,,,,island L
                remote-enable,The plant above lets the burner run,coil,00065,bit,,,,,,,,,,enable,,,,0=held|1=released,,,,,,,island L
                """);
        append(folder.resolve("bindings.csv"), """
                hot-water-old,load-limit,analog-input,90,,holding-register wire 4000 uint16,,
                hot-water-old,remote-enable,binary-input,91,,coil wire 64 bit,,
                hot-water,load-limit-request,analog-value,120,,holding-register wire 44 uint16,,
                hot-water,load-limit-lease,analog-value,121,,holding-register wire 44 uint16,,
                hot-water,remote-enable-request,binary-value,122,,coil wire 16 bit,,
                hot-water,remote-enable-lease,analog-value,123,,coil wire 16 bit,,
                hot-water-old,load-limit-request,analog-value,120,,holding-register wire 4000 uint16,,
                hot-water-old,load-limit-lease,analog-value,121,,holding-register wire 4000 uint16,,
                hot-water-old,remote-enable-request,binary-value,122,,coil wire 64 bit,,
                hot-water-old,remote-enable-lease,analog-value,123,,coil wire 64 bit,,
                steam,load-limit-request,analog-value,120,,holding-register wire 1280 uint16,,
                steam,load-limit-lease,analog-value,121,,holding-register wire 1280 uint16,,
                """);
    }

    private static void append(Path file, String lines) throws IOException {
        String end = Files.readString(file).endsWith("\n") ? "" : "\n";
        Files.writeString(file, end + lines, StandardCharsets.UTF_8, StandardOpenOption.APPEND);
    }
}
