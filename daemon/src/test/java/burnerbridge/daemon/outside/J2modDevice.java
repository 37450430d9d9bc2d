package burnerbridge.daemon.outside;

import com.fazecast.jSerialComm.SerialPort;
import com.ghgande.j2mod.modbus.procimg.SimpleDigitalIn;
import com.ghgande.j2mod.modbus.procimg.SimpleDigitalOut;
import com.ghgande.j2mod.modbus.procimg.SimpleInputRegister;
import com.ghgande.j2mod.modbus.procimg.SimpleProcessImage;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import com.ghgande.j2mod.modbus.slave.ModbusSlave;
import com.ghgande.j2mod.modbus.slave.ModbusSlaveFactory;
import com.ghgande.j2mod.modbus.util.SerialParameters;
import java.nio.file.Files;
import java.nio.file.Path;

/** The slave of the message library, on a serial port, with registers from a file. It refuses with code 2 only. */
record J2modDevice(ModbusSlave slave) implements AutoCloseable {
    private static final int UNIT = 1;
    private static final int HEXADECIMAL = 16;

    static J2modDevice onASerialPort(String port, Path registers) throws Exception {
        SerialParameters parameters = new SerialParameters();
        parameters.setPortName(port);
        parameters.setBaudRate(9600);
        parameters.setDatabits(8);
        parameters.setParity(SerialPort.NO_PARITY);
        parameters.setStopbits(SerialPort.ONE_STOP_BIT);
        parameters.setEncoding("rtu");
        ModbusSlave slave = ModbusSlaveFactory.createSerialSlave(parameters);
        SimpleProcessImage image = new SimpleProcessImage(UNIT);
        for (String line : Files.readAllLines(registers)) {
            read(line.replaceFirst("#.*", "").strip(), image);
        }
        slave.addProcessImage(UNIT, image);
        slave.open();
        return new J2modDevice(slave);
    }

    private static void read(String line, SimpleProcessImage image) {
        String[] cells = line.split("\\s+");
        for (int i = 2; i < cells.length; i++) {
            if (!cells[i].startsWith("!")) {
                int address = Integer.parseInt(cells[1]) + i - 2;
                set(image, cells[0], address, Integer.parseInt(cells[i], HEXADECIMAL));
            }
        }
    }

    private static void set(SimpleProcessImage image, String table, int address, int word) {
        switch (table) {
            case "coil" -> image.addDigitalOut(address, new SimpleDigitalOut(word == 1));
            case "discrete-input" -> image.addDigitalIn(address, new SimpleDigitalIn(word == 1));
            case "holding-register" -> image.addRegister(address, new SimpleRegister(word));
            case "input-register" -> image.addInputRegister(address, new SimpleInputRegister(word));
            default -> throw new IllegalArgumentException("no such table: " + table);
        }
    }

    @Override
    public void close() {
        ModbusSlaveFactory.close(slave);
    }
}
