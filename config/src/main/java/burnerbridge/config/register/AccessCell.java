package burnerbridge.config.register;

import burnerbridge.config.row.PointRow;
import burnerbridge.site.Role;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/** The {@code access} column: whether a point can be read, or only written. */
public final class AccessCell {
    public static final String COLUMN = "access";

    private static final String WRITE = "write";
    private static final Set<String> WORDS = new TreeSet<>(Set.of("read", WRITE));
    private static final Set<Role> NEVER_WRITTEN =
            Set.of(Role.MEASUREMENT, Role.STATUS, Role.COUNTER, Role.IDENTITY, Role.FAULT_RECORD);
    private static final List<String> OF_READING =
            List.of("every", "stale-after", "read-group", "scale-by", "verify", OnReadCell.COLUMN);

    private AccessCell() {}

    /** Whether the point is never read, since its controller only takes it. */
    public static boolean isWriteOnly(PointRow row, Role role) {
        boolean writeOnly = row.word(COLUMN, WORDS).filter(WRITE::equals).isPresent();
        if (writeOnly) {
            if (NEVER_WRITTEN.contains(role)) {
                row.error(COLUMN, "a point of role " + role.word() + " is read, never written");
            }
            OF_READING.stream()
                    .filter(row::has)
                    .forEach(column -> row.error(column, "says nothing of a point that cannot be read"));
        }
        return writeOnly;
    }
}
