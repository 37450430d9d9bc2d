package burnerbridge.daemon.outside;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.awaitility.Awaitility;

/** One shell that somebody types into: variables and what runs in its background stay from block to block. */
final class CommandShell implements AutoCloseable {
    private static final Duration LONG = Duration.ofSeconds(180);

    private final TypedProgram shell;
    private final Path block;
    private int typed;
    private int heard;

    CommandShell(Path own, Path folder, Map<String, String> environment) {
        shell = TypedProgram.start(own.resolve("shell.log"), folder, environment, List.of("bash"));
        block = own.resolve("block.sh");
    }

    /** What the commands of a block print, standard error included. */
    List<String> run(List<String> lines) throws IOException {
        Files.write(block, lines);
        typed++;
        String mark = "== block " + typed + " is done ==\n";
        // Read from a file, so that no command takes what is typed next for its own.
        shell.type(". '" + block + "' </dev/null 2>&1; printf '\\n== block %s is done ==\\n' " + typed + "\n");
        Awaitility.await()
                .atMost(LONG)
                .until(() -> shell.said().substring(heard).contains(mark) || !shell.isAlive());
        String said = shell.said();
        assertThat(said.substring(heard)).contains(mark);
        String words = said.substring(heard, said.indexOf(mark, heard) - 1);
        heard = said.indexOf(mark, heard) + mark.length();
        return words.lines().toList();
    }

    @Override
    public void close() {
        shell.close();
    }
}
