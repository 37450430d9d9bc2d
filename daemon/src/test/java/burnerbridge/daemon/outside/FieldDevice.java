package burnerbridge.daemon.outside;

import burnerbridge.outside.LibmodbusDevice;
import burnerbridge.outside.OutsideProgram;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.awaitility.Awaitility;

/**
 * A field device that others wrote, at unit 1, with the registers of {@code outside/every-format}.
 *
 * @param line where it is, as {@code site.yaml} says it
 * @param parts what it runs in
 */
record FieldDevice(String line, List<AutoCloseable> parts) implements AutoCloseable {
    static final Path REGISTERS = OutsideProgram.file("every-format/registers.txt");

    static FieldDevice pymodbusOnTcp(Path folder) throws Exception {
        return onTcp(folder, pymodbus());
    }

    static FieldDevice pymodbusOnRtuOverTcp(Path folder) throws Exception {
        int port = FreePorts.tcp();
        String line = "rtu-over-tcp: {host: 127.0.0.1, port: " + port + ", baud: 115200}";
        return new FieldDevice(line, List.of(start(folder, pymodbus(), "rtu:" + port)));
    }

    static FieldDevice pymodbusOnASerialPort(Path folder) throws Exception {
        return onASerialPort(folder, pymodbus());
    }

    static FieldDevice libmodbusOnTcp(Path folder) throws Exception {
        return onTcp(folder, libmodbus(folder));
    }

    static FieldDevice libmodbusOnASerialPort(Path folder) throws Exception {
        return onASerialPort(folder, libmodbus(folder));
    }

    static FieldDevice j2modOnASerialPort(Path folder) throws Exception {
        Program cable = cable(folder);
        return new FieldDevice(serial(folder), List.of(J2modDevice.onASerialPort(theirs(folder), REGISTERS), cable));
    }

    private static FieldDevice onTcp(Path folder, List<String> program) {
        int port = FreePorts.tcp();
        String line = "tcp: {host: 127.0.0.1, port: " + port + "}";
        return new FieldDevice(line, List.of(start(folder, program, Integer.toString(port))));
    }

    private static FieldDevice onASerialPort(Path folder, List<String> program) {
        Program cable = cable(folder);
        return new FieldDevice(serial(folder), List.of(start(folder, program, theirs(folder)), cable));
    }

    private static List<String> pymodbus() {
        OutsideProgram.requirePython("pymodbus.server, serial", "python3-pymodbus python3-serial");
        return List.of(
                OutsideProgram.PYTHON, OutsideProgram.file("field-device.py").toString());
    }

    private static List<String> libmodbus(Path folder) throws IOException, InterruptedException {
        return List.of(LibmodbusDevice.build(folder).toString());
    }

    private static Program start(Path folder, List<String> program, String where) {
        List<String> words = new ArrayList<>(program);
        words.add(where);
        words.add(REGISTERS.toString());
        return Program.start(folder.resolve("device.log"), words);
    }

    /** Two pseudo-terminals as the ends of a serial cable; they have no parity and no wire time. */
    private static Program cable(Path folder) {
        OutsideProgram.require("socat", "socat");
        String end = "pty,raw,echo=0,link=";
        Program socat =
                Program.start(folder.resolve("cable.log"), List.of("socat", end + ours(folder), end + theirs(folder)));
        Awaitility.await().until(() -> Files.exists(Path.of(ours(folder))) && Files.exists(Path.of(theirs(folder))));
        return socat;
    }

    private static String ours(Path folder) {
        return folder.resolve("ours").toString();
    }

    private static String theirs(Path folder) {
        return folder.resolve("theirs").toString();
    }

    private static String serial(Path folder) {
        return "serial: {port: " + ours(folder) + ", baud: 9600, parity: none, stop-bits: 1}";
    }

    @Override
    public void close() throws Exception {
        for (AutoCloseable part : parts) {
            part.close();
        }
    }
}
