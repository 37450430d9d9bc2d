package burnerbridge.web.access;

import burnerbridge.secret.FileMark;
import burnerbridge.secret.SecretException;
import burnerbridge.site.WebSettings;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** What is wrong with the token's file, as far as it can be seen on this machine. It shows nothing of the token. */
public final class TokenCheck {
    /** The setting that names the file, as in {@code site.yaml}. */
    public static final String SETTING = "web.token-file";

    private TokenCheck() {}

    /**
     * Something to look at.
     *
     * @param elsewhere whether neither the file nor its folder is here, as on a machine that only writes the site
     * @param sentence names the file
     */
    public record Finding(boolean elsewhere, String sentence) {}

    public static List<Finding> of(WebSettings settings) {
        return settings.tokenFile().map(TokenCheck::of).orElse(List.of());
    }

    private static List<Finding> of(Path file) {
        if (Files.notExists(file)) {
            boolean elsewhere = Files.notExists(file.toAbsolutePath().getParent());
            return List.of(
                    new Finding(elsewhere, "there is no file " + file + " here; it has to be where the bridge runs"));
        }
        List<Finding> findings = new ArrayList<>();
        try {
            Token.inFile(file);
        } catch (SecretException e) {
            findings.add(new Finding(false, String.valueOf(e.getMessage())));
        }
        if (FileMark.isReadableByAll(file)) {
            findings.add(new Finding(false, "every user of this machine can read " + file + "; chmod 600 keeps it"));
        }
        return findings;
    }
}
