package burnerbridge.daemon.outside;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.awaitility.Awaitility;

/** The demo on a terminal: what it said at first, what its screen shows now, and its keys. */
final class DemoTerminal implements AutoCloseable {
    private static final Duration LONG = Duration.ofSeconds(120);
    private static final Pattern DRAWN_OVER = Pattern.compile("\r\u001b\\[\\d+A");
    private static final Pattern ESCAPE = Pattern.compile("\u001b\\[[0-9;?]*[A-Za-z]");

    private final TypedProgram demo;

    /** @param folder where {@code ./burner-bridge} is */
    DemoTerminal(Path log, Path folder, Map<String, String> environment) {
        demo = TypedProgram.start(
                log,
                folder,
                environment,
                List.of(
                        "script",
                        "-qec",
                        "stty cols 110 rows 50; TERM=xterm exec ./burner-bridge demo --no-colour",
                        "/dev/null"));
        Awaitility.await().atMost(LONG).until(() -> demo.said().contains("Any key shows it live") || !demo.isAlive());
    }

    /** Something that the demo told before it showed anything. */
    String told(String pattern) {
        Matcher matcher = Pattern.compile(pattern).matcher(demo.said());
        assertThat(matcher.find()).as(pattern + " in " + demo.said()).isTrue();
        return matcher.group(1);
    }

    void press(String key) {
        demo.type(key);
    }

    /** The last whole picture. */
    List<String> screen() {
        String said = demo.said();
        int end = -1;
        int begin = 0;
        for (Matcher drawn = DRAWN_OVER.matcher(said); drawn.find(); end = drawn.start()) {
            begin = end < 0 ? 0 : end;
        }
        String picture = end < 0 ? said : said.substring(begin, end);
        return ESCAPE.matcher(picture).replaceAll("").lines().toList();
    }

    /** Ends it as its user does. */
    @Override
    public void close() {
        if (demo.isAlive()) {
            demo.type("q");
        }
        demo.close();
    }
}
