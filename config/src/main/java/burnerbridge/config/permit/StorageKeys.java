package burnerbridge.config.permit;

import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.permit.Storage;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;

/** Reads {@code storage} and {@code lifetime-writes}; a memory of which nothing is said wears. */
final class StorageKeys {
    private static final String VOLATILE = "volatile";
    private static final Set<String> WORDS = new TreeSet<>(Set.of(VOLATILE, "non-volatile"));
    private static final int MOST_WRITES = 999_999_999;

    private StorageKeys() {}

    /** Empty where something is missing or wrong; then it is told. */
    static Optional<Storage> read(YamlMap map) {
        Optional<String> word = map.word(PermitKeys.STORAGE, WORDS);
        OptionalInt writes = map.integer(PermitKeys.LIFETIME_WRITES, 1, MOST_WRITES);
        if (map.has(PermitKeys.STORAGE) && word.isEmpty()) {
            return Optional.empty();
        }
        if (word.filter(VOLATILE::equals).isPresent()) {
            PermitKeys.refuse(
                    map, Set.of(PermitKeys.LIFETIME_WRITES), "counts for non-volatile storage; this one is volatile");
            return map.has(PermitKeys.LIFETIME_WRITES) ? Optional.empty() : Optional.of(Storage.VOLATILE);
        }
        if (!map.has(PermitKeys.LIFETIME_WRITES)) {
            PermitKeys.missing(
                    map,
                    PermitKeys.LIFETIME_WRITES,
                    "how many writes of this bridge the controller's memory may take, by its manual, since storage is"
                            + " non-volatile" + (word.isEmpty() ? " where nothing is said of it" : ""));
        }
        return writes.isEmpty() ? Optional.empty() : Optional.of(Storage.nonVolatile(writes.getAsInt()));
    }
}
