package burnerbridge.line;

import java.io.IOException;
import java.nio.file.Path;

/** Opens the serial port at a path and says how that went, in a process of its own. */
final class OpensAPort {
    private OpensAPort() {}

    public static void main(String[] args) {
        try {
            SerialPorts.open(SerialTransportIT.serial(Path.of(args[0]), false), 100)
                    .closePort();
            System.out.println("opened");
        } catch (IOException e) {
            System.out.println(e.getMessage());
        }
    }
}
