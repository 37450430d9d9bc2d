package burnerbridge.simulator.bench;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.simulator.device.HandMadeClient;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** The program as a person runs it. */
class BenchIT {
    private static final Pattern PORT = Pattern.compile("port (\\d+)");

    private static Process started(String... arguments) throws IOException {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                Bench.class.getName()));
        command.addAll(List.of(arguments));
        return new ProcessBuilder(command).redirectErrorStream(true).start();
    }

    @Test
    void itServesAndObeysAndEnds() throws Exception {
        Process program = started("--tcp", "0", "--unit", "2,3");
        try (BufferedReader said =
                        new BufferedReader(new InputStreamReader(program.getInputStream(), StandardCharsets.UTF_8));
                Writer told = new OutputStreamWriter(program.getOutputStream(), StandardCharsets.UTF_8)) {
            String opening = said.readLine();
            Matcher port = PORT.matcher(opening);
            assertThat(port.find()).as(opening).isTrue();
            try (HandMadeClient client = new HandMadeClient(Integer.parseInt(port.group(1)))) {
                assertThat(client.ask("000100000006" + "020300050001", 11))
                        .isEqualTo("000100000005" + "020302" + "07D5");
                told.write("exception 6 for 1\nbuzy\n");
                told.flush();
                assertThat(said.readLine()).isEqualTo("from now on: exception 6 for 1");
                assertThat(said.readLine()).contains("the nearest is \"busy\"");
                assertThat(client.ask("000200000006" + "020300050001", 9)).isEqualTo("000200000003" + "028306");
                assertThat(client.ask("000300000006" + "030400050001", 11))
                        .isEqualTo("000300000005" + "030402" + "F442");
            }
            told.write("end\n");
            told.flush();
            assertThat(program.waitFor(20, TimeUnit.SECONDS)).isTrue();
            assertThat(program.exitValue()).isZero();
        } finally {
            program.destroy();
        }
    }

    @Test
    void whatIsAcceptedIsWrittenAndTold() throws Exception {
        Process program = started("--tcp", "0", "--unit", "2", "--accept", "coil:16,holding-register:40-49");
        try (BufferedReader said =
                        new BufferedReader(new InputStreamReader(program.getInputStream(), StandardCharsets.UTF_8));
                Writer told = new OutputStreamWriter(program.getOutputStream(), StandardCharsets.UTF_8)) {
            Matcher port = PORT.matcher(said.readLine());
            assertThat(port.find()).isTrue();
            try (HandMadeClient client = new HandMadeClient(Integer.parseInt(port.group(1)))) {
                assertThat(client.ask("000100000006" + "0206002C0384", 12)).isEqualTo("000100000006" + "0206002C0384");
                assertThat(client.ask("000200000006" + "0206005C0384", 9)).isEqualTo("000200000003" + "028602");
                told.write("writes\nset 2 holding-register 44 7\nwrite-exception 4\nset 3 coil 1 1\nset 2 coil\n");
                told.flush();
                assertThat(said.readLine()).isEqualTo("unit 2: 00 01 00 00 00 06 02 06 00 2C 03 84: done");
                assertThat(said.readLine()).isEqualTo("unit 2: 00 02 00 00 00 06 02 06 00 5C 03 84: not done");
                assertThat(said.readLine()).isEqualTo("2 frames that were no reads");
                assertThat(said.readLine()).isEqualTo("done: set 2 holding-register 44 7");
                assertThat(said.readLine()).isEqualTo("from now on: write-exception 4");
                assertThat(said.readLine()).contains("unit 3 is not there");
                assertThat(said.readLine()).contains("unit, table, address and value");
                assertThat(client.ask("000300000006" + "0203002C0001", 11))
                        .isEqualTo("000300000005" + "020302" + "0007");
                assertThat(client.ask("000400000006" + "0206002C0384", 9)).isEqualTo("000400000003" + "028604");
            }
        } finally {
            program.destroy();
        }
    }

    @Test
    void wrongArgumentsAndPortsThatAreNotThereAreTold() throws Exception {
        assertThat(ended("--tcp", "0", "--unit", "300")).startsWith("2: --unit: must be 1 to 247 (was 300)");
        assertThat(ended("--tcp", "0", "--turnaround", "-1"))
                .startsWith("2: --turnaround: must be 0 to 10000 (was -1)");
        assertThat(ended("--serial", "/nonexistent"))
                .startsWith("3: field-device: /nonexistent: there is no such port");
        assertThat(ended("--tcp", "0", "--accept", "input-register:4"))
                .startsWith("2: --accept: a table is coil or holding-register (was input-register)");
        assertThat(ended("--help"))
                .contains("--rtu-over-tcp")
                .contains("--serial")
                .startsWith("0: ");
    }

    private static String ended(String... arguments) throws Exception {
        Process program = started(arguments);
        String said = new String(program.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        return program.waitFor() + ": " + said;
    }
}
