package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The judge of the poor network knows what is wrong when it sees it. */
class HeardTopicsTest {
    private static final long BEGIN = 1_000_000_000_000L;
    /** Of the second point of the second unit, 12.3 s after the beginning, which is 01:46:40. */
    private static final String RIGHT =
            line("boiler-2/stamp-1", "600000123", "2001-09-09T01:46:52.310Z", "2001-09-09T01:46:52.330Z", 7);

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    private static String line(String topic, String value, String readAt, String sentAt, int sequence) {
        return "1000000012.400000000 plant/poor/" + topic + " {\"value\":" + value
                + ",\"quality\":\"good\",\"readAt\":\"" + readAt + "\",\"sentAt\":\"" + sentAt
                + "\",\"validFor\":2,\"sequence\":" + sequence + "}\n";
    }

    private HeardTopics judged(String... lines) throws IOException {
        return HeardTopics.of(Files.writeString(folder.resolve("heard"), String.join("", lines)), BEGIN);
    }

    @Test
    void whatIsRightIsNotWrong() throws IOException {
        assertThat(judged(RIGHT).wrong()).isEmpty();
        assertThat(judged(RIGHT).missingSince(12_300)).doesNotContain("plant/poor/boiler-2/stamp-1");
    }

    @Test
    void aMessageMayComeTwice() throws IOException {
        assertThat(judged(RIGHT, RIGHT).wrong()).isEmpty();
    }

    @Test
    void theValueOfAnotherPointIsWrong() throws IOException {
        assertThat(judged(RIGHT.replace("stamp-1", "stamp-2")).wrong()).hasSize(1);
    }

    @Test
    void anOldValueWithANewTimeIsWrong() throws IOException {
        assertThat(judged(RIGHT.replace("600000123", "600000119")).wrong()).hasSize(1);
    }

    @Test
    void aMessageAfterANewerOneIsWrong() throws IOException {
        assertThat(judged(RIGHT, RIGHT.replace("\"sequence\":7", "\"sequence\":6"))
                        .wrong())
                .hasSize(1);
    }

    @Test
    void aValueFromBeforeAMomentDoesNotCountAsThere() throws IOException {
        assertThat(judged(RIGHT).missingSince(12_400)).contains("plant/poor/boiler-2/stamp-1");
    }
}
