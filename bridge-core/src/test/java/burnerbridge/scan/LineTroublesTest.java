package burnerbridge.scan;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.health.Place;
import burnerbridge.health.Trouble;
import burnerbridge.health.Trouble.Weight;
import burnerbridge.line.Outcome;
import burnerbridge.line.ReadRequest;
import burnerbridge.line.diagnosis.Finding;
import burnerbridge.model.Reason;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Points;
import burnerbridge.site.UnitId;
import java.time.Duration;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;

class LineTroublesTest {
    private static final LineDefinition.Endpoint SERVER = new LineDefinition.RtuOverTcp("127.0.0.1", 7001, 9600);
    private static final LineDefinition.Endpoint TCP = new LineDefinition.Tcp("127.0.0.1", 1502);
    private static final LineDefinition.Endpoint SERIAL = new LineDefinition.Serial(
            "/dev/serial/by-id/adapter", 9600, LineDefinition.Parity.EVEN, 1, LineDefinition.Rs485.AUTO, false);
    private static final Duration A_WHILE = Duration.ofMinutes(1);

    private final ControllerDefinition one = Points.controller(0, "boiler-1", 1, Points.uint16("phase", 0));
    private final ControllerDefinition two = Points.controller(1, "boiler-2", 2, Points.uint16("phase", 0));

    private static Outcome silentFrom(WatchedLine line, int unit, ReadRequest request) {
        return request.unit().number() == unit ? new Outcome.Silent(line.clock.now()) : line.answered(request);
    }

    @Test
    void nothingIsWrongWithALineThatAnswers() {
        WatchedLine line = new WatchedLine(SERVER, one, two);
        line.runFor(A_WHILE);

        assertThat(line.troubles()).isEmpty();
    }

    @Test
    void aLineThatWasNotTriedYetHasNoTroubleToTell() {
        assertThat(new WatchedLine(SERVER, one, two).troubles()).isEmpty();
    }

    @Test
    void anAddressThatCannotBeConnectedIsOneTroubleOfTheNetwork() {
        WatchedLine line = new WatchedLine(SERVER, one, two);
        line.answer = request -> new Outcome.NotConnected("127.0.0.1:7001: Connection refused");
        line.runFor(A_WHILE);

        Trouble trouble = only(line);
        assertThat(trouble.place()).isEqualTo(Place.NETWORK);
        assertThat(trouble.sentence())
                .isEqualTo("line annex: is not connected: 127.0.0.1:7001: Connection refused; look at the address in"
                        + " site.yaml, the power of the device there, and the network between");
        assertThat(Objects.requireNonNull(trouble.since()).ageAt(line.clock.ticks()))
                .as("since the first try, not the last")
                .isGreaterThanOrEqualTo(A_WHILE.minusSeconds(10).toNanos());
    }

    @Test
    void aPortThatIsNotThereIsOneOfTheCable() {
        WatchedLine line = new WatchedLine(SERIAL, one);
        line.answer = request -> new Outcome.NotConnected("/dev/serial/by-id/adapter: there is no such port");
        line.runFor(A_WHILE);

        assertThat(only(line).place()).isEqualTo(Place.CABLE);
        assertThat(only(line).lookAt()).contains("the adapter, its plug");
    }

    @Test
    void oneControllerThatIsSilentWhileOthersAreHeardIsOneOfItsOwn() {
        WatchedLine line = new WatchedLine(SERVER, one, two);
        line.answer = request -> silentFrom(line, 1, request);
        line.findings.add(
                new Finding(Finding.Kind.UNIT_SILENT, new UnitId(1), "none of 5 was answered", "its power first"));
        line.runFor(A_WHILE);

        Trouble trouble = only(line);
        assertThat(trouble.place()).isEqualTo(Place.BURNER);
        assertThat(trouble.about()).isEqualTo("controller boiler-1");
        assertThat(trouble.lookAt()).isEqualTo("its power first");
        assertThat(trouble.weight()).isEqualTo(Weight.DEGRADED);
    }

    @Test
    void allThatAreSilentAtOnceAreOneTroubleOfTheCable() {
        WatchedLine line = new WatchedLine(SERVER, one, two);
        line.answer = request -> new Outcome.Silent(line.clock.now());
        line.findings.add(new Finding(Finding.Kind.NOTHING_HEARD, null, "nothing was heard", "power, A and B"));
        line.runFor(A_WHILE);

        Trouble trouble = only(line);
        assertThat(trouble.place()).isEqualTo(Place.CABLE);
        assertThat(trouble.seen()).isEqualTo("none of its 2 controllers answers");
        assertThat(trouble.lookAt()).isEqualTo("power, A and B");
    }

    @Test
    void theOneControllerBehindItsOwnAddressIsLookedForInItself() {
        WatchedLine line = new WatchedLine(TCP, one);
        line.answer = request -> new Outcome.Silent(line.clock.now());
        line.runFor(A_WHILE);

        assertThat(only(line).place()).isEqualTo(Place.BURNER);
    }

    @Test
    void whatTheLineShowsIsToldWithWhatToLookAt() {
        WatchedLine line = new WatchedLine(SERVER, one, two);
        line.runFor(A_WHILE);
        line.findings.add(new Finding(Finding.Kind.SECOND_MASTER, null, "requests that are not ours", "who else asks"));

        assertThat(only(line).place()).isEqualTo(Place.CABLE);
        assertThat(only(line).sentence()).isEqualTo("line annex: requests that are not ours; look at who else asks");
    }

    @Test
    void refusedRowsOfAControllerAreOneTroubleOfTheSiteFolder() {
        WatchedLine line = new WatchedLine(
                SERVER, Points.controller(0, "boiler-1", 1, Points.uint16("phase", 0), Points.uint16("nowhere", 900)));
        line.answer =
                request -> request.first() == 900 ? new Outcome.Refused(2, line.clock.now()) : line.answered(request);
        line.runFor(A_WHILE);

        List<Trouble> troubles = WatchedLine.of(new PointTroubles(line.table, line.clock));
        assertThat(troubles).hasSize(1);
        assertThat(troubles.get(0).place()).isEqualTo(Place.SITE);
        assertThat(troubles.get(0).sentence())
                .isEqualTo("controller boiler-1: nowhere is refused by the controller; look at table, address and"
                        + " numbering of the rows, beside the manual");
        assertThat(line.table.reading(line.table.points().get(1)).reason()).isEqualTo(Reason.REFUSED);
    }

    private static Trouble only(WatchedLine line) {
        List<Trouble> troubles = line.troubles();
        assertThat(troubles).hasSize(1);
        return troubles.get(0);
    }
}
