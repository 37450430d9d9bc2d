package burnerbridge.write.approval;

import static burnerbridge.write.approval.ItemList.plain;
import static burnerbridge.write.approval.ItemList.sorted;

import burnerbridge.site.AlarmDefinition;
import burnerbridge.site.Condition;
import burnerbridge.site.Consistency;
import burnerbridge.site.ControllerDefinition;
import burnerbridge.site.Limits;
import burnerbridge.site.PointDefinition;
import burnerbridge.site.PointFormat;
import burnerbridge.site.PointOptions;
import burnerbridge.site.WordOrder;
import burnerbridge.site.unit.Linear;
import java.math.BigDecimal;
import java.util.OptionalInt;
import java.util.stream.Collectors;

/** The rows of a controller: all that they say but descriptions and texts. */
final class RowItems {
    private RowItems() {}

    static void add(ItemList items, ControllerDefinition controller) {
        controller.type().points().forEach(row -> add(items, controller, row));
    }

    private static void add(ItemList items, ControllerDefinition controller, PointDefinition row) {
        ItemList.Subject of = items.of(subject(controller, row));
        of.is("table", row.table().word())
                .is("wire address", row.wireAddress())
                .is("address in the manual", row.manualAddress())
                .is("format", format(row.format()))
                .is("scale", slope(row.scaling().line()))
                .is("offset", addend(row.scaling().line()))
                .is("decimals", row.scaling().decimals())
                .is("unit", row.unit().toString())
                .is("basis", row.basis().isNone() ? "none" : row.basis().text())
                .is("role", row.role().word())
                .is("every", row.every())
                .is("stale after", row.staleAfter())
                .is("change", plain(row.change()))
                .is("object", row.object().word())
                .is("states", sorted(row.states().texts().keySet()))
                .is(
                        "severities",
                        sorted(row.states().severities().entrySet().stream()
                                .map(entry ->
                                        entry.getKey() + " " + entry.getValue().word())
                                .toList()));
        limits(of, row.limits());
        consistency(of, row.consistency());
        options(of, row.options());
    }

    static String subject(ControllerDefinition controller, PointDefinition row) {
        return "row " + row.name() + " of " + controller.name();
    }

    private static void limits(ItemList.Subject of, Limits limits) {
        of.is(
                "patterns that are no value",
                sorted(limits.noValue().stream().map(ItemList::plain).toList()));
        limits.valid()
                .ifPresent(range -> of.is("valid from", plain(range.low())).is("valid to", plain(range.high())));
    }

    private static void consistency(ItemList.Subject of, Consistency consistency) {
        of.is("verified by a second read", consistency.twice())
                .is("a read clears it", consistency.once())
                .is("read group", consistency.group())
                .is("decimals are in", consistency.scaleBy());
        OptionalInt lower = consistency.lowerWord();
        if (lower.isPresent()) {
            of.is("wire address of the lower word", lower.getAsInt());
        }
    }

    private static void options(ItemList.Subject of, PointOptions options) {
        of.is("write-only", options.writeOnly())
                .is("object name", options.objectName())
                .is("meaning", options.meaning().map(ItemList::word))
                .is("when", options.when().map(Condition::text));
        options.alarm().ifPresent(alarm -> {
            of.is("alarm", alarm.text()).is("alarm delay", alarm.delay());
            if (alarm instanceof AlarmDefinition.OfLimit limit) {
                of.is("alarm deadband", plain(limit.deadband()));
            }
        });
    }

    /** The word does not tell the order of words, nor from where bits are counted. */
    static String format(PointFormat format) {
        if (format instanceof PointFormat.Whole whole) {
            return whole.word() + order(whole.order());
        }
        if (format instanceof PointFormat.RegisterBit bit) {
            return bit.word() + ", counted from the least significant " + bit.index();
        }
        if (format instanceof PointFormat.BitField field) {
            return field.word() + ", counted from the least significant " + field.low() + " to "
                    + (field.low() + field.count() - 1);
        }
        if (format instanceof PointFormat.Bcd bcd) {
            return bcd.word() + order(bcd.order());
        }
        if (format instanceof PointFormat.DecimalWords words) {
            return words.word() + order(words.order());
        }
        if (format instanceof PointFormat.Floating floating) {
            return floating.word() + order(floating.order());
        }
        if (format instanceof PointFormat.Text text) {
            return text.word() + order(text.order());
        }
        if (format instanceof PointFormat.Epoch32 epoch) {
            return epoch.word() + order(epoch.order()) + ", shown in " + epoch.zone();
        }
        if (format instanceof PointFormat.Calendar calendar) {
            return calendar.word() + (calendar.bcd() ? ", in BCD" : ", in binary") + ", "
                    + calendar.registers().stream()
                            .map(register -> register.stream()
                                    .map(field -> String.valueOf(field.letter()))
                                    .collect(Collectors.joining()))
                            .collect(Collectors.joining(" "));
        }
        return format.word();
    }

    static String order(WordOrder order) {
        return (order.lowWordFirst() ? ", low word first" : ", high word first")
                + (order.swapBytes() ? ", bytes swapped" : "");
    }

    private static String slope(Linear line) {
        return fraction(line.numerator(), line.denominator());
    }

    private static String addend(Linear line) {
        return fraction(line.addend(), line.denominator());
    }

    private static String fraction(BigDecimal above, BigDecimal below) {
        return plain(above) + (below.compareTo(BigDecimal.ONE) == 0 ? "" : " / " + plain(below));
    }
}
