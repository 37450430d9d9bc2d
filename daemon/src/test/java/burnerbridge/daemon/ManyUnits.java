package burnerbridge.daemon;

import burnerbridge.simulator.device.Door;
import burnerbridge.simulator.device.FieldDevice;
import burnerbridge.simulator.device.WrittenFrame;
import burnerbridge.simulator.manners.WriteCourse;
import burnerbridge.simulator.manners.WriteMisbehaviour;
import burnerbridge.simulator.modbus.AcceptingImage;
import burnerbridge.simulator.modbus.ModbusTable;
import burnerbridge.simulator.modbus.UnknownUnit;
import java.io.IOException;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Random;

/**
 * Units that would take any register and coil whatever, count every frame that is no read, and misbehave toward one write in
 * ten; and a site with demand and enable of most of them permitted to BACnet and MQTT, once a second each.
 */
final class ManyUnits implements AutoCloseable {
    static final int UNITS = 44;
    /** Nothing of the units behind may be written. */
    static final int PERMITTED = 40;

    private static final int SERIAL = 100;
    private static final int ONE_IN = 10;
    /** But not what another writer would look like, which puts a permit to sleep. */
    private static final List<WriteMisbehaviour> MISBEHAVIOURS = List.of(
            WriteMisbehaviour.WRITE_SILENT,
            WriteMisbehaviour.WRITE_EXCEPTION,
            WriteMisbehaviour.WRITE_NOT_DONE,
            WriteMisbehaviour.WRITE_WRONG_ECHO,
            WriteMisbehaviour.WRITE_CUT_OFF,
            WriteMisbehaviour.WRITE_TWICE,
            WriteMisbehaviour.WRITE_HANG_UP);

    private static final String LIST = """
            name,table,address,format,scale,unit,role,every,states,source
            load-demand,holding-register,45,uint16,0.1,%,demand,1 s,,p. 1
            enable,coil,17,bit,,,enable,1 s,0=off|1=on,p. 1
            reset,coil,21,bit,,,lockout-reset,,,p. 1
            high-limit,holding-register,7,uint16,,°C,safety-setting,10 s,,p. 2
            set-point,holding-register,8,uint16,,°C,setting,10 s,,p. 2
            serial,holding-register,101,uint16,,,identity,10 s,,p. 3
            """;

    private final Map<Integer, AcceptingImage> images = new LinkedHashMap<>();
    private final FieldDevice device;

    ManyUnits(long seed) throws IOException {
        for (int unit = 1; unit <= UNITS; unit++) {
            AcceptingImage image = new AcceptingImage(
                    (table, address, count) -> Optional.of(new int[count]),
                    List.of(
                            new AcceptingImage.Accepted(ModbusTable.HOLDING_REGISTER, 0, 0xFFFF),
                            new AcceptingImage.Accepted(ModbusTable.COIL, 0, 0xFFFF)));
            image.set(ModbusTable.HOLDING_REGISTER, AskTarget.LOAD_ADDRESS, 500);
            image.set(ModbusTable.HOLDING_REGISTER, SERIAL, 1000 + unit);
            images.put(unit, image);
        }
        device = new FieldDevice(new Door.ModbusTcp(InetAddress.getLoopbackAddress(), 0), images, UnknownUnit.SILENT);
        Random dice = new Random(seed);
        device.behaveTowardWrites(exchange -> dice.nextInt(ONE_IN) > 0
                ? WriteCourse.RIGHT
                : MISBEHAVIOURS.get(dice.nextInt(MISBEHAVIOURS.size())).course(1 + dice.nextInt(8), dice));
        device.start();
    }

    static List<AskTarget> targets() {
        List<AskTarget> targets = new ArrayList<>();
        for (int unit = 1; unit <= PERMITTED; unit++) {
            targets.add(new AskTarget(unit, true));
            targets.add(new AskTarget(unit, false));
        }
        return targets;
    }

    void writeSite(Path folder, int bacnetPort, int brokerPort) throws IOException {
        Files.writeString(folder.resolve("plain.csv"), LIST);
        StringBuilder controllers = new StringBuilder();
        StringBuilder permits = new StringBuilder();
        for (int unit = 1; unit <= UNITS; unit++) {
            controllers.append("  boiler-" + unit + ": {line: annex, unit: " + unit + ", type: plain, instance-base: "
                    + unit * 1000 + "}\n");
        }
        for (int unit = 1; unit <= PERMITTED; unit++) {
            String rest = "from: {bacnet: [127.0.0.1], mqtt: true}, interval: 1 s, storage: volatile,"
                    + " silence-after: 1 h, reason: a run";
            permits.append("  - {point: boiler-" + unit + ".load-demand, range: 20..90, step: 10, function: 6,"
                    + " on-silence: write 20, " + rest + "}\n");
            permits.append("  - {point: boiler-" + unit + ".enable, states: [0, 1], function: 5,"
                    + " on-silence: write off, " + rest + "}\n");
        }
        Files.writeString(
                folder.resolve("site.yaml"),
                "site: asked\ntime-zone: Europe/Lisbon\n"
                        + "lines: {annex: {tcp: {host: 127.0.0.1, port: " + device.port()
                        + "}, reply-timeout: 200 ms}}\n"
                        + "types:\n  plain: {points: plain.csv, numbering: data-model, tables: separate,"
                        + " identity: serial, protected: [holding-register 1-10]}\n"
                        + "controllers:\n" + controllers
                        + "bacnet: {device-instance: 3, bind: 127.0.0.1, port: " + bacnetPort
                        + ", requests-per-second: 100000}\n"
                        + "mqtt: {brokers: ['tcp://127.0.0.1:" + brokerPort + "'], root: plant}\n"
                        + "write-permits:\n" + permits);
    }

    /** What a permitted register or coil holds by now. */
    int holds(AskTarget target) {
        return Objects.requireNonNull(images.get(target.unit()))
                .read(target.load() ? ModbusTable.HOLDING_REGISTER : ModbusTable.COIL, target.address(), 1)
                .orElseThrow()[0];
    }

    List<WrittenFrame> frames() {
        return device.written();
    }

    @Override
    public void close() {
        device.close();
    }
}
