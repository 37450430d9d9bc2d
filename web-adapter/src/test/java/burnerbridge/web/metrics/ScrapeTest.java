package burnerbridge.web.metrics;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.measure.Metric;
import burnerbridge.measure.MetricSource;
import burnerbridge.web.http.Answer;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ScrapeTest {
    private static final Metric ASKED =
            Metric.counter("burner_bridge_line_requests", "Requests, \\ by outcome.\nOf a line.", "line", "outcome");
    private static final Metric LOAD = Metric.gauge("burner_bridge_line_load_ratio", "Load.", "line");
    private static final Metric AGE = Metric.gauge("burner_bridge_age_seconds", "Age.");

    private static String text(MetricSource source, String accept) {
        return new String(new MetricsPage(source).answer(accept).body(), StandardCharsets.UTF_8);
    }

    private static void some(burnerbridge.measure.MetricSink sink) {
        sink.sample(LOAD, 0.25, "annex");
        sink.sample(ASKED, 12345678901.0, "annex", "answered");
        sink.sample(ASKED, 0, "a\"b\\c\nd é", "silent");
        sink.sample(AGE, Double.NaN);
    }

    @Test
    void thePlainFormatHasHelpTypeAndSamples() {
        assertThat(text(ScrapeTest::some, "")).isEqualTo("""
                # HELP burner_bridge_age_seconds Age.
                # TYPE burner_bridge_age_seconds gauge
                burner_bridge_age_seconds NaN
                # HELP burner_bridge_line_load_ratio Load.
                # TYPE burner_bridge_line_load_ratio gauge
                burner_bridge_line_load_ratio{line="annex"} 0.25
                # HELP burner_bridge_line_requests_total Requests, \\\\ by outcome.\\nOf a line.
                # TYPE burner_bridge_line_requests_total counter
                burner_bridge_line_requests_total{line="a\\"b\\\\c\\nd é",outcome="silent"} 0.0
                burner_bridge_line_requests_total{line="annex",outcome="answered"} 1.2345678901E10
                """);
    }

    @Test
    void openMetricsNamesTheFamilyAndEndsWithAMark() {
        assertThat(text(ScrapeTest::some, "application/openmetrics-text"))
                .contains("# TYPE burner_bridge_line_requests counter\n")
                .contains("burner_bridge_line_requests_total{line=\"annex\",outcome=\"answered\"} 1.2345678901E10\n")
                .endsWith("# EOF\n");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '#',
            value = {
                "'' # text/plain",
                "*/* # text/plain",
                "text/plain;version=0.0.4 # text/plain",
                "application/openmetrics-text;version=1.0.0,text/plain;version=0.0.4;q=0.5 # application/openmetrics-text",
                "text/plain, application/OpenMetrics-Text ; q=0.7 # application/openmetrics-text",
                "application/openmetrics-text;q=0 # text/plain",
                "application/openmetrics-text; q=0.00 # text/plain",
                "application/openmetrics-textual # text/plain",
                "application/vnd.google.protobuf;proto=x # text/plain",
                "',;=,' # text/plain"
            })
    void theFormatIsWhatTheCollectorNames(String accept, String type) {
        Answer answer = new MetricsPage(ScrapeTest::some).answer(accept);
        assertThat(answer.contentType()).startsWith(type + "; version=");
    }

    @Test
    void aSecondSampleWithTheSameLabelsIsADefectAndTheFirstStays() {
        MetricSource twice = sink -> {
            sink.sample(LOAD, 1, "annex");
            sink.sample(LOAD, 2, "annex");
            sink.sample(LOAD, 3, "cellar");
        };
        assertThat(Scrape.of(twice).defects())
                .containsExactly("burner_bridge_line_load_ratio: two samples with the same labels");
        assertThat(text(twice, ""))
                .contains("{line=\"annex\"} 1.0")
                .contains("{line=\"cellar\"} 3.0")
                .doesNotContain(" 2.0");
    }

    @Test
    void whatNoCollectorWouldTakeIsLeftOutAndTold() {
        MetricSource bad = sink -> {
            sink.sample(Metric.gauge("jvm_threads", "Of others."), 1);
            sink.sample(Metric.gauge("burner_bridge_build_info", "An ending of another kind."), 1);
            sink.sample(LOAD, 1);
            sink.sample(LOAD, 1, "annex", "more");
            sink.sample(ASKED, -1, "annex", "answered");
            sink.sample(ASKED, Double.NaN, "annex", "silent");
            sink.sample(AGE, 7);
            sink.sample(Metric.counter("burner_bridge_age_seconds", "Age."), 8);
        };
        assertThat(Scrape.of(bad).defects()).hasSize(7);
        assertThat(text(bad, "")).isEqualTo("""
                # HELP burner_bridge_age_seconds Age.
                # TYPE burner_bridge_age_seconds gauge
                burner_bridge_age_seconds 7.0
                """);
    }

    @Test
    void nothingToCountIsAPageToo() {
        assertThat(text(MetricSource.NONE, "")).isEmpty();
        assertThat(text(MetricSource.NONE, "application/openmetrics-text")).isEqualTo("# EOF\n");
    }
}
