package burnerbridge.web.metrics;

import burnerbridge.measure.MetricSource;
import burnerbridge.web.http.Answer;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The page of metrics, made anew each time. One thread uses it. */
public final class MetricsPage {
    private static final Logger LOG = LoggerFactory.getLogger(MetricsPage.class);
    private static final int MOST_TOLD = 100;

    private final MetricSource source;
    private final Set<String> told = new HashSet<>();

    public MetricsPage(MetricSource source) {
        this.source = source;
    }

    /**
     * Makes the page.
     *
     * @param accept the types that the collector reads; may be empty
     */
    public Answer answer(String accept) {
        Scrape scrape = Scrape.of(source);
        for (String defect : scrape.defects()) {
            if (told.size() < MOST_TOLD && told.add(defect)) {
                LOG.error("web: a metric is left out: {}", defect);
            }
        }
        MetricsText text = MetricsText.wanted(accept);
        return new Answer(200, text.contentType(), text.write(scrape), List.of());
    }
}
