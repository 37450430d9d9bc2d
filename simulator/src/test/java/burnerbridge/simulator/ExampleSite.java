package burnerbridge.simulator;

import java.nio.file.Path;

/** The example site as files, read without any code of the bridge. */
public final class ExampleSite {
    private ExampleSite() {}

    public static Path folder() {
        return Path.of("..", "config", "examples", "quillmere").toAbsolutePath().normalize();
    }
}
