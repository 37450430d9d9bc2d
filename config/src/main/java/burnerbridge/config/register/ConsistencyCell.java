package burnerbridge.config.register;

import burnerbridge.config.row.PointRow;
import burnerbridge.site.PointFormat;
import java.util.Set;

/** The {@code verify} column. */
public final class ConsistencyCell {
    private ConsistencyCell() {}

    /** Whether the point is read again until two readings agree. */
    public static boolean isTwice(PointRow row, PointFormat format, AddressCell address) {
        boolean twice = row.word("verify", Set.of("twice")).isPresent();
        if (twice && address.lowerWord().isPresent()) {
            row.error("verify", "a value whose words are apart is verified anyhow");
        } else if (twice && format.width() == 1) {
            row.error("verify", "a " + format.word() + " takes one register and cannot be torn");
        }
        return twice;
    }
}
