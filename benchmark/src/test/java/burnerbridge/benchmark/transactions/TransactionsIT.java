package burnerbridge.benchmark.transactions;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalStateException;

import burnerbridge.benchmark.lines.Load;
import burnerbridge.benchmark.lines.Plant;
import burnerbridge.benchmark.measure.MachineClock;
import burnerbridge.outside.OutsideProgram;
import burnerbridge.site.LineDefinition;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;

class TransactionsIT {

    @Test
    void aShortRunMeasuresBothSidesOnEveryKindOfLine() {
        OutsideProgram.require("cc", "gcc libc6-dev");
        OutsideProgram.require("socat", "socat");
        OutsideProgram.require(
                Files.exists(Path.of("/usr/include/modbus/modbus.h")), "libmodbus", "apt-get install libmodbus-dev");
        List<String> rows = printed("--rounds", "2", "--warm-rounds", "1", "--reads", "20", "--slow-reads", "5");
        String both = "\\| \\d+ \\| [^|]+ \\| [^|]+ \\| [\\d.]+ \\| [^|]+ \\| [^|]+ \\| [^|]+ \\|";
        assertThat(rows).filteredOn(row -> row.matches(both)).hasSize(12);
        assertThat(rows)
                .filteredOn(row -> row.matches("\\| \\d+ \\| [^|]+ \\| [^|]+ \\|"))
                .hasSize(3);
    }

    private static List<String> printed(String... arguments) {
        StringWriter out = new StringWriter();
        int exitCode = new CommandLine(new TransactionsCommand())
                .setOut(new PrintWriter(out))
                .execute(arguments);
        assertThat(exitCode).isZero();
        return out.toString().lines().toList();
    }

    @Test
    void otherValuesThanTheServersEndTheMeasurement() throws IOException {
        MachineClock clock = new MachineClock();
        try (Plant plant = Plant.open(new Load(1, 1, 1), clock);
                Ours ours = new Ours(
                        new LineDefinition.Tcp("127.0.0.1", plant.ports().get(0)), clock)) {
            assertThatIllegalStateException()
                    .isThrownBy(() -> ours.read(new Asked(1, 1, Duration.ZERO)))
                    .withMessage("register 0 held 0");
        }
    }

    @Test
    void aReadThatFailsEndsTheMeasurement() throws IOException {
        MachineClock clock = new MachineClock();
        Plant plant = Plant.open(new Load(1, 1, 1), clock);
        int port = plant.ports().get(0);
        plant.close();
        try (Ours ours = new Ours(new LineDefinition.Tcp("127.0.0.1", port), clock)) {
            assertThatIllegalStateException()
                    .isThrownBy(() -> ours.read(new Asked(1, 1, Duration.ZERO)))
                    .withMessageContaining("NotConnected");
        }
    }
}
