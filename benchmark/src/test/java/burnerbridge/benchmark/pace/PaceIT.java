package burnerbridge.benchmark.pace;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.outside.OutsideProgram;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;

class PaceIT {

    @Test
    void aShortRunMeasuresScansAtThePaceThatAnotherMasterSees() {
        OutsideProgram.require("cc", "gcc libc6-dev");
        OutsideProgram.require("socat", "socat");
        OutsideProgram.require(
                Files.exists(Path.of("/usr/include/modbus/modbus.h")), "libmodbus", "apt-get install libmodbus-dev");
        StringWriter out = new StringWriter();
        int exitCode = new CommandLine(new PaceCommand())
                .setOut(new PrintWriter(out))
                .execute("--baud", "38400,115200", "--turnaround", "5", "--scans", "2", "--reads", "3");
        assertThat(exitCode).isZero();
        assertThat(out.toString().lines())
                .filteredOn(row -> row.matches("\\| (38400|115200) \\| 5 \\|.*\\d \\|"))
                .hasSize(4);
    }
}
