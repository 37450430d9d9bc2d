package burnerbridge.daemon;

import burnerbridge.simulator.device.Door;
import burnerbridge.simulator.device.FieldDevice;
import burnerbridge.simulator.device.WrittenFrame;
import burnerbridge.simulator.modbus.AcceptingImage;
import burnerbridge.simulator.modbus.ModbusTable;
import burnerbridge.simulator.modbus.UnknownUnit;
import java.io.IOException;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Units whose values say of which point they are and when they were read, so that a wrong one is known wherever it turns up;
 * and a demand of the first of them that can be written. With the site that leads there.
 */
final class StampedUnits implements AutoCloseable {
    static final int UNITS = 8;
    /** Of each unit. */
    static final int POINTS = 4;

    static final String SITE = "poor";
    /** Between the points of two values; tenths of a second fit below it for a hundred days. */
    private static final long POINT = 100_000_000;

    private static final int SERIAL = 100;
    private static final int DEMAND = 44;
    private static final int RESTING = 1;

    private final FieldDevice device;

    /** @param begin the moment that is stamped as 0, in milliseconds of the epoch */
    StampedUnits(long begin) throws IOException {
        Map<Integer, AcceptingImage> images = new HashMap<>();
        for (int unit = 1; unit <= UNITS; unit++) {
            images.put(unit, image(unit, begin));
        }
        device = new FieldDevice(new Door.ModbusTcp(InetAddress.getLoopbackAddress(), 0), images, UnknownUnit.SILENT);
        device.start();
    }

    private static AcceptingImage image(int unit, long begin) {
        AcceptingImage image = new AcceptingImage(
                (table, address, count) -> Optional.of(registers(unit, begin, address, count)),
                List.of(new AcceptingImage.Accepted(ModbusTable.HOLDING_REGISTER, DEMAND, DEMAND)));
        image.set(ModbusTable.HOLDING_REGISTER, SERIAL, SERIAL + unit);
        image.set(ModbusTable.HOLDING_REGISTER, DEMAND, RESTING);
        return image;
    }

    /** All of one moment, the high word of each value first. */
    private static int[] registers(int unit, long begin, int address, int count) {
        long tenths = (System.currentTimeMillis() - begin) / 100;
        int[] registers = new int[count];
        for (int i = 0; i < count; i++) {
            int register = address + i;
            long value = key(unit, register / 2) * POINT + tenths;
            registers[i] = (int) (register % 2 == 0 ? value >> 16 : value) & 0xFFFF;
        }
        return registers;
    }

    /** Of a point, 1 to 32. */
    static int key(int unit, int point) {
        return (unit - 1) * POINTS + point % POINTS + 1;
    }

    /** Of the point that a value says it is of. */
    static int key(long value) {
        return (int) (value / POINT);
    }

    /** When the value says that it was read, in milliseconds after the beginning, rounded down to a tenth of a second. */
    static long millis(long value) {
        return value % POINT * 100;
    }

    static String topic(int key) {
        return "plant/" + SITE + "/boiler-" + ((key - 1) / POINTS + 1) + "/stamp-" + (key - 1) % POINTS;
    }

    void writeSite(Path folder, String bacnet, String mqtt) throws IOException {
        Files.createDirectories(folder);
        StringBuilder list = new StringBuilder("name,table,address,format,unit,role,every,source\n");
        for (int point = 0; point < POINTS; point++) {
            list.append("stamp-" + point + ",holding-register," + 2 * point + ",uint32,,measurement,1 s,p. 1\n");
        }
        list.append("demand,holding-register," + DEMAND + ",uint16,,demand,1 s,p. 2\n");
        list.append("serial,holding-register," + SERIAL + ",uint16,,identity,10 s,p. 3\n");
        Files.writeString(folder.resolve("stamped.csv"), list);
        StringBuilder controllers = new StringBuilder();
        for (int unit = 1; unit <= UNITS; unit++) {
            controllers.append("  boiler-" + unit + ": {line: annex, unit: " + unit + ", type: stamped, instance-base: "
                    + unit * 1000 + "}\n");
        }
        Files.writeString(
                folder.resolve("site.yaml"),
                "site: " + SITE + "\ntime-zone: Europe/Lisbon\n"
                        + "lines: {annex: {tcp: {host: 127.0.0.1, port: " + device.port() + "}}}\n"
                        + "types:\n  stamped: {points: stamped.csv, numbering: wire, tables: separate,"
                        + " identity: serial, watchdog: none, protected: [holding-register 50-60]}\n"
                        + "controllers:\n" + controllers
                        + bacnet + "\n" + mqtt + "\n"
                        + "write-permits:\n"
                        + "  - {point: boiler-1.demand, from: {bacnet: [10.77.0.2]}, range: 1..60000, interval: 1 s,"
                        + " storage: volatile, function: 6, silence-after: 2 min, on-silence: write 1,"
                        + " reason: a test}\n");
    }

    /** What was asked of the demand on the wire, in order. */
    List<Integer> demands() {
        return device.written().stream().map(StampedUnits::value).toList();
    }

    private static int value(WrittenFrame frame) {
        byte[] bytes = frame.bytes();
        return (bytes[bytes.length - 2] & 0xFF) << 8 | bytes[bytes.length - 1] & 0xFF;
    }

    @Override
    public void close() {
        device.close();
    }
}
