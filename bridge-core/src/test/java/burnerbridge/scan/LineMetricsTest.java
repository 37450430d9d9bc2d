package burnerbridge.scan;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.line.Fault;
import burnerbridge.line.LineCounts;
import burnerbridge.line.Outcome;
import burnerbridge.line.ReplyShare;
import burnerbridge.measure.Samples;
import burnerbridge.site.LineDefinition;
import burnerbridge.site.Points;
import burnerbridge.site.UnitId;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

class LineMetricsTest {
    private final WatchedLine line = new WatchedLine(
            new LineDefinition.RtuOverTcp("127.0.0.1", 7001, 9600),
            Points.controller(0, "boiler-1", 1, Points.uint16("phase", 0)),
            Points.controller(1, "boiler-2", 2, Points.uint16("phase", 0)));

    private Samples samples() {
        return Samples.of(new LineMetrics(List.of(line.poller), line.table));
    }

    @Test
    void beforeTheFirstReadNothingIsConnectedAndNothingIsGood() {
        Samples samples = samples();

        assertThat(samples.value("burner_bridge_line_connected", "annex")).isZero();
        assertThat(samples.value("burner_bridge_controller_up", "annex", "boiler-1"))
                .isZero();
        assertThat(samples.value("burner_bridge_points", "bad")).isEqualTo(2);
        assertThat(samples.value("burner_bridge_points", "good")).isZero();
    }

    @Test
    void whoAnswersIsUpAndItsIntervalIsTheOneWanted() {
        line.answer =
                request -> request.unit().number() == 2 ? new Outcome.Silent(line.clock.now()) : line.answered(request);
        line.runFor(Duration.ofMinutes(2));
        Samples samples = samples();

        assertThat(samples.value("burner_bridge_line_connected", "annex")).isEqualTo(1);
        assertThat(samples.value("burner_bridge_controller_up", "annex", "boiler-1"))
                .isEqualTo(1);
        assertThat(samples.value("burner_bridge_controller_up", "annex", "boiler-2"))
                .isZero();
        assertThat(samples.value("burner_bridge_read_interval_seconds", "annex", "boiler-1", "2"))
                .isBetween(1.9, 2.1);
        assertThat(samples.value("burner_bridge_points", "good")).isEqualTo(1);
    }

    @Test
    void transactionsAreCountedByUnitAndByWhatBecameOfThem() {
        line.counts.put(
                new UnitId(1),
                new LineCounts(
                        100, 3, 7, Map.of(Fault.CHECKSUM, 5L), Map.of(), ReplyShare.NONE, ReplyShare.NONE, 2, 4));
        Samples samples = samples();

        assertThat(samples.value("burner_bridge_transactions", "annex", "1", "answered"))
                .isEqualTo(100);
        assertThat(samples.value("burner_bridge_transactions", "annex", "1", "refused"))
                .isEqualTo(3);
        assertThat(samples.value("burner_bridge_transactions", "annex", "1", "silent"))
                .isEqualTo(7);
        assertThat(samples.value("burner_bridge_transactions", "annex", "1", "broken"))
                .isEqualTo(5);
        assertThat(samples.value("burner_bridge_transactions", "annex", "2", "answered"))
                .isZero();
        assertThat(samples.value("burner_bridge_transaction_faults", "annex", "checksum"))
                .isEqualTo(5);
        assertThat(samples.value("burner_bridge_line_connections", "annex")).isEqualTo(2);
    }
}
