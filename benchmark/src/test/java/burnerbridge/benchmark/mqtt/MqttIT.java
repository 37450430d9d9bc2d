package burnerbridge.benchmark.mqtt;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.outside.OutsideProgram;
import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;

class MqttIT {

    @Test
    void aShortRunMeasuresBothSides() {
        OutsideProgram.require("mosquitto_pub", "mosquitto mosquitto-clients");
        StringWriter out = new StringWriter();

        int exitCode = new CommandLine(new MqttCommand())
                .setOut(new PrintWriter(out))
                .execute("--points", "50", "--rounds", "2", "--warm", "1", "--single", "20");

        assertThat(exitCode).isZero();
        assertThat(out.toString())
                .containsPattern("\\| ours \\| \\d+ \\(\\d+\\.\\.\\d+\\) \\|")
                .containsPattern("\\| mosquitto_pub -l \\| \\d+ \\(")
                .contains("20 changes: median ");
    }
}
