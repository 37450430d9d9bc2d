package burnerbridge.write.audit;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The hash of the page's record, computed by a program that others wrote. */
class AuditPageIT {
    @Test
    void theHashOfTheWorkedRecordIsFoundWithTheCommandOnThePage(@TempDir Path state)
            throws IOException, InterruptedException {
        OutsideProgram.require("sha256sum", "coreutils");
        Path folder = Files.createDirectory(state.resolve("writes"));
        String record = AuditPageTest.block("json").get(0);
        Files.writeString(folder.resolve("audit-000001.jsonl"), record + "\n");
        String script = "cd " + state + "\n" + String.join("\n", AuditPageTest.block("sh"));
        List<String> said =
                OutsideProgram.output(List.of("sh", "-c", script)).lines().toList();
        assertThat(said).isEqualTo(AuditPageTest.block("text"));
        assertThat(record).contains("\"hash\":\"" + said.get(0).substring(0, 64) + "\"");
    }
}
