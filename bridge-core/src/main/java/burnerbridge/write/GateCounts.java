package burnerbridge.write;

import burnerbridge.measure.Metric;
import burnerbridge.measure.MetricSink;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Question;
import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.atomic.LongAdder;

/** Counts what the gate decides, and what became of the writes that it let go. Safe for any number of threads. */
final class GateCounts {
    private static final Metric ADMITTED =
            Metric.counter("burner_bridge_gate_admitted", "Asks that were admitted, by what they lead to.", "standing");
    private static final Metric REFUSED = Metric.counter(
            "burner_bridge_gate_refused", "Asks that were refused, by the question that said no.", "question");
    private static final Metric ENDED = Metric.counter(
            "burner_bridge_gate_writes",
            "Writes that came to their end: written and read back, otherwise, or never sent.",
            "outcome");

    /** What a write can come to, for those who count. */
    enum Outcome {
        WRITTEN,
        FAILED,
        NOT_SENT
    }

    private final Map<Decision.Standing, LongAdder> admitted = all(Decision.Standing.class);
    private final Map<Question, LongAdder> refused = all(Question.class);
    private final LongAdder refusedAtADoor = new LongAdder();
    private final Map<Outcome, LongAdder> ended = all(Outcome.class);

    private static <K extends Enum<K>> Map<K, LongAdder> all(Class<K> keys) {
        Map<K, LongAdder> counters = new EnumMap<>(keys);
        for (K key : keys.getEnumConstants()) {
            counters.put(key, new LongAdder());
        }
        return counters;
    }

    void decided(Decision decision) {
        if (decision instanceof Decision.Refused no) {
            count(refused, no.question());
        } else if (decision instanceof Decision.Admitted yes) {
            count(admitted, yes.standing());
        }
    }

    void refusedAtADoor() {
        refusedAtADoor.increment();
    }

    void ended(Result result) {
        boolean stayed = result instanceof Result.Withheld || result instanceof Result.NotSent;
        count(ended, result instanceof Result.Written ? Outcome.WRITTEN : stayed ? Outcome.NOT_SENT : Outcome.FAILED);
    }

    private static <K extends Enum<K>> void count(Map<K, LongAdder> counters, K key) {
        LongAdder counter = counters.get(key);
        if (counter != null) {
            counter.increment();
        }
    }

    void measure(MetricSink sink) {
        admitted.forEach((standing, count) -> sink.sample(ADMITTED, count.sum(), word(standing)));
        refused.forEach((question, count) -> sink.sample(REFUSED, count.sum(), question.code()));
        sink.sample(REFUSED, refusedAtADoor.sum(), "door");
        ended.forEach((outcome, count) -> sink.sample(ENDED, count.sum(), word(outcome)));
    }

    private static String word(Enum<?> constant) {
        return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
