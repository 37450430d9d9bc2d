package burnerbridge.mqtt.door;

import burnerbridge.measure.Metric;
import burnerbridge.measure.MetricSink;
import burnerbridge.measure.MetricSource;
import burnerbridge.model.BridgeClock;
import burnerbridge.model.Stamp;
import burnerbridge.mqtt.broker.Broker.Event;
import burnerbridge.mqtt.payload.ReplyPayload;
import burnerbridge.site.MqttSettings;
import burnerbridge.site.Site;
import burnerbridge.write.ask.Ask;
import burnerbridge.write.ask.Decision;
import burnerbridge.write.ask.Fate;
import burnerbridge.write.ask.Source;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.atomic.LongAdder;

/**
 * Where asks over MQTT come in. A message is looked at as strictly as anything that may move a burner: what is kept by a
 * broker, came late, says not how long it holds, cannot be answered or came before is refused, which is told and recorded;
 * the gate decides on the rest. Its bounds are those of each point: {@value Arrivals#MOST_OF_ONE} messages wait to be
 * looked at, {@value Memory#MOST_OPEN} asks for what becomes of them, and {@value Memory#MOST_OF_ONE} are remembered.
 *
 * <p>{@link #offer} is for any thread and waits for nothing; one thread steps it.
 */
public final class AskDoor implements MetricSource {
    /** A second message of the same ask, or of the same correlation data. */
    static final String DOUBLED = "doubled";
    /** More than is taken. */
    static final String BUSY = "busy";

    /** An ask is remembered for longer than any message of it can live. */
    static final Duration REMEMBERED = Duration.ofSeconds(2 * Envelope.LONGEST_SECONDS);
    /** What is written at an ask's last moment has an end soon after. */
    static final Duration PATIENCE = Duration.ofSeconds(30);

    private static final Metric ASKS = Metric.counter(
            "burner_bridge_mqtt_asks",
            "Asks for writes that came over MQTT, by what was said: admitted or refused by the gate, refused before it was"
                    + " asked (not-taken), or never looked at since too many came.",
            "decision");

    private final LongAdder admitted = new LongAdder();
    private final LongAdder refusedByGate = new LongAdder();
    private final LongAdder notTaken = new LongAdder();
    private final LongAdder leftOut = new LongAdder();
    private final MqttSettings.Version version;
    private final List<AskPoint> points;
    private final Arrivals arrivals;
    private final Memory memory = new Memory();
    private final Gate gate;
    private final BridgeClock clock;
    /** No more than there are open asks. */
    private final Queue<Became> fates = new ConcurrentLinkedQueue<>();

    private record Became(Asked asked, Fate fate) {}

    public AskDoor(MqttSettings settings, Site site, Gate gate, BridgeClock clock) {
        this.version = settings.version();
        this.points = AskPoint.all(settings.root(), site);
        this.arrivals = new Arrivals(points);
        this.gate = gate;
        this.clock = clock;
    }

    /** The topics that are to be subscribed to; none where nothing may be asked for. */
    public List<String> topics() {
        return points.stream().map(AskPoint::askTopic).toList();
    }

    public boolean takes(String topic) {
        return arrivals.takes(topic);
    }

    @Override
    public void measure(MetricSink sink) {
        sink.sample(ASKS, admitted.sum(), "admitted");
        sink.sample(ASKS, refusedByGate.sum(), "refused");
        sink.sample(ASKS, notTaken.sum(), "not-taken");
        sink.sample(ASKS, leftOut.sum(), "left-out");
    }

    /** A message came on one of the topics. */
    public void offer(Event.Arrived arrived) {
        arrivals.offer(arrived, clock.now());
    }

    /** Looks at what came, and returns what is to be told to askers. */
    public List<Reply> step(Stamp now) {
        List<Reply> replies = new ArrayList<>();
        for (Asked vain : memory.step(now.ticks())) {
            replies.add(vain.answer(
                    ReplyPayload.unknown("what became of it was not known " + PATIENCE.toSeconds()
                            + " s after it ended; look at the point and its permit"),
                    now));
        }
        arrivals.take().forEach(arrival -> take(arrival, now).ifPresent(replies::add));
        arrivals.leftOut().forEach(this::tellLeftOut);
        for (Became became = fates.poll(); became != null; became = fates.poll()) {
            if (became.asked.isOpen()) {
                replies.add(became.asked.answer(ReplyPayload.of(became.fate, became.asked.renewed), now));
            }
        }
        return replies;
    }

    private void tellLeftOut(Arrivals.LeftOut leftOut) {
        this.leftOut.add(leftOut.count());
        gate.refused(
                leftOut.point().id(),
                new Source.Mqtt(""),
                "",
                BUSY,
                leftOut.count() + " messages were not looked at, since more than " + Arrivals.MOST_OF_ONE
                        + " came at a time");
    }

    private Optional<Reply> take(Arrival arrival, Stamp now) {
        Envelope envelope = Envelope.of(arrival, version);
        if (envelope instanceof Envelope.Unusable unusable) {
            return refused(arrival.point(), unusable.refusal(), unusable.answer(), now);
        }
        return ask(arrival, (Envelope.Usable) envelope, now);
    }

    private Optional<Reply> ask(Arrival arrival, Envelope.Usable envelope, Stamp now) {
        AskPoint point = arrival.point();
        Optional<Asked> before = memory.of(point, envelope.address());
        if (before.isPresent()) {
            return again(before.get(), arrival, envelope, now);
        }
        if (!memory.hasRoom(point)) {
            String sentence = "too many asks for " + point.id() + " came within the last " + REMEMBERED.toSeconds()
                    + " s or wait for what becomes of them";
            return refused(point, envelope.refused(BUSY, sentence), Optional.of(envelope.address()), now);
        }
        Asked asked = new Asked(
                point,
                envelope.address(),
                arrival.payload(),
                arrival.at().ticks() + REMEMBERED.toNanos(),
                envelope.notAfter() + PATIENCE.toNanos());
        memory.add(asked);
        Ask ask = new Ask(
                point.id(),
                envelope.wanted(),
                point.permit().mqttPriority(),
                envelope.source(),
                OptionalLong.of(envelope.notAfter()),
                Optional.empty());
        Decision decision = gate.ask(ask, fate -> fates.add(new Became(asked, fate)));
        if (decision instanceof Decision.Refused refused) {
            refusedByGate.increment();
            return Optional.of(asked.answer(ReplyPayload.of(refused), now));
        }
        admitted.increment();
        asked.renewed = ((Decision.Admitted) decision).standing() == Decision.Standing.RENEWED;
        return Optional.empty();
    }

    /** The first answer again; where it is not known yet, it comes once. */
    private Optional<Reply> again(Asked first, Arrival arrival, Envelope.Usable envelope, Stamp now) {
        boolean same = first.payload.equals(arrival.payload());
        String sentence = same
                ? "the same ask came before, and is not done again"
                : "another ask came with the same " + (version == MqttSettings.Version.V5 ? "correlation data" : "id")
                        + " before; each needs its own";
        Refusal refusal = envelope.refused(DOUBLED, sentence);
        if (!same) {
            return refused(arrival.point(), refusal, Optional.of(envelope.address()), now);
        }
        record(arrival.point(), refusal);
        return Optional.ofNullable(first.reply);
    }

    private Optional<Reply> refused(AskPoint point, Refusal refusal, Optional<Asked.Address> answer, Stamp now) {
        record(point, refusal);
        return answer.map(address -> new Reply(
                address.topic(),
                ReplyPayload.refused(refusal.code(), refusal.sentence())
                        .json(point.point().definition(), address.id(), now),
                address.correlation()));
    }

    private void record(AskPoint point, Refusal refusal) {
        notTaken.increment();
        gate.refused(point.id(), refusal.source(), refusal.wanted(), refusal.code(), refusal.sentence());
    }
}
