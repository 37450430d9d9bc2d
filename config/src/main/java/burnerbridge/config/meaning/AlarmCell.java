package burnerbridge.config.meaning;

import burnerbridge.config.problem.Durations;
import burnerbridge.config.problem.NearestWord;
import burnerbridge.config.row.PointRow;
import burnerbridge.site.AlarmDefinition;
import burnerbridge.site.AlarmDefinition.Kind;
import burnerbridge.site.Limits;
import burnerbridge.site.Meaning;
import burnerbridge.site.PointFormat;
import burnerbridge.site.States;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * Reads the {@code alarm} column: {@code lockout}, {@code high when=>95 delay=30 s deadband=2},
 * {@code off-normal when=blocked}.
 */
public final class AlarmCell {
    public static final String COLUMN = "alarm";

    private static final String WHEN = "when";
    private static final String DELAY = "delay";
    private static final String DEADBAND = "deadband";
    private static final String NUMBER = "[+-]?\\d{1,12}(\\.\\d{1,12})?";
    private static final String EXAMPLES =
            "like 'lockout delay=0 s', 'high when=>95 delay=30 s deadband=2' or 'off-normal when=blocked'";

    private final PointRow row;
    private final Facts facts;
    private final UnitCells units;
    private final Map<String, String> settings = new HashMap<>();

    /**
     * What the row says elsewhere.
     *
     * @param limits as the controller has them
     * @param isRead whether the point is read at all
     */
    public record Facts(PointFormat format, States states, Optional<Meaning> meaning, Limits limits, boolean isRead) {
        Meaning.Kind kind() {
            return Meaning.Kind.of(format, states);
        }
    }

    private AlarmCell(PointRow row, Facts facts, UnitCells units) {
        this.row = row;
        this.facts = facts;
        this.units = units;
    }

    /** Empty where the cell is empty or wrong. */
    public static Optional<AlarmDefinition> read(PointRow row, Facts facts, UnitCells units) {
        return row.has(COLUMN) ? new AlarmCell(row, facts, units).read() : Optional.empty();
    }

    private Optional<AlarmDefinition> read() {
        if (!facts.isRead()) {
            row.error(COLUMN, "the point is not read, so that nobody would know");
            return Optional.empty();
        }
        String[] parts = row.text(COLUMN).split(" +(?=[A-Za-z-]+ *=)");
        Optional<Kind> kind = kind(parts[0]);
        if (kind.isEmpty() || !readSettings(kind.get(), List.of(parts).subList(1, parts.length))) {
            return Optional.empty();
        }
        Optional<Duration> delay = delay();
        return delay.flatMap(d -> kind.get().isLimit() ? limit(kind.get(), d) : states(kind.get(), d));
    }

    private Optional<Kind> kind(String word) {
        Optional<Kind> kind = Kind.ofWord(word);
        if (kind.isEmpty()) {
            row.error(
                    COLUMN,
                    "must begin with one of " + String.join(", ", Kind.words()) + ", " + EXAMPLES + " (was '" + word
                            + "')" + NearestWord.hint(word, Kind.words()));
        }
        return kind;
    }

    private boolean readSettings(Kind kind, List<String> parts) {
        Set<String> allowed = new TreeSet<>(kind.isLimit() ? Set.of(WHEN, DELAY, DEADBAND) : Set.of(WHEN, DELAY));
        for (String part : parts) {
            int equals = part.indexOf('=');
            String key = part.substring(0, equals).strip();
            if (!allowed.contains(key)) {
                row.error(
                        COLUMN,
                        kind.word() + " takes " + String.join(", ", allowed) + " (was '" + key + "')"
                                + NearestWord.hint(key, allowed));
                return false;
            }
            if (settings.put(key, part.substring(equals + 1).strip()) != null) {
                row.error(COLUMN, key + " stands here twice");
                return false;
            }
        }
        return true;
    }

    /** Whole seconds, since Time_Delay of a BACnet object counts them (ASHRAE 135, 12.2; from memory). */
    private Optional<Duration> delay() {
        String text = settings.getOrDefault(DELAY, "0 s");
        Optional<Duration> delay = Durations.parse(text)
                .filter(d -> d.toMillis() % 1_000 == 0 && d.compareTo(AlarmDefinition.LONGEST_DELAY) <= 0);
        if (delay.isEmpty()) {
            row.error(COLUMN, "delay must be 0 s to 24 h in whole seconds, like 'delay=30 s' (was '" + text + "')");
        }
        return delay;
    }

    private Optional<AlarmDefinition> limit(Kind kind, Duration delay) {
        if (facts.kind() != Meaning.Kind.NUMBER) {
            row.error(
                    COLUMN,
                    kind.word() + " is for numbers, and this row holds " + what() + "; off-normal is for states");
            return Optional.empty();
        }
        String sign = kind == Kind.HIGH ? ">" : "<";
        String when = settings.getOrDefault(WHEN, "");
        if (!when.matches(sign + " *" + NUMBER)) {
            row.error(
                    COLUMN,
                    kind.word() + " needs when=" + sign + " and a number in the row's unit, like 'when=" + sign
                            + "95' (was '" + when + "')");
            return Optional.empty();
        }
        String band = settings.getOrDefault(DEADBAND, "0");
        if (!band.matches("\\+?\\d{1,12}(\\.\\d{1,12})?")) {
            row.error(
                    COLUMN,
                    "deadband must be 0 or a number above it in the row's unit, like 'deadband=2' (was '" + band
                            + "')");
            return Optional.empty();
        }
        return limit(kind, new BigDecimal(when.substring(1).strip()), new BigDecimal(band), delay);
    }

    private Optional<AlarmDefinition> limit(Kind kind, BigDecimal limit, BigDecimal deadband, Duration delay) {
        BigDecimal back = kind == Kind.HIGH ? limit.subtract(deadband) : limit.add(deadband);
        Optional<Limits.Range> valid = facts.limits().valid();
        if (valid.isPresent() && !isWithin(valid.get(), kind, limit, back)) {
            row.error(
                    COLUMN,
                    kind.word() + " could not come and go within valid, " + row.text("valid") + ": it comes "
                            + (kind == Kind.HIGH ? "above " : "below ") + limit.toPlainString() + " and goes at "
                            + back.toPlainString());
            return Optional.empty();
        }
        return Optional.of(new AlarmDefinition.OfLimit(
                kind, units.conversion().apply(limit), units.conversion().applyToDifference(deadband), delay));
    }

    /** Outside of valid the point is bad, which is no alarm. */
    private static boolean isWithin(Limits.Range valid, Kind kind, BigDecimal limit, BigDecimal back) {
        return kind == Kind.HIGH
                ? limit.compareTo(valid.high()) < 0 && back.compareTo(valid.low()) >= 0
                : limit.compareTo(valid.low()) > 0 && back.compareTo(valid.high()) <= 0;
    }

    private Optional<AlarmDefinition> states(Kind kind, Duration delay) {
        if (facts.kind() != Meaning.Kind.BIT && facts.kind() != Meaning.Kind.STATE) {
            row.error(
                    COLUMN,
                    kind.word() + " is for a bit or a point with states, and this row holds " + what()
                            + "; high and low are for numbers");
            return Optional.empty();
        }
        String when = settings.getOrDefault(WHEN, "");
        if (when.isEmpty()) {
            return lockout(kind, delay);
        }
        return new NamedStates(row, COLUMN, "the point", facts.states())
                .read(when)
                .filter(this::leavesSome)
                .map(states -> new AlarmDefinition.OfStates(kind, states, delay));
    }

    /** Only where the row says so is it certain that 1 means a lockout. */
    private Optional<AlarmDefinition> lockout(Kind kind, Duration delay) {
        if (kind == Kind.LOCKOUT
                && facts.meaning().filter(m -> m == Meaning.LOCKOUT).isPresent()) {
            return Optional.of(new AlarmDefinition.OfStates(kind, Set.of(1L), delay));
        }
        row.error(
                COLUMN,
                kind == Kind.LOCKOUT
                        ? "lockout needs lockout under means, or the states that are one, like 'lockout when=77'"
                        : "off-normal needs the states that are not as they should be, like 'when=blocked|fault'");
        return Optional.empty();
    }

    private boolean leavesSome(Set<Long> states) {
        int all = facts.states().isEmpty() ? 2 : facts.states().texts().size();
        if (states.size() == all) {
            row.error(COLUMN, "when names every state of the point, so that it would never be well");
        }
        return states.size() < all;
    }

    private String what() {
        return facts.kind().withArticle() + " (format '" + facts.format().word() + "')";
    }
}
