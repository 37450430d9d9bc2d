package burnerbridge.config.permit;

import burnerbridge.config.meaning.NamedStates;
import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.permit.Allowed;
import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads {@code range} or {@code states}, and {@code step}: which values may be written. */
final class AllowedKeys {
    private static final String NUMBER = "[+-]?\\d{1,12}(?:\\.\\d{1,12})?";
    private static final Pattern RANGE = Pattern.compile("(" + NUMBER + ")\\s*\\.\\.\\s*(" + NUMBER + ")");

    private final YamlMap map;
    private final Optional<PermitRow> row;
    private final Optional<RowValues> values;

    /** @param values of the row, where it holds numbers */
    AllowedKeys(YamlMap map, Optional<PermitRow> row, Optional<RowValues> values) {
        this.map = map;
        this.row = row;
        this.values = values;
    }

    /** Empty where it is missing or wrong; then it is told. */
    Optional<Allowed> read() {
        boolean range = map.has(PermitKeys.RANGE);
        boolean states = map.has(PermitKeys.STATES);
        if (range && states) {
            map.errorAtKey(PermitKeys.STATES, "stands beside range; a permit has one of the two");
        }
        if (!range && !states) {
            String key = row.filter(PermitRow::hasStates).isPresent() ? PermitKeys.STATES : PermitKeys.RANGE;
            PermitKeys.missing(
                    map,
                    key,
                    "which values may be written: range, like 20..90 in the row's unit, or of a bit or a point with"
                            + " states: states, like [off, on]");
        }
        Optional<Allowed> ofRange = range ? range() : Optional.empty();
        Optional<Allowed> ofStates = states ? states() : Optional.empty();
        return range == states ? Optional.empty() : ofRange.or(() -> ofStates);
    }

    private Optional<Allowed> range() {
        Optional<String> said = map.text(PermitKeys.RANGE);
        if (said.isEmpty()) {
            return Optional.empty();
        }
        String text = said.get();
        Matcher form = RANGE.matcher(text);
        if (!form.matches() || new BigDecimal(form.group(1)).compareTo(new BigDecimal(form.group(2))) >= 0) {
            map.error(
                    PermitKeys.RANGE,
                    "must be low..high, the lower one first, like 20..90 or -5..12.5 (was '" + text + "')");
            return Optional.empty();
        }
        if (row.filter(PermitRow::hasStates).isPresent()) {
            map.error(
                    PermitKeys.RANGE,
                    "is for numbers, and " + row.get().text() + " holds "
                            + row.get().kind() + "; states is for that");
            return Optional.empty();
        }
        return values.flatMap(v -> range(v, text, new BigDecimal(form.group(1)), new BigDecimal(form.group(2))));
    }

    private Optional<Allowed> range(RowValues ofRow, String text, BigDecimal low, BigDecimal high) {
        Allowed.Range range = new Allowed.Range(ofRow.shown(low), ofRow.shown(high));
        Optional<String> objection = ofRow.objectionTo(range);
        objection.ifPresent(why -> map.error(PermitKeys.RANGE, why + " (was '" + text + "')"));
        return objection.isPresent() ? Optional.empty() : Optional.of(range);
    }

    private Optional<Allowed> states() {
        List<YamlMap.Item> items = map.listOf(PermitKeys.STATES);
        if (map.isEmptyList(PermitKeys.STATES)) {
            map.error(PermitKeys.STATES, "must name at least one state, like [off, on] or [0, 1]");
        }
        if (row.isEmpty()) {
            return Optional.empty();
        }
        PermitRow known = row.get();
        if (!known.hasStates()) {
            map.error(
                    PermitKeys.STATES,
                    "is for a bit or a point with states, and " + known.text() + " holds " + known.kind()
                            + "; range is for that");
            return Optional.empty();
        }
        Set<Long> numbers = new TreeSet<>();
        boolean sound = !items.isEmpty();
        for (YamlMap.Item item : items) {
            Optional<Long> state = named(known, item);
            if (state.isPresent() && !numbers.add(state.get())) {
                map.error(PermitKeys.STATES, item, "state '" + item.text() + "' stands here twice");
            }
            sound &= state.isPresent();
        }
        return sound ? Optional.of(new Allowed.States(numbers)) : Optional.empty();
    }

    private Optional<Long> named(PermitRow known, YamlMap.Item item) {
        return new NamedStates(
                        message -> map.error(PermitKeys.STATES, item, message),
                        known.id().toString(),
                        known.point().states())
                .one(item.text());
    }

    /** The largest change of one write, as it is shown; empty where it is not there or wrong. */
    Optional<BigDecimal> step() {
        Optional<String> text = map.text(PermitKeys.STEP);
        if (text.isEmpty()) {
            return Optional.empty();
        }
        if (map.has(PermitKeys.STATES) || row.filter(PermitRow::hasStates).isPresent()) {
            map.errorAtKey(PermitKeys.STEP, "is for a range of numbers; states have no steps");
            return Optional.empty();
        }
        Optional<BigDecimal> step = RowValues.number(text.get()).filter(number -> number.signum() > 0);
        if (step.isEmpty()) {
            map.error(
                    PermitKeys.STEP,
                    "must be a number above 0 in the row's unit, like 10 or 2.5 (was '" + text.get() + "')");
        }
        Optional<BigDecimal> least = values.flatMap(RowValues::step);
        if (step.isPresent() && least.isPresent() && step.get().compareTo(least.get()) < 0) {
            map.error(
                    PermitKeys.STEP,
                    "must be at least " + values.get().differenceText(least.get())
                            + ", the smallest change that the registers can make (was '" + text.get() + "')");
            return Optional.empty();
        }
        return step.flatMap(number -> values.map(v -> v.shownDifference(number)));
    }
}
