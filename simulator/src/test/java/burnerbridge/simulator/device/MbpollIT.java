package burnerbridge.simulator.device;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.outside.OutsideProgram;
import burnerbridge.simulator.modbus.FixedImage;
import burnerbridge.simulator.modbus.ModbusTable;
import burnerbridge.simulator.modbus.UnknownUnit;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.InetAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Reads the device over each transport with a program that others wrote. */
class MbpollIT {
    private static final Pattern CELL = Pattern.compile("(?m)^\\[(\\d+)]:\\s+(\\S+)");
    private static final WireRate RATE = new WireRate(19_200, 10);

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @BeforeAll
    static void needsMbpoll() {
        OutsideProgram.require("mbpoll", "mbpoll");
    }

    @ParameterizedTest
    @CsvSource({
        "COIL,             0, 1 0 1 1",
        "DISCRETE_INPUT,   1, 0 0 1 1",
        "INPUT_REGISTER,   3, 7 300 0 32767",
        "HOLDING_REGISTER, 4, 12 0 1 500",
    })
    void anotherProgramReadsOverModbusTcp(ModbusTable table, String type, String values)
            throws IOException, InterruptedException {
        Door door = new Door.ModbusTcp(InetAddress.getLoopbackAddress(), 0);
        try (FieldDevice device = device(door, table, values)) {
            reads(type, values, "-m", "tcp", "-p", String.valueOf(device.port()), "127.0.0.1");
        }
    }

    @ParameterizedTest
    @CsvSource({
        "COIL,             0, 1 0 1 1",
        "DISCRETE_INPUT,   1, 0 0 1 1",
        "INPUT_REGISTER,   3, 7 300 0 32767",
        "HOLDING_REGISTER, 4, 12 0 1 500",
    })
    void anotherProgramReadsOnASerialPort(ModbusTable table, String type, String values)
            throws IOException, InterruptedException {
        try (PtyPair cable = new PtyPair(folder);
                FieldDevice device = device(new Door.RtuSerial(cable.device, RATE), table, values)) {
            assertThat(device.port()).isZero();
            readsSerially(type, values, cable.master);
        }
    }

    /** It cannot do RTU over TCP, so that socat gives it a serial port that leads there. */
    @ParameterizedTest
    @CsvSource({"INPUT_REGISTER, 3, 7 300 0 32767", "COIL, 0, 1 0 1 1"})
    void anotherProgramReadsThroughADeviceServer(ModbusTable table, String type, String values)
            throws IOException, InterruptedException {
        OutsideProgram.require("socat", "socat");
        Door door = new Door.RtuOverTcp(InetAddress.getLoopbackAddress(), 0, RATE);
        try (FieldDevice device = device(door, table, values)) {
            Path port = folder.resolve("leads-to-tcp");
            Process socat = new ProcessBuilder(
                            "socat", "-d", "-d", "pty,raw,echo=0,link=" + port, "tcp:127.0.0.1:" + device.port())
                    .redirectErrorStream(true)
                    .start();
            try {
                awaitJoined(socat);
                readsSerially(type, values, port);
            } finally {
                socat.destroy();
            }
        }
    }

    private static void awaitJoined(Process socat) throws IOException {
        BufferedReader said = new BufferedReader(new InputStreamReader(socat.getInputStream(), StandardCharsets.UTF_8));
        String line = said.readLine();
        while (line != null && !line.contains("starting data transfer loop")) {
            line = said.readLine();
        }
        assertThat(line).as("socat joins both").isNotNull();
    }

    private static FieldDevice device(Door door, ModbusTable table, String values) throws IOException {
        int[] cells =
                List.of(values.split(" ")).stream().mapToInt(Integer::parseInt).toArray();
        FieldDevice device = new FieldDevice(door, Map.of(3, new FixedImage(table, 16, cells)), UnknownUnit.SILENT);
        device.start();
        return device;
    }

    private static void readsSerially(String type, String values, Path port) throws IOException, InterruptedException {
        reads(type, values, "-m", "rtu", "-b", "19200", "-P", "none", "-s", "1", port.toString());
    }

    /** It counts references from 1, so 17 is the address 16. */
    private static void reads(String type, String values, String... where) throws IOException, InterruptedException {
        List<String> expected = List.of(values.split(" "));
        List<String> command = new ArrayList<>(List.of("mbpoll", "-a", "3", "-t", type, "-r", "17", "-1", "-c"));
        command.add(String.valueOf(expected.size()));
        command.addAll(List.of(where));
        String told = OutsideProgram.output(command);
        assertThat(cells(told)).as(told).isEqualTo(expected);
    }

    private static List<String> cells(String told) {
        List<String> cells = new ArrayList<>();
        CELL.matcher(told).results().map((MatchResult m) -> m.group(2)).forEach(cells::add);
        return cells;
    }
}
