package burnerbridge.values;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import burnerbridge.control.ControlClient;
import burnerbridge.control.ControlException;
import burnerbridge.control.ControlServer;
import burnerbridge.control.Greeting;
import burnerbridge.control.Reply;
import burnerbridge.control.Request;
import burnerbridge.model.HandClock;
import burnerbridge.model.IntegerValue;
import burnerbridge.model.Quality;
import burnerbridge.model.Reading;
import burnerbridge.model.Reason;
import burnerbridge.model.Registers;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointId;
import burnerbridge.site.Points;
import burnerbridge.site.SitePoint;
import burnerbridge.table.ControllerLink;
import burnerbridge.table.ValueTable;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The rows of a running bridge are those of its table, and only what changed is sent again. */
class RemoteRowsIT {
    private static final ControllerDefinition BOILER = Points.controller(
            0,
            "boiler-1",
            1,
            IntStream.range(0, 500).mapToObj(i -> Points.uint16("p" + i, i)).toArray(PointDefinition[]::new));
    private static final List<SitePoint> POINTS = Points.of(BOILER);
    private static final Query ALL = new Query(List.of(), Set.of(), 0, Integer.MAX_VALUE);

    private final HandClock clock = new HandClock();
    private final ValueTable table = new ValueTable(POINTS, List.of(BOILER));
    private final Map<PointId, AskedFor> asked = new HashMap<>();
    private final TableRows own = new TableRows(table, point -> Optional.ofNullable(asked.get(point)), clock);
    private final List<Integer> positionsSent = new ArrayList<>();

    @TempDir
    @SuppressWarnings("NullAway.Init")
    private Path folder;

    @SuppressWarnings("NullAway.Init")
    private ControlServer server;

    @SuppressWarnings("NullAway.Init")
    private RemoteRows remote;

    @BeforeEach
    void start() throws Exception {
        Path socket = folder.resolve("control").resolve("socket");
        server = new ControlServer(
                socket,
                new Greeting("0.1.0", "quillmere", 1),
                Map.of(
                        ValuesHandler.NAME,
                        () -> new ValuesHandler(table, point -> Optional.ofNullable(asked.get(point)), clock)));
        server.start();
        remote = new RemoteRows(ControlClient.connect(socket), clock);
    }

    @AfterEach
    void end() {
        remote.close();
        server.close();
    }

    private void read(int point, int value) {
        Registers raw = Registers.of(value);
        table.publish(POINTS.get(point), Reading.good(IntegerValue.of(value), clock.now(), raw));
    }

    private static List<PointRow> rows(RowSource source, Query query) throws ControlException {
        List<PointRow> rows = new ArrayList<>();
        Summary summary = source.read(query, rows::add);
        assertThat(summary.points()).isGreaterThanOrEqualTo(summary.rows());
        return rows;
    }

    private void assertSame(Query query) throws ControlException {
        assertThat(rows(remote, query)).isEqualTo(rows(own, query));
        assertThat(remote.read(query, row -> {})).isEqualTo(own.read(query, row -> {}));
    }

    @Test
    void theRowsOfTheBridgeAreThoseOfItsTable() throws Exception {
        read(3, 42);
        clock.forward(Duration.ofSeconds(2));
        read(4, 43);
        assertSame(ALL);
        clock.forward(Duration.ofSeconds(3));
        read(4, 44);
        table.publish(POINTS.get(5), Reading.refused(2, clock.now(), Reading.notReadYet()));
        assertSame(ALL);
        assertSame(new Query(List.of("*.p4*"), Set.of(), 2, 7));
        assertSame(new Query(List.of(), Set.of(Quality.GOOD), 0, 50));
        // A row that is no longer chosen moves those behind it up.
        table.publish(POINTS.get(3), Reading.bad(Reason.NO_SENSOR, clock.now(), Registers.of(0), Reading.notReadYet()));
        assertSame(new Query(List.of(), Set.of(Quality.GOOD), 0, 50));
    }

    @Test
    void whoAsksForWhatIsThatOfTheBridge() throws Exception {
        read(3, 42);
        asked.put(POINTS.get(3).id(), asked(AskedFor.State.STANDS, OptionalLong.empty()));
        asked.put(POINTS.get(4).id(), asked(AskedFor.State.WAITS, OptionalLong.of(99_000)));
        asked.put(
                POINTS.get(5).id(),
                new AskedFor(
                        AskedFor.State.ASLEEP,
                        0,
                        null,
                        "",
                        null,
                        "another writer",
                        Duration.ZERO,
                        OptionalLong.empty()));
        assertSame(ALL);
        clock.forward(Duration.ofSeconds(3));
        asked.replaceAll((point, before) -> before.later(Duration.ofSeconds(3)));
        asked.put(POINTS.get(3).id(), asked(AskedFor.State.FAILED, OptionalLong.empty()));
        List<PointRow> rows = rows(remote, ALL);
        assertThat(rows).isEqualTo(rows(own, ALL));
        assertThat(rows.get(3).asked()).isNotNull().extracting(AskedFor::state).isEqualTo(AskedFor.State.FAILED);
    }

    private static AskedFor asked(AskedFor.State state, OptionalLong left) {
        return new AskedFor(
                state,
                8,
                new PointRow.Shown(new java.math.BigDecimal("35.5"), "35.5"),
                "bacnet 192.0.2.7:47808",
                Duration.ofMillis(893_120),
                state == AskedFor.State.STANDS ? "" : "the cable is out",
                Duration.ofSeconds(12),
                left);
    }

    @Test
    void aControllerThatDoesNotAnswerIsNamed() throws Exception {
        assertThat(remote.read(ALL, row -> {}).waiting()).isEqualTo(500);
        table.publish(BOILER, ControllerLink.down(ControllerLink.Cause.NO_REPLY, "no reply to it", clock.now()));
        Summary summary = remote.read(ALL, row -> {});
        assertThat(summary.waiting()).isZero();
        assertThat(summary.down()).containsExactly("boiler-1: no-reply: no reply to it");
        assertThat(summary.downCount()).isEqualTo(1);
    }

    @Test
    void onlyWhatWasReadAnewIsSentAgain() throws Exception {
        ValuesHandler handler = new ValuesHandler(table, point -> Optional.ofNullable(asked.get(point)), clock);
        assertThat(sent(handler, 0)).hasSize(500);
        assertThat(sent(handler, 1)).isEmpty();
        read(7, 1);
        assertThat(sent(handler, 2)).containsExactly(7);
        // Of another reply, or of none, the bridge cannot know what is still there.
        assertThat(sent(handler, 1)).hasSize(500);
        assertThat(sent(handler, 0)).hasSize(500);
    }

    private List<Integer> sent(ValuesHandler handler, int since) throws Exception {
        positionsSent.clear();
        Map<String, Object> arguments = new HashMap<>(Map.of("since", java.math.BigDecimal.valueOf(since)));
        Reply reply = members -> {
            String line = burnerbridge.control.JsonLine.object(members);
            if (burnerbridge.control.JsonLine.parse(line).get("position") instanceof java.math.BigDecimal position) {
                positionsSent.add(position.intValueExact());
            }
        };
        handler.answer(new Request("values", new HashMap<>(arguments)), reply);
        return List.copyOf(positionsSent);
    }

    @Test
    void aBridgeThatEndsIsTold() throws Exception {
        remote.read(ALL, row -> {});
        server.close();
        assertThatThrownBy(() -> remote.read(ALL, row -> {}))
                .isInstanceOf(ControlException.class)
                .hasMessageContaining("the running bridge");
    }
}
