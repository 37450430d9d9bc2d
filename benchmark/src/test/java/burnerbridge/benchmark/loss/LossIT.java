package burnerbridge.benchmark.loss;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.outside.OutsideProgram;
import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;

class LossIT {

    @Test
    void aShortRunMeasuresThePaceOfTheLivingAndFindsWhoIsBack() {
        OutsideProgram.require("socat", "socat");
        StringWriter out = new StringWriter();
        int exitCode = new CommandLine(new LossCommand())
                .setOut(new PrintWriter(out))
                .execute("--controllers", "3", "--dead", "0,1", "--seconds", "4", "--baud", "115200");
        assertThat(exitCode).isZero();
        assertThat(out.toString().lines())
                .filteredOn(row -> row.matches("\\| [01] \\| 4 \\| \\d+ \\|.*\\d \\|"))
                .hasSize(2);
        assertThat(out.toString()).contains("the last was found after");
    }
}
