package burnerbridge.web;

import static org.assertj.core.api.Assertions.assertThat;

import burnerbridge.measure.Metric;
import burnerbridge.measure.MetricSink;
import burnerbridge.outside.OutsideProgram;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.ObjectMapper;

/** Outside check: both formats before the parsers of the Prometheus client library for Python. */
class CollectorIT {
    private static final List<String> AWKWARD = List.of(
            "",
            " ",
            "plain",
            "with \"quotes\"",
            "back\\slash",
            "ends\\",
            "two\nlines",
            "\\n",
            "tab\t",
            "é ü °C",
            "日本",
            "😀",
            "{a=\"b\"}",
            "# HELP",
            "a,b=c",
            "\r",
            "\u0001",
            "\u00a0");

    private static final Metric COUNT =
            Metric.counter("burner_bridge_awkward", "With \"quotes\", a back\\slash,\nlines and é.", "of", "kind");
    private static final Metric SIZE = Metric.gauge("burner_bridge_size_bytes", "Without labels.");
    private static final Metric ODD = Metric.gauge("burner_bridge_odd_ratio", "Numbers that are odd.", "which");

    private static void measure(MetricSink sink) {
        for (int i = 0; i < AWKWARD.size(); i++) {
            sink.sample(COUNT, i, AWKWARD.get(i), "kind");
        }
        sink.sample(SIZE, 9_007_199_254_740_991.0);
        sink.sample(ODD, Double.POSITIVE_INFINITY, "infinite");
        sink.sample(ODD, Double.NEGATIVE_INFINITY, "less");
        sink.sample(ODD, Double.NaN, "none");
        sink.sample(ODD, -0.1, "negative");
        sink.sample(ODD, Double.MIN_VALUE, "tiny");
        sink.sample(ODD, 1e300, "huge");
    }

    @Test
    void aParserOfOthersReadsEverySampleOfBothFormats() throws Exception {
        OutsideProgram.requirePython("prometheus_client.openmetrics.parser", "python3-prometheus-client");
        List<JsonNode> samples = new ArrayList<>();
        try (WebRig rig = new WebRig()) {
            rig.metrics = sink -> {
                measure(sink);
                rig.adapter().measure(sink);
            };
            String said = OutsideProgram.output(List.of(
                    OutsideProgram.PYTHON,
                    OutsideProgram.file("collector.py").toString(),
                    "http://127.0.0.1:" + rig.port()));
            for (String line : said.split("\n", -1)) {
                if (!line.isEmpty()) {
                    assertThat(line).as(said).startsWith("[");
                    samples.add(new ObjectMapper().readTree(line));
                }
            }
        }
        for (String format : List.of("plain", "open")) {
            List<JsonNode> own = samples.stream()
                    .filter(sample -> sample.get(0).asString().equals(format))
                    .toList();
            List<JsonNode> awkward = of(own, "burner_bridge_awkward");
            assertThat(awkward)
                    .extracting(s -> s.get(5).get("of").asString())
                    .containsExactlyInAnyOrderElementsOf(AWKWARD);
            assertThat(awkward).allSatisfy(sample -> {
                assertThat(sample.get(2).asString()).isEqualTo("counter");
                assertThat(sample.get(3).asString()).isEqualTo(COUNT.help());
                assertThat(sample.get(4).asString()).isEqualTo("burner_bridge_awkward_total");
                assertThat(sample.get(5).get("kind").asString()).isEqualTo("kind");
                assertThat(AWKWARD.get((int) Double.parseDouble(sample.get(6).asString())))
                        .isEqualTo(sample.get(5).get("of").asString());
            });
            assertThat(of(own, "burner_bridge_size_bytes"))
                    .extracting(s -> s.get(6).asString())
                    .containsExactly("9007199254740991.0");
            assertThat(of(own, "burner_bridge_odd_ratio"))
                    .extracting(s ->
                            s.get(5).get("which").asString() + " " + s.get(6).asString())
                    .containsExactlyInAnyOrder(
                            "infinite inf", "less -inf", "none nan", "negative -0.1", "tiny 5e-324", "huge 1e+300");
            assertThat(of(own, "burner_bridge_web_connections")).hasSize(1);
        }
    }

    private static List<JsonNode> of(List<JsonNode> samples, String family) {
        return samples.stream()
                .filter(sample -> sample.get(1).asString().equals(family))
                .toList();
    }
}
