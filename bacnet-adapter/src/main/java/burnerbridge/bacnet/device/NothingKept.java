package burnerbridge.bacnet.device;

import com.serotonin.bacnet4j.persistence.IPersistence;
import com.serotonin.bacnet4j.type.Encodable;
import com.serotonin.bacnet4j.type.constructed.SequenceOf;
import org.jspecify.annotations.Nullable;

/**
 * The library keeps nothing on disk, and finds an empty list wherever it looks for one: so it notifies
 * nobody of a restart, since a device that keeps no such list must not invent recipients.
 */
final class NothingKept implements IPersistence {

    @Override
    public void save(String key, String value) {}

    @Override
    public void saveEncodable(String key, Encodable value) {}

    @Override
    public @Nullable String load(String key) {
        return null;
    }

    @Override
    public <T extends Encodable> SequenceOf<T> loadSequenceOf(String key, Class<T> type) {
        return new SequenceOf<>();
    }

    @Override
    public void remove(String key) {}
}
