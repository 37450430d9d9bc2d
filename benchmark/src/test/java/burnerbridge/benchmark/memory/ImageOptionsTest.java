package burnerbridge.benchmark.memory;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;

class ImageOptionsTest {

    @Test
    void whatIsMeasuredIsWhatTheImageHas() throws IOException {
        List<String> image = Files.readAllLines(Path.of("..", "container", "java-options"));

        assertThat(image).contains(MemoryCommand.AS_IN_THE_IMAGE.split(" "));
    }
}
