package burnerbridge.daemon.outside;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.daemon.outside.GuidePage.Block;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * No page for users shows a command that nobody runs: a block with commands is {@code sh}, and the page one that a
 * test follows, or the block says that it is followed by hand, and why.
 */
class FollowedPagesTest {
    private static final Pattern COMMAND = Pattern.compile(
            "(?m)^\\s*(\\$ )?(sudo |\\./)?(burner-bridge|mosquitto_\\w+|mbpoll|mvn|apt|apt-get|npm|java|python3|node|"
                    + "openssl|journalctl|systemctl|systemd-analyze|socat|curl|git|install|chmod|chown|benchmark/run)\\s");

    /** FirstSiteIT, BrokerGuideIT, ProvingGuideIT, OperatingGuideIT, WritingGuideIT; and ReadmeIT with the build's own. */
    private static final Set<String> FOLLOWED =
            Set.of("first-site.md", "mqtt.md", "proving.md", "operating.md", "writing.md", "README.md");

    /** For people who work on the code or measure it; what they type makes a build or takes an hour. */
    private static final Set<String> FOR_DEVELOPERS = Set.of("measurements.md");

    @Test
    void everyCommandOfAPageForUsersIsFollowed() throws IOException {
        List<String> alone = new ArrayList<>();
        TreeSet<String> withCommands = new TreeSet<>();
        for (Path page : pages()) {
            String name = page.getFileName().toString();
            for (Block block : GuidePage.fenced(page)) {
                boolean commands =
                        COMMAND.matcher(String.join("\n", block.lines())).find();
                if (!commands || block.kind().equals("text") || block.kind().equals("yaml")) {
                    continue;
                }
                withCommands.add(name);
                if (!block.isByHand() && !(block.kind().equals("sh") && FOLLOWED.contains(name))) {
                    alone.add(name + ": " + block.first());
                }
            }
        }
        assertThat(alone).as("blocks with commands that no test runs").isEmpty();
        assertThat(withCommands).containsAll(FOLLOWED);
    }

    private static List<Path> pages() throws IOException {
        try (Stream<Path> docs = Files.list(GuidePage.DOCS)) {
            return Stream.concat(docs, Stream.of(GuidePage.DOCS.resolveSibling("README.md")))
                    .filter(page -> page.toString().endsWith(".md"))
                    .filter(page -> !FOR_DEVELOPERS.contains(page.getFileName().toString()))
                    .sorted()
                    .toList();
        }
    }
}
