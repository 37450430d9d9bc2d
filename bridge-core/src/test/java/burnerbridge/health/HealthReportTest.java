package burnerbridge.health;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.control.JsonLine;
import burnerbridge.health.Trouble.Weight;
import burnerbridge.model.HandClock;
import burnerbridge.model.Stamp;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

class HealthReportTest {
    private static final Stamp AT = new HandClock().now();

    private static Trouble trouble(Weight weight, @Nullable Stamp since) {
        return new Trouble(Place.CABLE, "line annex", "nothing answers", "the plug", since, weight);
    }

    private static HealthReport report(List<Trouble> troubles) {
        return new HealthReport(true, List.of(), true, troubles, "quillmere", "0.1.0", AT, true);
    }

    @Test
    void oneWithoutTroublesIsAliveAndReadyAndNotDegraded() {
        assertThat(report(List.of()).alive()).isTrue();
        assertThat(report(List.of()).ready()).isTrue();
        assertThat(report(List.of()).degraded()).isFalse();
    }

    @Test
    void aNoticeDegradesNothing() {
        assertThat(report(List.of(trouble(Weight.NOTICE, AT))).degraded()).isFalse();
    }

    @Test
    void whatIsDegradedIsReady() {
        assertThat(report(List.of(trouble(Weight.DEGRADED, AT))).degraded()).isTrue();
        assertThat(report(List.of(trouble(Weight.DEGRADED, AT))).ready()).isTrue();
    }

    @Test
    void whatIsNotReadyIsDegradedAndAliveWhateverTheRootSays() {
        HealthReport report = report(List.of(trouble(Weight.NOT_READY, AT)));
        assertThat(report.ready()).isFalse();
        assertThat(report.degraded()).isTrue();
        assertThat(report.alive()).isTrue();
    }

    @Test
    void whatTheRootSaysIsNotReadyIsDegraded() {
        HealthReport report = new HealthReport(true, List.of(), false, List.of(), "quillmere", "0.1.0", AT, true);
        assertThat(report.ready()).isFalse();
        assertThat(report.degraded()).isTrue();
    }

    @Test
    void aStalledPartIsNeitherAliveNorReady() {
        HealthReport report =
                new HealthReport(true, List.of("line annex"), true, List.of(), "quillmere", "0.1.0", AT, true);
        assertThat(report.alive()).isFalse();
        assertThat(report.ready()).isFalse();
        assertThat(JsonLine.parse(HealthJson.of(report)).get("stalled")).isEqualTo(List.of("line annex"));
    }

    @Test
    void theHeaviestTroublesComeFirstAndThoseOfOneWeightStayInTheirOrder() {
        Trouble first = new Trouble(Place.SITE, "a", "x", "", AT, Weight.DEGRADED);
        Trouble second = new Trouble(Place.SITE, "b", "x", "", AT, Weight.DEGRADED);
        HealthReport report = report(List.of(trouble(Weight.NOTICE, AT), first, trouble(Weight.NOT_READY, AT), second));
        assertThat(report.troubles())
                .containsExactly(trouble(Weight.NOT_READY, AT), first, second, trouble(Weight.NOTICE, AT));
    }

    @Test
    void theJsonHasEveryMember() {
        assertThat(HealthJson.of(report(List.of(trouble(Weight.DEGRADED, AT), trouble(Weight.NOTICE, null)))))
                .isEqualTo("""
                        {"alive":true,"ready":true,"degraded":true,"reasons":[\
                        {"place":"cable","about":"line annex","seen":"nothing answers","lookAt":"the plug",\
                        "since":"2026-11-25T08:00:00.250Z","weight":"degraded"},\
                        {"place":"cable","about":"line annex","seen":"nothing answers","lookAt":"the plug",\
                        "since":null,"weight":"notice"}],"moreReasons":0,\
                        "site":"quillmere","version":"0.1.0","startedAt":"2026-11-25T08:00:00.250Z",\
                        "clock":"believed"}""");
    }

    @Test
    void aClockThatIsNotBelievedIsSaid() {
        HealthReport report = new HealthReport(true, List.of(), true, List.of(), "quillmere", "0.1.0", AT, false);
        assertThat(JsonLine.parse(HealthJson.of(report)).get("clock")).isEqualTo("unsure");
    }

    @Test
    void ofManyTroublesTheLightestAreOnlyCounted() {
        List<Trouble> many = new ArrayList<>();
        for (int i = 0; i < 250; i++) {
            many.add(trouble(Weight.NOTICE, AT));
        }
        many.add(trouble(Weight.NOT_READY, AT));
        Map<String, @Nullable Object> json = JsonLine.parse(HealthJson.of(report(many)));
        assertThat((List<?>) json.get("reasons")).hasSize(200);
        assertThat(String.valueOf(json.get("moreReasons"))).isEqualTo("51");
        assertThat(String.valueOf(json.get("reasons")))
                .startsWith("[{place=cable")
                .contains("weight=not-ready");
    }
}
