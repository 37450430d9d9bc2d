package burnerbridge.config;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Objects;

/** What a {@code site.yaml} may hold, for editors: a JSON Schema, draft 2020-12. */
public final class SiteSchema {
    private SiteSchema() {}

    /** The schema as JSON text. What takes other files to know, only {@link SiteFolder#load} finds. */
    public static String text() {
        try (InputStream in = Objects.requireNonNull(SiteSchema.class.getResourceAsStream("site.schema.json"))) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
