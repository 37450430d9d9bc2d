package burnerbridge.daemon.outside;

import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.awaitility.Awaitility;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;

/** A field device, a broker and the bridge, each a process, on ports of their own. */
final class Rig implements AutoCloseable {
    private static final ObjectMapper JSON = new ObjectMapper();

    final int modbusPort = FreePorts.tcp();
    final int brokerPort = FreePorts.tcp();
    final int bacnetPort = FreePorts.udp();
    private final Path folder;
    private @Nullable Program device;
    private @Nullable Program broker;
    private @Nullable Program bridge;

    Rig(Path folder) {
        this.folder = folder;
        write("site/site.yaml", FieldPoints.siteYaml(this));
        write("site/points/burner.csv", FieldPoints.pointList());
        write("site/bindings.csv", FieldPoints.bindings());
        write("image.json", FieldPoints.image());
        write(
                "mosquitto.conf",
                "listener " + brokerPort + " 127.0.0.1\nallow_anonymous true\npersistence false\n"
                        + ("root".equals(System.getProperty("user.name")) ? "user root\n" : ""));
    }

    /** Skips the test, or fails it where outside checks are required, unless every program is here. */
    static void requirePrograms() {
        OutsideProgram.require("mbpoll", "mbpoll");
        OutsideProgram.require("mosquitto", "mosquitto");
        OutsideProgram.require("mosquitto_sub", "mosquitto-clients");
        OutsideProgram.require("tshark", "tshark");
        requireDevice();
        OutsideProgram.requireBacnetClient();
    }

    /** The same for the field device alone. */
    static void requireDevice() {
        OutsideProgram.require("script", "bsdutils");
        OutsideProgram.requirePython("pymodbus.server", "python3-pymodbus");
    }

    private void write(String file, String text) {
        try {
            Path path = folder.resolve(file);
            Files.createDirectories(path.getParent());
            Files.writeString(path, text);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    Path file(String name) {
        return folder.resolve(name);
    }

    void startDevice() {
        String image = folder.resolve("image.json").toString();
        device = start(
                "device",
                OutsideProgram.PYTHON,
                OutsideProgram.file("field-device.py").toString(),
                Integer.toString(modbusPort),
                image);
        awaitPort(modbusPort);
    }

    void stopDevice() {
        stop(device);
    }

    void startBroker() {
        broker = start(
                "broker", "mosquitto", "-c", folder.resolve("mosquitto.conf").toString());
        awaitPort(brokerPort);
    }

    void stopBroker() {
        stop(broker);
    }

    Program startBridge() {
        bridge = command("bridge", "run");
        return bridge;
    }

    /** Starts a command of the program on the site, with the rig's state folder. */
    Program command(String log, String verb, String... arguments) {
        return start(log, commandLine(verb, arguments).toArray(String[]::new));
    }

    /** The same on a terminal, which is what its log then shows. */
    Program onATerminal(String log, String verb, String... arguments) {
        String quoted = commandLine(verb, arguments).stream()
                .map(word -> "'" + word + "'")
                .collect(Collectors.joining(" ", "stty cols 100 rows 40; TERM=xterm exec ", ""));
        return start(log, "script", "-qec", quoted, "/dev/null");
    }

    private List<String> commandLine(String verb, String... arguments) {
        List<String> command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                "-Dlogback.configurationFile="
                        + Path.of("src/main/resources/logback.xml").toAbsolutePath(),
                "burnerbridge.daemon.Main",
                verb,
                folder.resolve("site").toString(),
                "--state",
                folder.resolve("state").toString()));
        command.addAll(List.of(arguments));
        return command;
    }

    Program start(String name, String... command) {
        return Program.start(folder.resolve(name + ".log"), List.of(command));
    }

    private static void stop(@Nullable Program program) {
        if (program != null) {
            program.cut();
        }
    }

    private static void awaitPort(int port) {
        Awaitility.await().until(() -> {
            try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
                return socket.isConnected();
            } catch (IOException e) {
                return false;
            }
        });
    }

    /** Asks the bridge with the independent BACnet client. */
    JsonNode bacnet(String... verb) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of(
                "node",
                OutsideProgram.file("bacnet-client.js").toString(),
                "127.0.0.1:" + bacnetPort,
                Integer.toString(FreePorts.udp())));
        command.addAll(List.of(verb));
        String said = OutsideProgram.output(command);
        return JSON.readTree(said.substring(said.indexOf('{') < 0 ? 0 : firstJson(said)));
    }

    private static int firstJson(String said) {
        int object = said.indexOf('{');
        int array = said.indexOf('[');
        return array >= 0 && array < object ? array : object;
    }

    /** The retained message of a topic; null where none comes. */
    @Nullable
    JsonNode mqtt(String topic) throws IOException, InterruptedException {
        String said = OutsideProgram.output(List.of(
                "mosquitto_sub", "-V", "5", "-p", Integer.toString(brokerPort), "-t", topic, "-C", "1", "-W", "2"));
        return said.startsWith("{") ? JSON.readTree(said.lines().findFirst().orElseThrow()) : null;
    }

    @Override
    public void close() {
        for (Program program : new Program[] {bridge, broker, device}) {
            if (program != null) {
                program.close();
            }
        }
    }
}
