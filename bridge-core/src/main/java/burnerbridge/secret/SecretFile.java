package burnerbridge.secret;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** A file whose only line is a secret. */
public final class SecretFile {
    private static final String BYTE_ORDER_MARK = "\uFEFF";

    private SecretFile() {}

    /**
     * The line, without the end that editors leave; nothing may follow it.
     *
     * @param what it is, for messages: {@code password}
     * @param longest of the whole file, in octets
     * @param tooLong what is said of a longer one: {@code longer than MQTT allows}
     * @throws SecretException where the file cannot be read or holds anything else
     */
    public static String line(Path file, String what, long longest, String tooLong) throws SecretException {
        String text;
        try {
            if (Files.size(file) > longest) {
                throw new SecretException("the " + what + " in " + file + " is " + tooLong);
            }
            text = Files.readString(file);
        } catch (IOException e) {
            throw new SecretException(
                    "the " + what + " file " + file + " cannot be read: " + FileMark.reason(file, e), e);
        }
        if (text.startsWith(BYTE_ORDER_MARK)) {
            throw new SecretException("the " + what + " file " + file + " begins with a byte order mark, which some"
                    + " editors put there; save it as UTF-8 without");
        }
        String line = text.replaceFirst("\\R\\z", "");
        if (line.isEmpty() || line.lines().count() != 1) {
            throw new SecretException("the " + what + " file " + file + " must hold one line, the " + what);
        }
        return line;
    }
}
