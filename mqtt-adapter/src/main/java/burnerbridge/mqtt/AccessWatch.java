package burnerbridge.mqtt;

import burnerbridge.model.Stamp;
import burnerbridge.mqtt.access.AccessException;
import burnerbridge.mqtt.access.AccessFiles;
import burnerbridge.mqtt.access.Lifetime;
import burnerbridge.mqtt.broker.Access;
import java.util.HashSet;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Reads what opens a broker's door, notices when it was renewed, and warns before it ends. */
final class AccessWatch {
    static final long LOOK = TimeUnit.MINUTES.toNanos(1);
    private static final Logger LOG = LoggerFactory.getLogger(AccessWatch.class);

    private final AccessFiles files;
    private final Set<String> told = new HashSet<>();
    private long lookedAt;

    AccessWatch(AccessFiles files) {
        this.files = files;
    }

    /** @throws AccessException where something that is named cannot be used */
    Access read(Stamp now) throws AccessException {
        lookedAt = now.ticks();
        Access access = files.read();
        files.lifetimes().forEach(lifetime -> tell(lifetime, now));
        files.openSecrets()
                .forEach(file -> tellOnce(
                        "open " + file, "mqtt: every user of this machine can read " + file + "; chmod 600 keeps it"));
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

    private void tellOnce(String key, String sentence) {
        if (told.add(key)) {
            LOG.warn(sentence);
        }
    }
}
