package burnerbridge.write.approval;

import burnerbridge.site.AddressRange;
import burnerbridge.site.AlarmDefinition;
import burnerbridge.site.BacnetOptions;
import burnerbridge.site.BacnetSettings;
import burnerbridge.site.Bindings;
import burnerbridge.site.Condition;
import burnerbridge.site.Consistency;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Limits;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Meaning;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.Name;
import burnerbridge.site.ObjectKind;
import burnerbridge.site.ObjectNames;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.PointFormat.CalendarField;
import burnerbridge.site.PointId;
import burnerbridge.site.PointOptions;
import burnerbridge.site.ReadLimits;
import burnerbridge.site.ReadRules;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Role;
import burnerbridge.site.Scaling;
import burnerbridge.site.Severity;
import burnerbridge.site.Site;
import burnerbridge.site.StateNumbers;
import burnerbridge.site.States;
import burnerbridge.site.TypeOptions;
import burnerbridge.site.UnitId;
import burnerbridge.site.WebSettings;
import burnerbridge.site.WordOrder;
import burnerbridge.site.permit.AddressBlock;
import burnerbridge.site.permit.Allowed;
import burnerbridge.site.permit.Askers;
import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.Silence;
import burnerbridge.site.permit.Storage;
import burnerbridge.site.permit.WritePermit;
import burnerbridge.site.unit.Basis;
import burnerbridge.site.unit.Linear;
import burnerbridge.site.unit.Unit;
import java.math.BigDecimal;
import java.net.URI;
import java.nio.file.Path;
import java.time.Duration;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;

/** A site in which everything that can be said is said somewhere, of controllers that permits concern. */
final class RichSite {
    static final Name BOILER = new Name("boiler-1");
    static final Map<Name, String> IDENTITIES = Map.of(
            BOILER,
            "SN-1",
            new Name("boiler-2"),
            "SN-2",
            new Name("boiler-3"),
            "SN-3",
            new Name("beside-boiler-1"),
            "SN-4");
    private static final ZoneId ZONE = ZoneId.of("Europe/Lisbon");
    private static final Duration SECONDS = Duration.ofSeconds(2);

    private RichSite() {}

    static Site site() {
        return new Site(
                new Name("quillmere"),
                "invented",
                Optional.of("pt"),
                ZONE,
                lines(),
                List.of(
                        controller(0, "boiler-1", "annex", 1, rows()),
                        controller(1, "boiler-2", "house", 2, rows().subList(0, 3)),
                        controller(2, "boiler-3", "cellar", 3, rows().subList(0, 3)),
                        controller(3, "beside-boiler-1", "annex", 1, rows().subList(4, 5))),
                List.of(),
                bindings(),
                Optional.of(bacnet()),
                Optional.of(mqtt()),
                permits(),
                Optional.of(new WebSettings(
                        "127.0.0.1", 9311, Optional.of(new WebSettings.TokenPlace.InFile(Path.of("/run/web"))))));
    }

    private static List<LineDefinition> lines() {
        return List.of(
                line("annex", new LineDefinition.Tcp("127.0.0.1", 1502)),
                line("house", new LineDefinition.RtuOverTcp("127.0.0.1", 7001, 19_200)),
                line(
                        "cellar",
                        new LineDefinition.Serial(
                                "/dev/ttyUSB0",
                                9600,
                                LineDefinition.Parity.EVEN,
                                1,
                                LineDefinition.Rs485.AUTO,
                                false)));
    }

    private static LineDefinition line(String name, LineDefinition.Endpoint endpoint) {
        return new LineDefinition(new Name(name), endpoint, Duration.ofSeconds(1), Duration.ofSeconds(3));
    }

    private static ControllerDefinition controller(
            int ordinal, String name, String line, int unit, List<PointDefinition> rows) {
        AddressRange range = new AddressRange(RegisterTable.HOLDING_REGISTER, 400, 519);
        AddressRange other = new AddressRange(RegisterTable.INPUT_REGISTER, 600, 640);
        ReadRules rules = new ReadRules(
                false,
                new ReadLimits(32, List.of(new ReadLimits.InRange(range, 8))),
                Duration.ofMillis(20),
                List.of(other),
                List.of(range));
        TypeOptions options = new TypeOptions(
                Optional.of(new Name("serial-number")),
                Optional.of(Duration.ofMinutes(1)),
                List.of(new TypeOptions.Stated("holding-register 401-520", range)),
                List.of(new TypeOptions.Stated("input-register 601-641", other)),
                true);
        return new ControllerDefinition(
                ordinal,
                new Name(name),
                new Name(line),
                new UnitId(unit),
                new ControllerType(new Name("hot-water"), rows, rules, options),
                1000 * (ordinal + 1),
                false,
                0);
    }

    private static List<PointDefinition> rows() {
        List<PointDefinition> rows = new ArrayList<>();
        rows.add(row("load-demand", Role.DEMAND, PointFormat.UINT16, Consistency.ONE_READ, PointOptions.NONE));
        rows.add(row("enable", Role.ENABLE, PointFormat.UINT16, Consistency.ONE_READ, PointOptions.NONE));
        rows.add(row("beat", Role.HEARTBEAT, PointFormat.UINT16, Consistency.ONE_READ, PointOptions.NONE));
        rows.add(row(
                "load-limit",
                Role.SETTING,
                PointFormat.INT16,
                new Consistency(
                        true, OptionalInt.of(30), Optional.of(new Name("limits")), Optional.of(new Name("scale"))),
                new PointOptions(
                        Optional.of(Meaning.FIRING_RATE),
                        Optional.of(new Condition(new Name("phase"), Set.of(5L, 6L))),
                        Optional.of("{controller} limit"),
                        false,
                        Optional.of(new AlarmDefinition.OfLimit(
                                AlarmDefinition.Kind.HIGH,
                                new BigDecimal("95"),
                                new BigDecimal("2"),
                                Duration.ofSeconds(30))))));
        rows.add(row(
                "phase",
                Role.STATUS,
                new PointFormat.HalfRegister(true, false),
                Consistency.ONE_READ,
                new PointOptions(
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        false,
                        Optional.of(new AlarmDefinition.OfStates(
                                AlarmDefinition.Kind.LOCKOUT, Set.of(7L), Duration.ZERO)))));
        List<PointFormat> formats = List.of(
                new PointFormat.Bit(),
                new PointFormat.RegisterBit(3, 4),
                new PointFormat.BitField(2, 3, "bits:3-5"),
                new PointFormat.SignMagnitude16(),
                new PointFormat.Bcd(1, WordOrder.HIGH_WORD_FIRST),
                new PointFormat.DecimalWords(2, WordOrder.HIGH_WORD_FIRST),
                new PointFormat.Floating(32, WordOrder.HIGH_WORD_FIRST),
                new PointFormat.Text(8, WordOrder.HIGH_WORD_FIRST),
                new PointFormat.Epoch32(WordOrder.HIGH_WORD_FIRST, ZONE),
                new PointFormat.Calendar(
                        List.of(List.of(CalendarField.DAY, CalendarField.MONTH), List.of(CalendarField.YEAR)),
                        false,
                        "datetime:dm,y"));
        for (PointFormat format : formats) {
            rows.add(row("p-" + rows.size(), Role.MEASUREMENT, format, Consistency.ONE_READ, PointOptions.NONE));
        }
        return rows;
    }

    private static PointDefinition row(
            String name, Role role, PointFormat format, Consistency consistency, PointOptions options) {
        return new PointDefinition(
                new Name(name),
                "what it is",
                RegisterTable.HOLDING_REGISTER,
                100,
                "101",
                format,
                new Scaling(new Linear(new BigDecimal("0.1"), new BigDecimal("2"), new BigDecimal("3")), 1),
                Unit.of("%"),
                role,
                SECONDS,
                Duration.ofSeconds(10),
                new States(Map.of(0L, "off", 1L, "on"), Map.of(1L, Severity.WARNING)),
                new BigDecimal("0.5"),
                ObjectKind.ANALOG_VALUE,
                new Limits(
                        Set.of(new BigDecimal("65535")),
                        Optional.of(new Limits.Range(BigDecimal.ZERO, new BigDecimal("100")))),
                consistency,
                new Basis(Set.of(Basis.Word.GAUGE)),
                options);
    }

    private static Bindings bindings() {
        return new Bindings(List.of(
                new Bindings.Binding(new Name("hot-water"), new Name("load-demand"), ObjectKind.ANALOG_VALUE, 1),
                new Bindings.Binding(
                        new Name("hot-water"), new Name("load-demand-request"), ObjectKind.ANALOG_VALUE, 7),
                new Bindings.Binding(
                        new Name("hot-water"),
                        new Name("enable"),
                        ObjectKind.MULTI_STATE_VALUE,
                        2,
                        new StateNumbers(Map.of(0L, 1, 1L, 2)))));
    }

    private static BacnetSettings bacnet() {
        return new BacnetSettings(
                711_001,
                "plant",
                "127.0.0.1",
                47_808,
                Optional.of("127.0.0.255"),
                0,
                new BacnetOptions(
                        false,
                        ObjectNames.USUAL,
                        Optional.of(new BacnetOptions.Registration("192.0.2.9", 47_808, 300)),
                        200,
                        500,
                        false));
    }

    private static MqttSettings mqtt() {
        return new MqttSettings(
                List.of(URI.create("tls://broker.example:8883"), URI.create("tcp://127.0.0.1:1883")),
                "plant",
                MqttSettings.Version.V5,
                Optional.of("box"),
                Optional.of("keeper"),
                Optional.of(Path.of("/etc/password")),
                new MqttSettings.Tls(
                        Optional.of(Path.of("/etc/ca.pem")),
                        Optional.of(Path.of("/etc/own.pem")),
                        Optional.of(Path.of("/etc/own.key"))));
    }

    private static AddressBlock block(String text) {
        return AddressBlock.parse(text).orElseThrow();
    }

    private static List<WritePermit> permits() {
        return List.of(
                permit(
                        "boiler-1.load-demand",
                        new Purpose.Asked(
                                new Askers(List.of(block("192.0.2.0/24"), block("198.51.100.7")), true),
                                new Allowed.Range(new BigDecimal("20"), new BigDecimal("90")),
                                Optional.of(BigDecimal.TEN),
                                Duration.ofMinutes(1),
                                12,
                                Optional.of(new Silence(
                                        Duration.ofMinutes(15), new Silence.Action.Write(new BigDecimal("20")))))),
                permit(
                        "boiler-2.enable",
                        new Purpose.Asked(
                                new Askers(List.of(block("192.0.2.0/24")), false),
                                new Allowed.States(Set.of(0L, 1L)),
                                Optional.empty(),
                                Duration.ofMinutes(1),
                                11,
                                Optional.of(new Silence(Duration.ofMinutes(15), new Silence.Action.Release())))),
                permit("boiler-3.beat", new Purpose.Beat(Duration.ofSeconds(5), new Purpose.Pattern.Count(99))),
                permit("boiler-1.beat", new Purpose.Beat(Duration.ofSeconds(5), new Purpose.Pattern.Toggle())));
    }

    private static WritePermit permit(String point, Purpose purpose) {
        String[] names = point.split("\\.", 2);
        return new WritePermit(
                new PointId(new Name(names[0]), new Name(names[1])),
                purpose,
                6,
                Storage.nonVolatile(100_000),
                "the plant optimiser");
    }
}
