package burnerbridge.mqtt;

import burnerbridge.health.Trouble;
import burnerbridge.measure.Metric;
import burnerbridge.measure.MetricSink;
import burnerbridge.model.Stamp;
import burnerbridge.mqtt.access.AccessException;
import burnerbridge.mqtt.access.AccessFiles;
import burnerbridge.mqtt.access.Lifetime;
import burnerbridge.mqtt.broker.Access;
import burnerbridge.mqtt.watch.BrokerTroubles;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Reads what opens a broker's door, notices when it was renewed, and warns before it ends. */
final class AccessWatch {
    static final long LOOK = TimeUnit.MINUTES.toNanos(1);
    private static final Metric CERTIFICATE_END = Metric.gauge(
            "burner_bridge_mqtt_certificate_end_timestamp_seconds",
            "When the first of the certificates ends that mqtt.tls names, in seconds since 1970; none where it names none.");
    private static final Logger LOG = LoggerFactory.getLogger(AccessWatch.class);

    private final AccessFiles files;
    private final Set<String> told = new HashSet<>();
    private volatile List<Lifetime> lifetimes = List.of();
    private volatile List<String> openSecrets = List.of();
    private long lookedAt;

    AccessWatch(AccessFiles files) {
        this.files = files;
    }

    /** @throws AccessException where something that is named cannot be used */
    Access read(Stamp now) throws AccessException {
        lookedAt = now.ticks();
        Access access = files.read();
        files.lifetimes().forEach(lifetime -> tell(lifetime, now));
        lifetimes = List.copyOf(files.lifetimes());
        openSecrets = files.openSecrets().stream().map(Object::toString).toList();
        openSecrets.forEach(file ->
                tellOnce("open " + file, "mqtt: every user of this machine can read " + file + "; chmod 600 keeps it"));
        return access;
    }

    /** Whether files changed since they were read, and can be used. Looks once a minute. */
    boolean isRenewed(Stamp now) {
        if (now.ticks() - lookedAt < LOOK) {
            return false;
        }
        lookedAt = now.ticks();
        files.lifetimes().forEach(lifetime -> tell(lifetime, now));
        if (!files.haveChanged()) {
            return false;
        }
        try {
            read(now);
            return true;
        } catch (AccessException e) {
            LOG.warn("mqtt: files changed and cannot be used, the connection stays as it is: {}", e.getMessage());
            return false;
        }
    }

    /** Only where the clock is believed: one that stands in the past would never warn, or warn for nothing. */
    private void tell(Lifetime lifetime, Stamp now) {
        if (now.believed()) {
            lifetime.trouble(now.wall())
                    .ifPresent(trouble -> tellOnce(trouble.kind() + " " + lifetime, "mqtt: " + trouble.sentence()));
        }
    }

    /** What of it is wrong at a moment. For any thread. */
    void tell(Consumer<Trouble> troubles, Stamp now) {
        openSecrets.forEach(file -> troubles.accept(BrokerTroubles.openSecret(file)));
        if (now.believed()) {
            lifetimes.forEach(lifetime -> lifetime.trouble(now.wall())
                    .ifPresent(wrong -> troubles.accept(BrokerTroubles.certificate(
                            wrong.sentence(),
                            !lifetime.end().isBefore(now.wall()) && !now.wall().isBefore(lifetime.begin())))));
        }
    }

    /** When the first certificate ends, where there is any. For any thread. */
    void measure(MetricSink sink) {
        lifetimes.stream()
                .map(Lifetime::end)
                .min(Comparator.naturalOrder())
                .ifPresent(end -> sink.sample(CERTIFICATE_END, end.getEpochSecond()));
    }

    private void tellOnce(String key, String sentence) {
        if (told.add(key)) {
            LOG.warn(sentence);
        }
    }
}
