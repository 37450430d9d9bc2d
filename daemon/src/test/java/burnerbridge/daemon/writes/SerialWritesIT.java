package burnerbridge.daemon.writes;

import burnerbridge.daemon.strict.Cable;
import burnerbridge.simulator.device.Door;
import burnerbridge.simulator.device.FieldDevice;
import burnerbridge.simulator.device.WireRate;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.LineDefinition.Parity;
import burnerbridge.site.LineDefinition.Rs485;
import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.io.TempDir;

/** On a pair of pseudo-terminals, which have no parity. */
class SerialWritesIT extends WritesContract {
    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private Cable cable;

    @Override
    Door door() throws IOException {
        cable = new Cable(folder, "written");
        return new Door.RtuSerial(cable.device, new WireRate(BAUD, 10));
    }

    @Override
    LineDefinition.Endpoint endpoint(FieldDevice device) {
        return new LineDefinition.Serial(cable.master.toString(), BAUD, Parity.NONE, 1, Rs485.AUTO, false);
    }

    @AfterEach
    void unplug() {
        cable.close();
    }
}
