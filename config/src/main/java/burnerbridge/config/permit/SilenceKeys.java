package burnerbridge.config.permit;

import burnerbridge.config.meaning.NamedStates;
import burnerbridge.config.problem.Durations;
import burnerbridge.config.type.TypeReader;
import burnerbridge.config.yaml.YamlMap;
import burnerbridge.site.Role;
import burnerbridge.site.permit.Allowed;
import burnerbridge.site.permit.Silence;
import java.math.BigDecimal;
import java.time.Duration;
import java.util.Optional;
import java.util.Set;

/** Reads {@code silence-after} and {@code on-silence}: what happens when nobody asks any more. */
final class SilenceKeys {
    private static final String KEY = PermitKeys.ON_SILENCE;
    private static final String RELEASE = "release";
    private static final String WRITE = "write ";
    private static final BigDecimal OFF = BigDecimal.ZERO;

    private final YamlMap map;
    private final Optional<PermitRow> row;
    private final Optional<RowValues> values;

    /** @param values of the row, where it holds numbers */
    SilenceKeys(YamlMap map, Optional<PermitRow> row, Optional<RowValues> values) {
        this.map = map;
        this.row = row;
        this.values = values;
    }

    private boolean is(Role role) {
        return row.filter(r -> r.role() == role).isPresent();
    }

    /** Whether nothing has to happen: a record that stays selected harms nobody. */
    boolean isNotWanted() {
        return is(Role.RECORD_SELECT);
    }

    /**
     * Empty where it is missing or wrong, and then it is told.
     *
     * @param allowed what may be written, where that is right
     */
    Optional<Silence> read(Optional<Allowed> allowed) {
        if (isNotWanted()) {
            PermitKeys.refuse(
                    map,
                    Set.of(PermitKeys.SILENCE_AFTER, KEY),
                    "is for demand, enable and mode; a record that stays selected needs no end");
            return Optional.empty();
        }
        Optional<Duration> after = PermitKeys.time(
                map, PermitKeys.SILENCE_AFTER, "how long an ask holds when nobody repeats it, like 15 min");
        Optional<String> text = map.requiredText(
                KEY, "what happens when nobody asks any more: 'write' and a value, like 'write 20', or release");
        Optional<Silence.Action> action = text.flatMap(said -> action(said, after, allowed));
        return after.flatMap(time -> action.map(does -> new Silence(time, does)));
    }

    private Optional<Silence.Action> action(String text, Optional<Duration> after, Optional<Allowed> allowed) {
        if (text.equals(RELEASE)) {
            return release(after);
        }
        if (!text.startsWith(WRITE) || text.substring(WRITE.length()).isBlank()) {
            map.error(KEY, "must be 'write' and a value, like 'write 20', or release (was '" + text + "')");
            return Optional.empty();
        }
        String value = text.substring(WRITE.length()).strip();
        return row.filter(PermitRow::hasStates).isPresent() ? state(value, allowed) : number(value, text, allowed);
    }

    private Optional<Silence.Action> release(Optional<Duration> after) {
        if (is(Role.ENABLE)) {
            refuseAllButOff(RELEASE);
            return Optional.empty();
        }
        if (row.isEmpty()) {
            return Optional.empty();
        }
        Optional<Duration> watchdog = row.get().options().watchdog();
        String key = "types." + row.get().controller().type().name() + "." + TypeReader.WATCHDOG;
        if (watchdog.isEmpty()) {
            map.error(
                    KEY,
                    "release is for a controller that lets a demand go by itself, and " + key
                            + " names no time after which this one does");
            return Optional.empty();
        }
        if (after.isPresent() && after.get().compareTo(watchdog.get()) > 0) {
            map.error(
                    PermitKeys.SILENCE_AFTER,
                    "must be at most " + Durations.text(watchdog.get()) + ", " + key
                            + ", since the controller lets go after that (was '" + Durations.text(after.get()) + "')");
            return Optional.empty();
        }
        return Optional.of(new Silence.Action.Release());
    }

    private void refuseAllButOff(String was) {
        map.error(
                KEY,
                "of an enable must write the state that is off, number 0: a burner nobody asks for must not run on"
                        + " (was '" + was + "')");
    }

    private Optional<Silence.Action> state(String value, Optional<Allowed> allowed) {
        PermitRow known = row.orElseThrow();
        Optional<BigDecimal> number = new NamedStates(
                        message -> map.error(KEY, message),
                        known.id().toString(),
                        known.point().states())
                .one(value)
                .map(BigDecimal::valueOf);
        if (number.isEmpty()) {
            return Optional.empty();
        }
        if (is(Role.ENABLE) && number.get().compareTo(OFF) != 0) {
            refuseAllButOff(WRITE + value);
            return Optional.empty();
        }
        if (allowed.isPresent() && !allowed.get().holds(number.get())) {
            map.error(KEY, "must be one of states (was '" + WRITE + value + "')");
            return Optional.empty();
        }
        return number.map(Silence.Action.Write::new);
    }

    private Optional<Silence.Action> number(String value, String text, Optional<Allowed> allowed) {
        Optional<BigDecimal> number = RowValues.number(value);
        if (number.isEmpty() && row.isPresent()) {
            map.error(KEY, "must write a number in the row's unit, like 'write 20' (was '" + text + "')");
        }
        if (number.isEmpty() || values.isEmpty()) {
            return Optional.empty();
        }
        BigDecimal shown = values.get().shown(number.get());
        Optional<String> objection = allowed.flatMap(all -> values.get().objectionTo(shown, all));
        objection.ifPresent(why -> map.error(KEY, why + " (was '" + text + "')"));
        return objection.isPresent() ? Optional.empty() : Optional.of(new Silence.Action.Write(shown));
    }
}
