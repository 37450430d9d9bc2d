package burnerbridge.config.point;

import burnerbridge.config.row.PointRow;
import burnerbridge.config.type.TypeSettings;
import burnerbridge.site.AddressRange;
import burnerbridge.site.Name;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.ReadRules;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Holds every read that the points ask for against what their controllers allow: how much one read takes,
 * what is reserved, and what a read clears.
 */
final class ReadCheck {
    private final TypeSettings type;
    private final List<PointDefinition> points;
    private final Map<Name, PointRow> rows;
    private final List<ReservedRow> reserved;

    /** One transaction: a point, one of its two words, or a group. */
    private record Read(List<PointDefinition> points, AddressRange range) {
        PointDefinition first() {
            return points.get(0);
        }

        Optional<Name> group() {
            return first().consistency().group();
        }
    }

    /** @param rows where each point stands */
    ReadCheck(TypeSettings type, List<PointDefinition> points, Map<Name, PointRow> rows, List<ReservedRow> reserved) {
        this.type = type;
        this.points = points;
        this.rows = rows;
        this.reserved = reserved;
    }

    void run() {
        for (Read read : reads()) {
            checkLimit(read);
            checkReserved(read);
            checkCleared(read);
        }
    }

    private ReadRules rules() {
        return type.rules();
    }

    private List<Read> reads() {
        List<Read> reads = new ArrayList<>();
        Map<Name, List<PointDefinition>> groups = new LinkedHashMap<>();
        for (PointDefinition point : points) {
            Optional<Name> group = point.consistency().group();
            if (group.isPresent()) {
                groups.computeIfAbsent(group.get(), g -> new ArrayList<>()).add(point);
            } else {
                point.addresses().forEach(range -> reads.add(new Read(List.of(point), range)));
            }
        }
        groups.values().forEach(members -> reads.add(new Read(members, span(members))));
        return reads;
    }

    /** From the lowest to the highest address; that they lie in one table is checked elsewhere. */
    private static AddressRange span(List<PointDefinition> members) {
        AddressRange span = members.get(0).addresses().get(0);
        for (PointDefinition member : members) {
            AddressRange range = member.addresses().get(0);
            span = new AddressRange(
                    span.table(), Math.min(span.first(), range.first()), Math.max(span.last(), range.last()));
        }
        return span;
    }

    private void error(Read read, String message) {
        PointRow row = rows.get(read.first().name());
        if (row != null) {
            String column = read.group().isPresent() ? "read-group" : "address";
            row.error(column, subject(read) + " " + message);
        }
    }

    private String subject(Read read) {
        return read.group().isPresent()
                ? "group " + read.group().get() + ", " + type.numbering().text(read.range()) + ","
                : read.first().name() + " at " + read.first().addressText();
    }

    private void checkLimit(Read read) {
        int most = rules().most(read.range());
        int protocols = read.range().table().mostInOneRead();
        if (read.range().count() > most && read.range().count() <= protocols) {
            String where = rules().limiting(read.range())
                    .map(limit -> " of " + type.numbering().text(limit.range()))
                    .orElse("");
            error(
                    read,
                    "takes " + read.range().count() + " registers, and max-registers of type " + type.name()
                            + " allows " + most + " in one read" + where);
        }
    }

    private void checkReserved(Read read) {
        reserved.stream()
                .filter(row -> rules().overlap(row.range(), read.range()))
                .findFirst()
                .ifPresent(row -> error(
                        read,
                        "reaches into " + type.numbering().text(row.range()) + ", which line " + row.line()
                                + " reserves"));
    }

    /** What a read clears has a read of its own, shared only by rows of the very same addresses. */
    private void checkCleared(Read read) {
        boolean once = read.first().consistency().once();
        for (PointDefinition point : points) {
            AddressRange range = point.addresses().get(0);
            if (!point.consistency().once() || !rules().overlap(range, read.range())) {
                continue;
            }
            boolean alike = once && rules().asRead(range).equals(rules().asRead(read.range()));
            // Of two that both clear, the later one is told.
            boolean told = once && points.indexOf(point) > points.indexOf(read.first());
            if (!alike && !told) {
                error(read, clearedBy(point));
                return;
            }
        }
    }

    private String clearedBy(PointDefinition point) {
        PointRow row = rows.get(point.name());
        String line = row == null ? "" : " (line " + row.place("name").line() + ")";
        return "would clear " + point.name() + line + ": what a read clears is in no other read, but in rows of the"
                + " very same addresses that say so too";
    }
}
