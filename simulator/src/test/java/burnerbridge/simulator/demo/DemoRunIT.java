package burnerbridge.simulator.demo;

import static java.util.Objects.requireNonNull;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.awaitility.Awaitility.await;

import burnerbridge.simulator.ExampleSite;
import burnerbridge.simulator.demo.screen.Terminal;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The demo from end to end with a stand-in for the bridge. */
class DemoRunIT {
    private final ByteArrayOutputStream written = new ByteArrayOutputStream();
    private final StopSignal stop = new StopSignal();

    @Test
    void whatTheBridgePublishesStandsBesideThePlant() throws Exception {
        CompletableFuture<Void> demo = start(ExampleSite.folder(), true);

        // The plant's own word and the one that came over MQTT, in one line.
        Pattern line = Pattern.compile("phase +[a-z -]+ +(standby|in motion) +good +\\d");
        Pattern rate = Pattern.compile("firing-rate +\\d+\\.\\d +\\d+\\.\\d+ % +good");
        await().atMost(Duration.ofSeconds(60))
                .until(() -> line.matcher(written()).find()
                                && rate.matcher(written()).find()
                        || demo.isDone());
        stop.give();
        demo.get(20, TimeUnit.SECONDS);

        assertThat(written()).containsPattern(line).containsPattern(rate);
    }

    @Test
    void atTheEndEverythingIsPutAway() throws Exception {
        CompletableFuture<Void> demo = start(ExampleSite.folder(), false);
        await().atMost(Duration.ofSeconds(30))
                .until(() -> written().contains("boiler-2: plant standby") || demo.isDone());
        Path log = Path.of(found("its log +(\\S+)"));
        int port = Integer.parseInt(found("steam-1 +Modbus TCP +(\\d+)"));
        assertThat(log).exists();

        stop.give();
        demo.get(20, TimeUnit.SECONDS);

        assertThat(log.getParent()).doesNotExist();
        assertThatThrownBy(() -> new Socket(Ports.HOST, port)).isInstanceOf(IOException.class);
        assertThat(written()).contains("at the end over MQTT: ");
    }

    @Test
    void theDeathOfTheBridgeIsToldWithTheEndOfItsLog(@TempDir Path folder) throws Exception {
        Path site = folder.resolve("site");
        SiteCopy.make(ExampleSite.folder(), site, Ports.USUAL);
        Files.writeString(site.resolve("dies"), "");

        assertThatThrownBy(() -> start(site, false).get(60, TimeUnit.SECONDS))
                .rootCause()
                .isInstanceOfSatisfying(
                        DemoException.class, e -> assertThat(e.exitCode()).isEqualTo(3))
                .hasMessageContaining("exit code 7")
                .hasMessageContaining("stand-in dies");
        deleteKept(Path.of(found("its log +(\\S+)")));
    }

    @Test
    void aBridgeThatCannotBeStartedIsTold() {
        Launch launch = new Launch("no-such-java", "", ExampleSite.folder());

        assertThatThrownBy(() -> new DemoRun(launch, terminal(false), Clock.systemUTC(), Ports.ANY, Optional.empty())
                        .until(stop))
                .isInstanceOf(DemoException.class)
                .hasMessageContaining("no-such-java");
    }

    /** Asks for ports of its own, so that it runs beside whatever holds the usual ones. */
    private CompletableFuture<Void> start(Path site, boolean redraws) {
        String java = Path.of(System.getProperty("java.home"), "bin", "java").toString();
        Launch launch = new Launch(java, System.getProperty("java.class.path"), site);
        DemoRun run = new DemoRun(launch, terminal(redraws), Clock.systemUTC(), Ports.ANY, Optional.empty());
        return CompletableFuture.runAsync(() -> {
            try {
                run.until(stop);
            } catch (DemoException | InterruptedException e) {
                throw new AssertionError(e);
            }
        });
    }

    private Terminal terminal(boolean redraws) {
        return new Terminal(new PrintStream(written, true, StandardCharsets.UTF_8), redraws, false, Map.of());
    }

    private String written() {
        return written.toString(StandardCharsets.UTF_8);
    }

    private String found(String pattern) {
        Matcher matcher = Pattern.compile(pattern).matcher(written());
        assertThat(matcher.find()).as(written()).isTrue();
        return matcher.group(1);
    }

    private static void deleteKept(Path log) throws IOException {
        assertThat(log).exists();
        try (TemporaryFolder kept = TemporaryFolder.of(requireNonNull(log.getParent()))) {
            assertThat(kept.path()).isDirectory();
        }
    }
}
