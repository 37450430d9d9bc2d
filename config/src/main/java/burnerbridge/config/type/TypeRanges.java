package burnerbridge.config.type;

import burnerbridge.config.type.TypeSettings.PlacedRange;
import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.AddressRange;
import burnerbridge.site.Name;
import burnerbridge.site.RegisterTable;
import burnerbridge.site.TypeOptions.Stated;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Reads {@code readable} and {@code protected} of a type: lists of ranges in its numbering. */
public final class TypeRanges {
    public static final String READABLE = "readable";
    public static final String PROTECTED = "protected";

    private final Name type;
    private final Numbering numbering;
    private final YamlMap map;
    private final List<PlacedRange> places = new ArrayList<>();

    TypeRanges(Name type, Numbering numbering, YamlMap map) {
        this.type = type;
        this.numbering = numbering;
        this.map = map;
    }

    List<Stated> readable() {
        List<Stated> ranges = new ArrayList<>();
        for (YamlMap.Item item : map.listOf(READABLE)) {
            range(READABLE, item).ifPresent(range -> {
                ranges.add(new Stated(item.text(), range));
                places.add(new PlacedRange(range, item.place()));
            });
        }
        return ranges;
    }

    /** Where the readable ranges stand, after {@link #readable}. */
    List<PlacedRange> places() {
        return places;
    }

    /** @param mirrored whether input registers are holding registers, so that they can be written by their other name */
    List<Stated> guarded(boolean mirrored) {
        List<Stated> ranges = new ArrayList<>();
        for (YamlMap.Item item : map.listOf(PROTECTED)) {
            range(PROTECTED, item).ifPresent(range -> {
                if (isWritable(range.table(), mirrored)) {
                    ranges.add(new Stated(item.text(), range));
                } else {
                    map.error(
                            PROTECTED,
                            item,
                            "is for what could be written, and no "
                                    + range.table().word() + " can");
                }
            });
        }
        return ranges;
    }

    private static boolean isWritable(RegisterTable table, boolean mirrored) {
        return table == RegisterTable.COIL
                || table == RegisterTable.HOLDING_REGISTER
                || (mirrored && table == RegisterTable.INPUT_REGISTER);
    }

    private Optional<AddressRange> range(String key, YamlMap.Item item) {
        return RangeText.read(item.text(), type, numbering, message -> map.error(key, item, message));
    }
}
