package burnerbridge.write.audit;

import burnerbridge.write.store.Disk;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The names of a chain's files: {@code audit-000001.jsonl} and so on. */
final class AuditFiles {
    private static final String PREFIX = "audit-";
    private static final Pattern FORM = Pattern.compile(PREFIX + "(\\d{6,9})\\.jsonl");

    private AuditFiles() {}

    static String name(int number) {
        return String.format(Locale.ROOT, PREFIX + "%06d.jsonl", number);
    }

    static int number(String name) {
        Matcher form = FORM.matcher(name);
        if (!form.matches()) {
            throw new IllegalArgumentException(name + " is no file of the audit");
        }
        return Integer.parseInt(form.group(1));
    }

    /** Those that there are, the oldest first. */
    static List<String> on(Disk disk) throws IOException {
        List<String> names = new ArrayList<>(disk.names(PREFIX));
        names.removeIf(name -> !FORM.matcher(name).matches());
        names.sort(Comparator.comparingInt(AuditFiles::number));
        return names;
    }
}
