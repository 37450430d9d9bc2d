package burnerbridge.daemon.box;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The command of a unit as a service manager would start it, as far as the units of the archive make use of that. */
final class ShippedUnit {
    private static final Pattern WORD = Pattern.compile("\"([^\"]*)\"|(\\S+)");

    private final Map<String, String> environment = new HashMap<>();
    private String command = "";

    /** @param files the unit, then what is dropped beside it */
    ShippedUnit(Path... files) throws IOException {
        for (Path file : files) {
            for (String line :
                    Files.readString(file).replaceAll("\\\\\n\\s*", "").split("\n")) {
                if (line.startsWith("Environment=")) {
                    String pair = line.substring("Environment=".length()).replaceAll("^'|'$", "");
                    environment.put(pair.replaceAll("=.*", ""), pair.replaceFirst("^[^=]*=", ""));
                } else if (line.startsWith("ExecStart=")) {
                    command = line.substring("ExecStart=".length());
                }
            }
        }
    }

    /** {@code ${NAME}} is put in, {@code $NAME} as a word of its own becomes as many as it has. */
    List<String> words() {
        List<String> words = new ArrayList<>();
        for (String word : split(command)) {
            if (word.matches("\\$[A-Z]+")) {
                words.addAll(split(environment.getOrDefault(word.substring(1), "")));
            } else {
                words.add(put(word));
            }
        }
        return words;
    }

    private String put(String word) {
        String done = word;
        for (Map.Entry<String, String> pair : environment.entrySet()) {
            done = done.replace("${" + pair.getKey() + "}", pair.getValue());
        }
        return done;
    }

    private static List<String> split(String text) {
        List<String> words = new ArrayList<>();
        Matcher matcher = WORD.matcher(text);
        while (matcher.find()) {
            words.add(matcher.group(1) == null ? matcher.group(2) : matcher.group(1));
        }
        return words;
    }
}
