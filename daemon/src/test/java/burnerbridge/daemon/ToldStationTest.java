package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The judge of the poor network knows what is wrong when it sees it. */
class ToldStationTest {
    /** Of the sixth point, 12.3 s after the beginning, told at 12.5 s. */
    private static final String RIGHT =
            "{\"at\":12500,\"how\":\"unconfirmed\",\"object\":\"48:2002\",\"value\":600000123,\"flags\":\"0000\"}\n";

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @BeforeEach
    void writeObjects() throws IOException {
        Files.writeString(folder.resolve(PoorlyConnectedPlant.OBJECTS), "48:2002 6\n48:2003 7\n2:1120\n");
        Files.writeString(folder.resolve(PoorlyConnectedPlant.DEMANDS), "1000\n");
    }

    private ToldStation judged(String... lines) throws IOException {
        Files.writeString(folder.resolve(ToldStation.FILE), String.join("", lines));
        return ToldStation.of(folder, 0);
    }

    @Test
    void whatIsRightIsNotWrong() throws IOException {
        assertThat(judged(RIGHT).wrong()).isEmpty();
        assertThat(judged(RIGHT).missingSince(12_300)).doesNotContain("unconfirmed 48:2002");
    }

    @Test
    void theValueOfAnotherObjectIsWrong() throws IOException {
        assertThat(judged(RIGHT.replace("2002", "2003")).wrong()).hasSize(1);
    }

    @Test
    void aValueThatIsNotReadYetOrTooOldIsWrong() throws IOException {
        assertThat(judged(RIGHT.replace("12500", "12100")).wrong()).hasSize(1);
        assertThat(judged(RIGHT.replace("12500", "18000")).wrong()).hasSize(1);
    }

    @Test
    void whatIsNotUnderstoodIsWrong() throws IOException {
        assertThat(judged("TypeError\n").wrong()).hasSize(1);
    }

    @Test
    void whatCameByOneKindOfMessageIsMissingByTheOthers() throws IOException {
        assertThat(judged(RIGHT).missingSince(0)).contains("confirmed 48:2002", "read 48:2002", "unconfirmed 48:2003");
    }

    @Test
    void anOlderValueAfterANewerOneGoesBackwards() throws IOException {
        assertThat(judged(RIGHT, RIGHT.replace("600000123", "600000113")).backwards(0, 20_000))
                .hasSize(1);
    }

    @Test
    void aWriteIsDoneWhenItOrALaterOneIsOnTheWire() throws IOException {
        String accepted = "{\"at\":9000,\"how\":\"write\",\"value\":1000,\"answer\":\"accepted\"}\n";
        assertThat(judged(accepted).isLastWriteDone(8_000)).isTrue();
        assertThat(judged(accepted).isLastWriteDone(9_001)).isFalse();
        assertThat(judged(accepted.replace("1000", "1001")).isLastWriteDone(8_000))
                .isFalse();
    }
}
