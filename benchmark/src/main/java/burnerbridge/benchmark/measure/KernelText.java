package burnerbridge.benchmark.measure;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.OptionalLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A file of the kernel's in which each line has a label and then numbers. */
public record KernelText(String text) {

    public static KernelText of(Path path) throws IOException {
        return new KernelText(Files.readString(path));
    }

    /** The first number behind a label; empty where there is none, as for "unlimited". */
    public OptionalLong number(String label) {
        Matcher matcher = Pattern.compile("^" + Pattern.quote(label) + "\\s+(\\d+)", Pattern.MULTILINE)
                .matcher(text);
        return matcher.find() ? OptionalLong.of(Long.parseLong(matcher.group(1))) : OptionalLong.empty();
    }
}
