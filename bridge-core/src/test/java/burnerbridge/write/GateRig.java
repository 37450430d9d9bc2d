package burnerbridge.write;

import burnerbridge.decode.Decoder;
import burnerbridge.line.Outcome;
import burnerbridge.model.HandClock;
import burnerbridge.model.Reading;
import burnerbridge.model.Registers;
import burnerbridge.model.TextValue;
import burnerbridge.site.AddressRange;
import burnerbridge.site.Bindings;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.ControllerType;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.PointId;
import burnerbridge.site.Points;
import burnerbridge.site.ReadRules;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.Role;
import burnerbridge.site.Scaling;
import burnerbridge.site.Site;
import burnerbridge.site.SitePoint;
import burnerbridge.site.States;
import burnerbridge.site.TypeOptions;
import burnerbridge.site.UnitId;
import burnerbridge.site.WordOrder;
import burnerbridge.site.permit.AddressBlock;
import burnerbridge.site.permit.Allowed;
import burnerbridge.site.permit.Askers;
import burnerbridge.site.permit.Functions;
import burnerbridge.site.permit.Purpose;
import burnerbridge.site.permit.Silence;
import burnerbridge.site.permit.Storage;
import burnerbridge.site.permit.WritePermit;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ValueTable;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Source;
import burnerbridge.write.ask.Wanted;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Consumer;

/** A gate before two units of one line, with a clock that a test moves, and a disk that forgets what was not forced. */
final class GateRig {
    static final Name LINE = new Name("annex");
    static final PointId LOAD = id("boiler-1", "load-demand");
    static final PointId ENABLE = id("boiler-1", "enable");
    static final PointId MODE = id("boiler-1", "mode");
    static final PointId BEAT = id("boiler-1", "beat");
    static final PointId LIMIT = id("boiler-1", "high-limit");
    static final PointId OTHER_LOAD = id("boiler-2", "load-demand");
    static final Source.Bacnet STATION = new Source.Bacnet(0xC0000207, 47808, 0);
    static final Source.Mqtt OPTIMISER = new Source.Mqtt("plant optimiser");
    static final Duration LEASE = Duration.ofMinutes(15);
    static final Duration INTERVAL = Duration.ofSeconds(60);
    static final long LIFETIME = 100_000;

    final HandClock clock = new HandClock();
    final RecordingUnit unit = new RecordingUnit(clock);
    final Kept kept;
    final Site site;
    final ValueTable table;
    final GateKeeping keeping;
    final WriteGate gate;
    final LineWriter writer;
    final List<WriteEvent> events = new ArrayList<>();

    GateRig() {
        this(new Kept(), site(usualPermits()), true);
    }

    GateRig(Kept kept, Site site, boolean approved) {
        this(kept, site, approved, unit -> {
            unit.set(1, RegisterTable.HOLDING_REGISTER, 100, 0x5331);
            unit.set(2, RegisterTable.HOLDING_REGISTER, 100, 0x5332);
            unit.set(1, RegisterTable.HOLDING_REGISTER, 44, 300);
            unit.set(2, RegisterTable.HOLDING_REGISTER, 44, 300);
        });
    }

    /** The bridge ends without a word and is started again; the units go on. */
    GateRig restarted(boolean approved) {
        return new GateRig(kept, site, approved, unit::goOnIn);
    }

    private GateRig(Kept kept, Site site, boolean approved, Consumer<RecordingUnit> units) {
        this.kept = kept;
        this.site = site;
        this.table = new ValueTable(site.points(), site.owners());
        this.keeping =
                kept.open(clock, site.permits().stream().map(WritePermit::point).toList());
        Authority authority = approved
                ? new Authority(
                        Optional.of("a hash"), "", Map.of(new Name("boiler-1"), "S1", new Name("boiler-2"), "S2"))
                : Authority.none("no person has approved it yet");
        PermitBook book = new PermitBook(site, (u, guard) -> guard);
        Identities identities = new Identities(table);
        this.gate = new WriteGate(book, authority, keeping, identities, table, clock, events::add);
        this.writer = new LineWriter(
                LINE, gate, keeping, unit.line(), new IdentityCheck(gate, identities, table, clock), clock);
        units.accept(unit);
        for (ControllerDefinition controller : site.controllers()) {
            table.publish(controller, ControllerLink.up(clock.now()));
        }
        poll();
    }

    /** A rig in which enough time has passed since the start for the first write. */
    static GateRig ready() {
        GateRig rig = new GateRig();
        rig.forward(INTERVAL);
        return rig;
    }

    static PointId id(String controller, String point) {
        return new PointId(new Name(controller), new Name(point));
    }

    static Site site(List<WritePermit> permits) {
        return site(permits, Optional.empty());
    }

    /** @param watchdog after which the controllers let a demand go */
    static Site site(List<WritePermit> permits, Optional<Duration> watchdog) {
        List<ControllerDefinition> controllers =
                List.of(controller(0, "boiler-1", 1, watchdog), controller(1, "boiler-2", 2, watchdog));
        return new Site(
                        new Name("quillmere"),
                        "",
                        ZoneOffset.UTC,
                        List.of(Points.line()),
                        controllers,
                        Bindings.NONE,
                        Optional.empty(),
                        Optional.empty())
                .with(permits);
    }

    /** A site as the loader would never let it pass: a setting with a permit, and another name of a protected register. */
    static Site mistyped() {
        List<WritePermit> permits = new ArrayList<>(usualPermits());
        permits.add(load(LIMIT));
        permits.add(load(id("boiler-1", "alias")));
        return site(permits);
    }

    private static ControllerDefinition controller(int ordinal, String name, int unit, Optional<Duration> watchdog) {
        return new ControllerDefinition(
                ordinal, new Name(name), LINE, new UnitId(unit), type(watchdog), 1000 * (ordinal + 1), false, 0);
    }

    private static ControllerType type(Optional<Duration> watchdog) {
        PointDefinition alias = Points.as(Role.DEMAND, Points.uint16("alias", 6));
        PointDefinition load = Points.as(
                Role.DEMAND,
                Points.point(
                        "load-demand",
                        RegisterTable.HOLDING_REGISTER,
                        44,
                        PointFormat.UINT16,
                        Points.scale("0.1", "0"),
                        States.NONE));
        PointDefinition enable = Points.as(
                Role.ENABLE,
                Points.point("enable", RegisterTable.COIL, 16, new PointFormat.Bit(), Scaling.NONE, States.NONE));
        PointDefinition mode = Points.as(
                Role.MODE,
                Points.point(
                        "mode",
                        RegisterTable.HOLDING_REGISTER,
                        46,
                        new PointFormat.BitField(4, 2, "bits:4-5"),
                        Scaling.NONE,
                        new States(Map.of(0L, "off", 1L, "low", 2L, "high"))));
        PointDefinition beat = Points.as(Role.HEARTBEAT, Points.uint16("beat", 48));
        PointDefinition limit = Points.as(Role.SAFETY_SETTING, Points.uint16("high-limit", 6));
        PointDefinition serial = Points.as(
                Role.IDENTITY,
                Points.point(
                        "serial",
                        RegisterTable.HOLDING_REGISTER,
                        100,
                        new PointFormat.Text(1, WordOrder.HIGH_WORD_FIRST),
                        Scaling.NONE,
                        States.NONE));
        TypeOptions options = new TypeOptions(
                Optional.of(new Name("serial")),
                watchdog,
                List.of(),
                List.of(new TypeOptions.Stated(
                        "holding-register 1-40", new AddressRange(RegisterTable.HOLDING_REGISTER, 0, 39))),
                true);
        return new ControllerType(
                new Name("hot-water"),
                List.of(load, enable, mode, beat, limit, serial, alias),
                ReadRules.NONE,
                options);
    }

    static List<WritePermit> usualPermits() {
        return List.of(load(LOAD), enable(), mode(), load(OTHER_LOAD));
    }

    static List<WritePermit> permitsWithBeat() {
        List<WritePermit> all = new ArrayList<>(usualPermits());
        all.add(new WritePermit(
                BEAT,
                new Purpose.Beat(Duration.ofSeconds(2), new Purpose.Pattern.Count(3)),
                Functions.SINGLE_REGISTER,
                Storage.VOLATILE,
                "tells the burner that the plant above is there"));
        return all;
    }

    static WritePermit load(PointId point) {
        return load(point, new Silence.Action.Write(new BigDecimal("20")));
    }

    static WritePermit load(PointId point, Silence.Action action) {
        return new WritePermit(
                point,
                new Purpose.Asked(
                        askers(),
                        new Allowed.Range(new BigDecimal("20"), new BigDecimal("90")),
                        Optional.of(new BigDecimal("10")),
                        INTERVAL,
                        12,
                        Optional.of(new Silence(LEASE, action))),
                Functions.SINGLE_REGISTER,
                Storage.nonVolatile(LIFETIME),
                "summer demand from the plant optimiser");
    }

    private static WritePermit enable() {
        return asked(ENABLE, new Allowed.States(Set.of(0L, 1L)), Functions.SINGLE_COIL, "0");
    }

    private static WritePermit mode() {
        return asked(MODE, new Allowed.States(Set.of(0L, 1L)), Functions.MASK, "0");
    }

    private static WritePermit asked(PointId point, Allowed allowed, int function, String silence) {
        return new WritePermit(
                point,
                new Purpose.Asked(
                        askers(),
                        allowed,
                        Optional.empty(),
                        INTERVAL,
                        12,
                        Optional.of(new Silence(LEASE, new Silence.Action.Write(new BigDecimal(silence))))),
                function,
                Storage.VOLATILE,
                "the plant above");
    }

    private static Askers askers() {
        return new Askers(List.of(AddressBlock.parse("192.0.2.0/24").orElseThrow()), true);
    }

    /** A controller says who it is. */
    static void identify(ValueTable table, HandClock clock, String controller, String identity) {
        for (SitePoint point : table.points()) {
            if (point.id().equals(id(controller, "serial"))) {
                table.publish(
                        point,
                        Reading.good(
                                new TextValue(identity),
                                clock.now(),
                                Registers.of(identity.charAt(0) << 8 | identity.charAt(1))));
            }
        }
    }

    Decision ask(PointId point, String value) {
        return ask(point, value, 8);
    }

    Decision ask(PointId point, String value, int slot) {
        return gate.ask(new Ask(point, new Wanted.Number(new BigDecimal(value)), slot, STATION));
    }

    Decision giveUp(PointId point, int slot) {
        return gate.ask(new Ask(point, new Wanted.Nothing(), slot, STATION));
    }

    /** Slot 8 of the first demand has just had 34 written, and 38 waits behind it in slot 12. */
    void oneBehindTheWinner() {
        ask(LOAD, "35", 8);
        work();
        forward(INTERVAL);
        ask(LOAD, "38", 12);
        ask(LOAD, "34", 8);
        work();
    }

    /** What the line's thread does: everything that waits. */
    void work() {
        for (OptionalLong ready = writer.readyAt(clock.ticks());
                ready.isPresent() && ready.getAsLong() - clock.ticks() <= 0;
                ready = writer.readyAt(clock.ticks())) {
            writer.run();
        }
    }

    /** Lets time pass as the gate's and the line's thread would see it. */
    void forward(Duration time) {
        long end = clock.ticks() + time.toNanos();
        while (end - clock.ticks() > 0) {
            clock.forward(Duration.ofNanos(Math.min(Duration.ofMillis(200).toNanos(), end - clock.ticks())));
            gate.step(clock.ticks());
            work();
        }
    }

    /** A controller is found to be there, or not to be. */
    void link(String controller, boolean up) {
        ControllerDefinition one = site.controllers().stream()
                .filter(each -> each.name().text().equals(controller))
                .findFirst()
                .orElseThrow();
        table.publish(
                one,
                up
                        ? ControllerLink.up(clock.now())
                        : ControllerLink.down(ControllerLink.Cause.NO_REPLY, "no reply", clock.now()));
    }

    /** Reads every point of units that answer, as the poller would. */
    void poll() {
        for (SitePoint point : site.points()) {
            if (unit.read(LineWriter.request(point)) instanceof Outcome.Answered answered) {
                table.publish(
                        point,
                        Decoder.decode(point.definition(), answered.data(), answered.askedAt(), table.reading(point)));
            }
        }
        unit.reads.clear();
        gate.step(clock.ticks());
    }

    int register(int of, int address) {
        return unit.get(of, RegisterTable.HOLDING_REGISTER, address);
    }

    List<WriteEvent.Kind> kinds() {
        return events.stream().map(WriteEvent::kind).toList();
    }

    Reading reading(PointId id) {
        return site.points().stream()
                .filter(point -> point.id().equals(id))
                .map(table::reading)
                .findFirst()
                .orElseThrow();
    }
}
