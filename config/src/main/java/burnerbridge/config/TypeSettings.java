package burnerbridge.config;

import burnerbridge.site.Name;
import burnerbridge.site.ReadRules;
import burnerbridge.site.WordOrder;
import java.util.List;

/**
 * What {@code site.yaml} says of a type, apart from its points.
 *
 * @param points the point list's file, relative to the site folder
 * @param firstBit the number that the manual gives the least significant bit of a register: 0 or 1
 * @param rules what its controllers ask of a reader; what is reserved stands in the point list
 * @param readClearing the points that are read although a read clears them
 */
record TypeSettings(
        Name name,
        String points,
        Numbering numbering,
        WordOrder order,
        int firstBit,
        ReadRules rules,
        List<YamlMap.Item> readClearing) {
    TypeSettings {
        readClearing = List.copyOf(readClearing);
    }

    TypeSettings withName(Name other) {
        return new TypeSettings(other, points, numbering, order, firstBit, rules, readClearing);
    }

    /** Whether a point is read although a read clears it. */
    boolean readsClearing(String point) {
        return readClearing.stream().anyMatch(item -> item.text().equals(point));
    }
}
