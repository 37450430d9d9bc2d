package burnerbridge.outside;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** The field device of {@code outside/libmodbus-device.c}, built by the machine's own compiler. */
public final class LibmodbusDevice {
    private static final String HEADER = "modbus/modbus.h";

    private LibmodbusDevice() {}

    /** Builds it into a folder; says where the program is. */
    public static Path build(Path folder) throws IOException, InterruptedException {
        String install = "gcc libmodbus-dev";
        OutsideProgram.require("cc", install);
        String missing =
                OutsideProgram.output(List.of("cc", "-fsyntax-only", "-x", "c", "-include", HEADER, "/dev/null"));
        OutsideProgram.require(missing.isEmpty(), "the C library libmodbus", "apt-get install " + install);
        Path source = OutsideProgram.file("libmodbus-device.c");
        Path program = folder.resolve("libmodbus-device");
        String said = OutsideProgram.output(List.of(
                "cc", "-std=c11", "-Wall", "-Wextra", "-O1", "-o", program.toString(), source.toString(), "-lmodbus"));
        if (!Files.isExecutable(program)) {
            throw new IllegalStateException(source + " does not compile: " + said);
        }
        return program;
    }
}
