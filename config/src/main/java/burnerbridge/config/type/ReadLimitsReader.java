package burnerbridge.config.type;

import burnerbridge.config.problem.NearestWord;
import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.AddressRange;
import burnerbridge.site.Name;
import burnerbridge.site.ReadLimits;
import burnerbridge.site.RegisterTable;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;

/** Reads {@code max-registers}: a number, or {@code default} and ranges with a number each. */
final class ReadLimitsReader {
    private static final String KEY = "max-registers";
    private static final String DEFAULT = "default";

    private final Name type;
    private final Numbering numbering;
    private final boolean mirrored;

    /** @param mirrored whether both register tables are one, so that ranges of the two can overlap */
    ReadLimitsReader(Name type, Numbering numbering, boolean mirrored) {
        this.type = type;
        this.numbering = numbering;
        this.mirrored = mirrored;
    }

    /** The limits, those that are wrong left out; what is wrong is told. */
    ReadLimits read(YamlMap map) {
        if (!map.holdsMap(KEY)) {
            return new ReadLimits(map.integer(KEY, 1, ReadLimits.MOST).orElse(ReadLimits.MOST), List.of());
        }
        YamlMap limits = map.map(KEY).orElseThrow();
        int otherwise = ReadLimits.MOST;
        List<ReadLimits.InRange> ranges = new ArrayList<>();
        for (String key : limits.keys()) {
            OptionalInt most = limits.integer(key, 1, ReadLimits.MOST);
            if (key.equals(DEFAULT)) {
                otherwise = most.orElse(ReadLimits.MOST);
            } else {
                range(limits, key, ranges)
                        .filter(range -> most.isPresent())
                        .ifPresent(range -> ranges.add(new ReadLimits.InRange(range, most.getAsInt())));
            }
        }
        return new ReadLimits(otherwise, ranges);
    }

    private Optional<AddressRange> range(YamlMap limits, String key, List<ReadLimits.InRange> before) {
        String hint = NearestWord.hint(key, Set.of(DEFAULT));
        Optional<AddressRange> range =
                RangeText.read(key, type, numbering, message -> limits.errorAtKey(key, message + hint));
        if (range.isPresent() && range.get().table().ofBits()) {
            limits.errorAtKey(
                    key, "counts registers, and a " + range.get().table().word() + " is none");
            return Optional.empty();
        }
        Optional<AddressRange> other = before.stream()
                .map(ReadLimits.InRange::range)
                .filter(b -> range.isPresent() && asRead(b).overlaps(asRead(range.get())))
                .findFirst();
        other.ifPresent(o -> limits.errorAtKey(key, "overlaps " + numbering.text(o)));
        return other.isPresent() ? Optional.empty() : range;
    }

    private AddressRange asRead(AddressRange range) {
        return mirrored ? range.in(RegisterTable.HOLDING_REGISTER) : range;
    }
}
