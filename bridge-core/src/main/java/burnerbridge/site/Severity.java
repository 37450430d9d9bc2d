package burnerbridge.site;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** How much a fault cause takes away. */
public enum Severity {
    /** It is worth knowing. */
    INFORMATION,
    /** The burner goes on, but something wants looking after. */
    WARNING,
    /** The burner stopped and starts again by itself once the cause is gone. */
    FAULT,
    /** The burner stopped and waits for a person. */
    LOCKOUT;

    public static Optional<Severity> ofWord(String word) {
        return Arrays.stream(values()).filter(s -> s.word().equals(word)).findFirst();
    }

    public static List<String> words() {
        return Arrays.stream(values()).map(Severity::word).toList();
    }

    /** The word used in files and payloads. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
