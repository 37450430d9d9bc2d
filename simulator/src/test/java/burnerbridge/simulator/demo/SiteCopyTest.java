package burnerbridge.simulator.demo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.simulator.ExampleSite;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SiteCopyTest {
    @TempDir
    Path folder;

    @Test
    void onlyThePortsDiffer() throws IOException, DemoException {
        Path copy = folder.resolve("copy");

        SiteCopy.make(ExampleSite.folder(), copy, new Ports(20000, 20001, 20009, 20002, 20003));

        List<String> before = Files.readAllLines(ExampleSite.folder().resolve("site.yaml"));
        List<String> after = Files.readAllLines(copy.resolve("site.yaml"));
        assertThat(after)
                .contains(
                        "    rtu-over-tcp: {host: 127.0.0.1, port: 20000, baud: 19200}",
                        "    tcp: {host: 127.0.0.1, port: 20001}",
                        "  brokers: [tcp://127.0.0.1:20002]",
                        "  port: 20003");
        assertThat(after.stream().filter(line -> !before.contains(line))).hasSize(4);
        assertThat(copy.resolve("points/hot-water.csv"))
                .hasSameBinaryContentAs(ExampleSite.folder().resolve("points/hot-water.csv"));
        assertThat(copy.resolve("bindings.csv"))
                .hasSameBinaryContentAs(ExampleSite.folder().resolve("bindings.csv"));
    }

    @Test
    void aSiteThatDoesNotNameTheUsualPortsIsRefused() throws IOException {
        Path other = Files.createDirectory(folder.resolve("other"));
        Files.writeString(other.resolve("site.yaml"), "site: other\n");

        assertThatThrownBy(() ->
                        SiteCopy.make(other, folder.resolve("copy"), new Ports(20000, 20001, 20009, 20002, 20003)))
                .isInstanceOf(DemoException.class)
                .hasMessageContaining("'port: 7001' must stand in it once");
    }
}
