package burnerbridge.line.wire;

import burnerbridge.site.LineDefinition.Parity;
import burnerbridge.site.LineDefinition.Rs485;
import burnerbridge.site.LineDefinition.Serial;
import java.io.IOException;

/** Opens the serial port at a path and says how that went, in a process of its own. */
final class OpensAPort {
    private OpensAPort() {}

    public static void main(String[] args) {
        try {
            Serial settings = new Serial(args[0], 9600, Parity.NONE, 1, Rs485.AUTO, false);
            SerialPorts.open(settings, 100).closePort();
            System.out.println("opened");
        } catch (IOException e) {
            System.out.println(e.getMessage());
        }
    }
}
