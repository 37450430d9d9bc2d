package burnerbridge.config.type;

import burnerbridge.config.problem.Problems.Place;
import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.AddressRange;
import burnerbridge.site.Name;
import burnerbridge.site.ReadRules;
import burnerbridge.site.States;
import burnerbridge.site.TypeOptions;
import burnerbridge.site.WordOrder;
import java.util.List;
import java.util.Optional;

/**
 * What {@code site.yaml} says of a type, apart from its points.
 *
 * @param points the point list's file, relative to the site folder
 * @param firstBit the number that the manual gives the least significant bit of a register: 0 or 1
 * @param rules what its controllers ask of a reader; what is reserved stands in the point list
 * @param readClearing the points that are read although a read clears them
 * @param ranges what is readable, and where each range stands
 * @param identity the point that tells one controller from another
 * @param options the same as the loaded type has them
 * @param causes the states of points that tell a fault cause and have none of their own
 */
public record TypeSettings(
        Name name,
        String points,
        Numbering numbering,
        WordOrder order,
        int firstBit,
        ReadRules rules,
        List<YamlMap.Item> readClearing,
        List<PlacedRange> ranges,
        Optional<YamlMap.Item> identity,
        TypeOptions options,
        Causes causes) {

    /** A readable range and where it stands. */
    public record PlacedRange(AddressRange range, Place place) {}

    /**
     * The fault causes of a type.
     *
     * @param file relative to the site folder; empty where there is none
     */
    public record Causes(String file, States states) {
        static final Causes NONE = new Causes("", States.NONE);
    }

    public TypeSettings {
        readClearing = List.copyOf(readClearing);
        ranges = List.copyOf(ranges);
    }

    public TypeSettings withName(Name other) {
        return new TypeSettings(
                other, points, numbering, order, firstBit, rules, readClearing, ranges, identity, options, causes);
    }

    /** Whether a point is read although a read clears it. */
    public boolean readsClearing(String point) {
        return readClearing.stream().anyMatch(item -> item.text().equals(point));
    }
}
