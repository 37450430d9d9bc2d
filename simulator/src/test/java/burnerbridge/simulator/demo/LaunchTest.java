package burnerbridge.simulator.demo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.simulator.ExampleSite;
import java.nio.file.Path;
import java.util.Properties;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class LaunchTest {
    private final Properties properties = new Properties();

    @BeforeEach
    void fill() {
        properties.setProperty("burnerbridge.java", "/usr/bin/java");
        properties.setProperty("burnerbridge.daemon.classpath", "a.jar:lib/*");
        properties.setProperty("burnerbridge.site", ExampleSite.folder().toString());
    }

    @Test
    void theBridgeIsStartedAsTheLauncherSays() throws DemoException {
        assertThat(Launch.from(properties).command(Path.of("site")))
                .containsExactly("/usr/bin/java", "-cp", "a.jar:lib/*", "burnerbridge.daemon.Main", "run", "site");
    }

    @ParameterizedTest
    @ValueSource(strings = {"burnerbridge.java", "burnerbridge.daemon.classpath", "burnerbridge.site"})
    void aMissingPropertyIsNamed(String key) {
        properties.remove(key);

        assertThatThrownBy(() -> Launch.from(properties))
                .hasMessageContaining(key)
                .isInstanceOfSatisfying(
                        DemoException.class, e -> assertThat(e.exitCode()).isEqualTo(2));
    }

    @Test
    void aFolderWithoutASiteIsRefused(@TempDir Path empty) {
        properties.setProperty("burnerbridge.site", empty.toString());

        assertThatThrownBy(() -> Launch.from(properties)).hasMessageContaining("no site.yaml in " + empty);
    }
}
