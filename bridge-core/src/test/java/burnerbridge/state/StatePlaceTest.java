package burnerbridge.state;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.site.Name;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class StatePlaceTest {
    private static final Name SITE = new Name("quillmere");

    private static Path of(Map<String, String> environment) throws StateException {
        return StatePlace.of(Optional.empty(), SITE, environment);
    }

    @Test
    void whatWasAskedForComesFirst() throws StateException {
        Map<String, String> environment = Map.of("STATE_DIRECTORY", "/var/lib/bridge", "HOME", "/home/keeper");
        assertThat(StatePlace.of(Optional.of(Path.of("/srv/../srv/state")), SITE, environment))
                .isEqualTo(Path.of("/srv/state"));
    }

    @Test
    void aServiceManagersFolderIsTakenAsItIsAndTheFirstOfSeveral() throws StateException {
        assertThat(of(Map.of("STATE_DIRECTORY", "/var/lib/bridge", "XDG_STATE_HOME", "/x", "HOME", "/h")))
                .isEqualTo(Path.of("/var/lib/bridge"));
        assertThat(of(Map.of("STATE_DIRECTORY", "/var/lib/one:/var/lib/two"))).isEqualTo(Path.of("/var/lib/one"));
    }

    @Test
    void aUsersFolderHasTheSitesName() throws StateException {
        assertThat(of(Map.of("XDG_STATE_HOME", "/x", "HOME", "/h"))).isEqualTo(Path.of("/x/burner-bridge/quillmere"));
        assertThat(of(Map.of("HOME", "/h"))).isEqualTo(Path.of("/h/.local/state/burner-bridge/quillmere"));
    }

    @Test
    void aRelativeFolderInXdgStateHomeIsIgnored() throws StateException {
        assertThat(of(Map.of("XDG_STATE_HOME", "x", "HOME", "/h")))
                .isEqualTo(Path.of("/h/.local/state/burner-bridge/quillmere"));
    }

    @Test
    void aUserWithoutAHomeIsToldWhatToDo() {
        assertThatThrownBy(() -> of(Map.of()))
                .isInstanceOf(StateException.class)
                .hasMessageContaining("--state");
    }
}
