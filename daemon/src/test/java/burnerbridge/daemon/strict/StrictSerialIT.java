package burnerbridge.daemon.strict;

import burnerbridge.simulator.device.Door;
import burnerbridge.simulator.device.FieldDevice;
import burnerbridge.simulator.device.WireRate;
import burnerbridge.simulator.frame.Transport;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.LineDefinition.Parity;
import burnerbridge.site.LineDefinition.Rs485;
import com.fazecast.jSerialComm.SerialPort;
import com.ghgande.j2mod.modbus.Modbus;
import com.ghgande.j2mod.modbus.facade.AbstractModbusMaster;
import com.ghgande.j2mod.modbus.facade.ModbusSerialMaster;
import com.ghgande.j2mod.modbus.util.SerialParameters;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.io.TempDir;

/** On pairs of pseudo-terminals, which have no parity. */
class StrictSerialIT extends StrictRtuContract {
    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    /** One lane in so many has an adapter that echoes. */
    private static final int ECHOING = 4;

    private static final String ECHO = "echo-";

    private final List<Cable> cables = new CopyOnWriteArrayList<>();

    @AfterEach
    void unplug() {
        cables.forEach(Cable::close);
    }

    @Override
    Transport transport() {
        return Transport.RTU_SERIAL;
    }

    @Override
    Door newDoor(int lane, int baud) throws IOException {
        Cable cable = new Cable(folder, (lane % ECHOING == 0 ? ECHO : "lane-") + lane);
        cables.add(cable);
        return new Door.RtuSerial(cable.device, new WireRate(baud, BITS));
    }

    @Override
    boolean echoes(Door door) {
        return ((Door.RtuSerial) door).port().getFileName().toString().startsWith(ECHO);
    }

    private static String masterPort(Door door) {
        String device = ((Door.RtuSerial) door).port().toString();
        return device.replace("-device", "-master");
    }

    @Override
    LineDefinition.Endpoint endpoint(FieldDevice device, Door door) {
        return new LineDefinition.Serial(
                masterPort(door), ((Door.RtuSerial) door).rate().baud(), Parity.NONE, 1, Rs485.AUTO, echoes(door));
    }

    @Override
    AbstractModbusMaster libraryMaster(FieldDevice device, Door door) {
        SerialParameters parameters = new SerialParameters();
        parameters.setPortName(masterPort(door));
        parameters.setBaudRate(BAUD);
        parameters.setDatabits(8);
        parameters.setParity(SerialPort.NO_PARITY);
        parameters.setStopbits(SerialPort.ONE_STOP_BIT);
        parameters.setEncoding(Modbus.SERIAL_ENCODING_RTU);
        parameters.setEcho(echoes(door));
        return new ModbusSerialMaster(parameters, (int) TIMEOUT.toMillis());
    }
}
