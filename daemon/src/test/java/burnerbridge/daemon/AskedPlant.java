package burnerbridge.daemon;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.config.SiteFolder;
import burnerbridge.model.BridgeClock;
import burnerbridge.simulator.device.Door;
import burnerbridge.simulator.device.FieldDevice;
import burnerbridge.simulator.device.WrittenFrame;
import burnerbridge.simulator.modbus.AcceptingImage;
import burnerbridge.simulator.modbus.ModbusTable;
import burnerbridge.simulator.modbus.UnknownUnit;
import burnerbridge.site.Name;
import burnerbridge.site.PointId;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.permit.WritePermit;
import burnerbridge.table.ValueTable;
import burnerbridge.write.Gatehouse;
import burnerbridge.write.WriteEvent;
import burnerbridge.write.store.Disk;
import java.io.IOException;
import java.net.InetAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CopyOnWriteArrayList;
import org.awaitility.Awaitility;

/**
 * Many units on one line over Modbus TCP, each of which would take any register and coil whatever, and counts every frame
 * that is no read; before them lines and gate as the bridge has them. Of each unit one demand may be written: 20 to 90 %
 * by steps of 10, once a second.
 */
final class AskedPlant implements AutoCloseable {
    static final int LOAD = 44;
    static final int SERIAL = 100;
    private static final Duration LONGEST = Duration.ofSeconds(120);
    private static final String LIST = """
            name,table,address,format,scale,unit,role,every,source
            load-demand,holding-register,45,uint16,0.1,%,demand,1 s,p. 1
            high-limit,holding-register,7,uint16,,°C,safety-setting,,p. 2
            alias,holding-register,7,uint16,,,demand,,p. 2
            serial,holding-register,101,uint16,,,identity,1 s,p. 3
            """;

    final FieldDevice device;
    private final Map<Integer, AcceptingImage> images = new LinkedHashMap<>();
    final BridgeClock clock = new MachineClock();
    final Site site;
    final ValueTable table;
    final Gatehouse gate;
    final List<WriteEvent> events = new CopyOnWriteArrayList<>();
    private final StopStack started = new StopStack();

    /** @param permits of more points than the demands, which the loader would not let pass */
    AskedPlant(Path folder, Disk disk, int units, List<WritePermit> permits) throws IOException {
        for (int unit = 1; unit <= units; unit++) {
            images.put(unit, made(unit));
        }
        device = new FieldDevice(new Door.ModbusTcp(InetAddress.getLoopbackAddress(), 0), images, UnknownUnit.SILENT);
        device.start();
        Files.writeString(folder.resolve("plain.csv"), LIST);
        Files.writeString(folder.resolve("site.yaml"), yaml(units, device.port()));
        SiteFolder loaded = SiteFolder.load(folder);
        assertThat(loaded.problems()).noneMatch(problem -> problem.isError());
        Site read = loaded.site().orElseThrow();
        List<WritePermit> all = new ArrayList<>(read.permits());
        all.addAll(permits);
        site = read.with(all);
        table = new ValueTable(site.points(), site.owners());
        gate = Gatehouse.open(site, disk, table, clock, events::add);
        started.push(gate::close);
        LineSide lines = new LineSide(site, table, clock, LineThreads.ofThisJava(), Optional.of(gate));
        started.push(lines);
        lines.start();
        DutyThread duty = new DutyThread("write gate", gate::step, clock);
        started.push(duty);
        duty.start();
        until(() -> gate.desk().identitiesNow().size() == units);
    }

    private static AcceptingImage made(int unit) {
        AcceptingImage image = new AcceptingImage(
                (table, address, count) -> Optional.of(new int[count]),
                List.of(
                        new AcceptingImage.Accepted(ModbusTable.HOLDING_REGISTER, 0, 0xFFFF),
                        new AcceptingImage.Accepted(ModbusTable.COIL, 0, 0xFFFF)));
        image.set(ModbusTable.HOLDING_REGISTER, LOAD, 500);
        image.set(ModbusTable.HOLDING_REGISTER, SERIAL, 1000 + unit);
        return image;
    }

    private static String yaml(int units, int port) {
        StringBuilder controllers = new StringBuilder();
        StringBuilder permits = new StringBuilder();
        for (int unit = 1; unit <= units; unit++) {
            controllers.append("  boiler-" + unit + ": {line: annex, unit: " + unit + ", type: plain}\n");
            permits.append("  - {point: boiler-" + unit + ".load-demand, from: {bacnet: [127.0.0.1]},"
                    + " range: 20..90, step: 10, interval: 1 s, "
                    + (unit == units ? "lifetime-writes: 3" : "storage: volatile")
                    + ", function: 6, silence-after: 1 h, on-silence: write 20, reason: a run}\n");
        }
        return "site: asked\ntime-zone: Europe/Lisbon\n"
                + "lines: {annex: {tcp: {host: 127.0.0.1, port: " + port + "}, reply-timeout: 500 ms}}\n"
                + "types:\n  plain: {points: plain.csv, numbering: data-model, tables: separate, identity: serial,"
                + " protected: [holding-register 1-10]}\n"
                + "controllers:\n" + controllers + "bacnet: {device-instance: 4711, bind: 127.0.0.1}\n"
                + "write-permits:\n" + permits;
    }

    static PointId load(int unit) {
        return new PointId(new Name("boiler-" + unit), new Name("load-demand"));
    }

    SitePoint point(PointId id) {
        return site.points().stream()
                .filter(point -> point.id().equals(id))
                .findFirst()
                .orElseThrow();
    }

    /** What a unit holds by now, whatever was read of it. */
    int register(int unit, int address) {
        return image(unit).read(ModbusTable.HOLDING_REGISTER, address, 1).orElseThrow()[0];
    }

    void set(int unit, int address, int word) {
        image(unit).set(ModbusTable.HOLDING_REGISTER, address, word);
    }

    private AcceptingImage image(int unit) {
        return Objects.requireNonNull(images.get(unit));
    }

    List<WrittenFrame> frames() {
        return device.written();
    }

    static void until(Callable<Boolean> is) {
        Awaitility.await()
                .pollDelay(Duration.ZERO)
                .pollInterval(Duration.ofMillis(5))
                .atMost(LONGEST)
                .until(is);
    }

    @Override
    public void close() {
        started.close();
        device.close();
    }
}
