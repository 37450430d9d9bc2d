package burnerbridge.daemon.explain;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import java.util.regex.Pattern;

/**
 * What must not be in anything that leaves the box: every line of the files that hold passwords, tokens and keys, and what
 * the environment holds under such names. None of it should be in a bundle anyway; this is the net below.
 */
public final class Secrets {
    private static final String INSTEAD = "[left out]";
    /** Shorter ones would be found everywhere by chance. */
    private static final int SHORTEST = 6;

    private static final long LARGEST_FILE = 1L << 20;
    private static final List<String> TELLING = List.of("PASSWORD", "TOKEN", "SECRET", "KEY");
    private static final Pattern IN_ADDRESS = Pattern.compile("(://)[^/@\\s\"]+@");

    /** The longest first, so that no part of one is left. */
    private final TreeSet<String> secrets =
            new TreeSet<>(Comparator.comparingInt(String::length).reversed().thenComparing(Comparator.naturalOrder()));

    /** @param files that hold secrets; one that cannot be read here cannot be in anything that is packed here */
    public Secrets(Collection<Path> files, Map<String, String> environment) {
        files.forEach(this::addFile);
        environment.forEach((name, value) -> {
            if (TELLING.stream().anyMatch(name.toUpperCase(Locale.ROOT)::contains)) {
                add(value);
            }
        });
    }

    private void addFile(Path file) {
        try {
            if (Files.isRegularFile(file) && Files.size(file) <= LARGEST_FILE) {
                new String(Files.readAllBytes(file), StandardCharsets.ISO_8859_1)
                        .lines()
                        .forEach(this::add);
            }
        } catch (IOException e) {
            // Then nobody who packs can have read it either.
        }
    }

    private void add(String secret) {
        String bare = secret.strip();
        if (bare.length() >= SHORTEST && !bare.startsWith("-----")) {
            secrets.add(bare);
            // What stands in UTF-8 in a file was read as Latin letters above.
            secrets.add(new String(bare.getBytes(StandardCharsets.ISO_8859_1), StandardCharsets.UTF_8));
        }
    }

    /** The same text without them. */
    public String leftOutOf(String text) {
        String clean = IN_ADDRESS.matcher(text).replaceAll("$1" + INSTEAD + "@");
        for (String secret : secrets) {
            clean = clean.replace(secret, INSTEAD);
        }
        return clean;
    }
}
