package burnerbridge.site;

import static burnerbridge.site.Meaning.Kind.BIT;
import static burnerbridge.site.Meaning.Kind.NUMBER;
import static burnerbridge.site.Meaning.Kind.STATE;
import static burnerbridge.site.Meaning.Kind.TEXT;
import static burnerbridge.site.Meaning.Kind.TIME;
import static burnerbridge.site.Role.CLOCK;
import static burnerbridge.site.Role.COUNTER;
import static burnerbridge.site.Role.DEMAND;
import static burnerbridge.site.Role.ENABLE;
import static burnerbridge.site.Role.FAULT_RECORD;
import static burnerbridge.site.Role.HEARTBEAT;
import static burnerbridge.site.Role.IDENTITY;
import static burnerbridge.site.Role.MEASUREMENT;
import static burnerbridge.site.Role.MODE;
import static burnerbridge.site.Role.SETTING;
import static burnerbridge.site.Role.STATUS;
import static burnerbridge.site.unit.Quantity.ANGLE;
import static burnerbridge.site.unit.Quantity.CONCENTRATION;
import static burnerbridge.site.unit.Quantity.CURRENT;
import static burnerbridge.site.unit.Quantity.EMISSION;
import static burnerbridge.site.unit.Quantity.ENERGY;
import static burnerbridge.site.unit.Quantity.FREQUENCY;
import static burnerbridge.site.unit.Quantity.LENGTH;
import static burnerbridge.site.unit.Quantity.MASS;
import static burnerbridge.site.unit.Quantity.MASS_FLOW;
import static burnerbridge.site.unit.Quantity.NONE;
import static burnerbridge.site.unit.Quantity.POWER;
import static burnerbridge.site.unit.Quantity.PRESSURE;
import static burnerbridge.site.unit.Quantity.RATIO;
import static burnerbridge.site.unit.Quantity.ROTATIONAL_SPEED;
import static burnerbridge.site.unit.Quantity.TEMPERATURE;
import static burnerbridge.site.unit.Quantity.VOLTAGE;
import static burnerbridge.site.unit.Quantity.VOLUME;
import static burnerbridge.site.unit.Quantity.VOLUME_FLOW;

import burnerbridge.site.unit.Quantity;
import java.util.Arrays;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/**
 * What a point tells, from a closed list, so that the program can compute with it. A meaning with yes and
 * no is a bit in which 1 means yes. {@code docs/meanings.md} says what each is.
 */
public enum Meaning {
    PHASE(once(STATE), roles(STATUS)),
    RUNNING(once(BIT), roles(STATUS)),
    FLAME(once(BIT), roles(STATUS)),
    LOCKOUT(once(BIT), roles(STATUS)),
    WARNING(many(BIT), roles(STATUS)),
    AVAILABLE(once(BIT), roles(STATUS)),
    CALL_FOR_HEAT(once(BIT), roles(STATUS)),
    RELEASED(once(BIT), roles(STATUS, ENABLE)),
    OPERATING_MODE(once(BIT, STATE), roles(STATUS, MODE)),
    FUEL(once(BIT, STATE), roles(STATUS, MODE, SETTING)),
    FAULT_CAUSE(once(STATE, NUMBER), roles(STATUS, FAULT_RECORD), NONE),
    FAULT_DETAIL(once(STATE, NUMBER), roles(STATUS, FAULT_RECORD), NONE),
    PAST_FAULT_CAUSE(many(STATE, NUMBER), roles(FAULT_RECORD), NONE),
    PAST_FAULT_TIME(many(TIME), roles(FAULT_RECORD)),
    FIRING_RATE(once(NUMBER), roles(MEASUREMENT, STATUS), RATIO),
    LOAD_DEMAND(once(NUMBER), roles(MEASUREMENT, STATUS, DEMAND), RATIO),
    THERMAL_POWER(once(NUMBER), roles(MEASUREMENT), POWER),
    SET_POINT(once(NUMBER), roles(MEASUREMENT, STATUS, SETTING, DEMAND), TEMPERATURE, PRESSURE),
    CONTROLLED_VALUE(once(NUMBER), roles(MEASUREMENT), TEMPERATURE, PRESSURE),
    SUPPLY_TEMPERATURE(once(NUMBER), roles(MEASUREMENT), TEMPERATURE),
    RETURN_TEMPERATURE(once(NUMBER), roles(MEASUREMENT), TEMPERATURE),
    FEED_WATER_TEMPERATURE(once(NUMBER), roles(MEASUREMENT), TEMPERATURE),
    OUTDOOR_TEMPERATURE(once(NUMBER), roles(MEASUREMENT), TEMPERATURE),
    FLUE_TEMPERATURE(once(NUMBER), roles(MEASUREMENT), TEMPERATURE),
    COMBUSTION_AIR_TEMPERATURE(once(NUMBER), roles(MEASUREMENT), TEMPERATURE),
    STEAM_PRESSURE(once(NUMBER), roles(MEASUREMENT), PRESSURE),
    WATER_PRESSURE(once(NUMBER), roles(MEASUREMENT), PRESSURE),
    WATER_LEVEL(once(NUMBER), roles(MEASUREMENT), RATIO, LENGTH),
    STEAM_FLOW(once(NUMBER), roles(MEASUREMENT), MASS_FLOW),
    WATER_FLOW(once(NUMBER), roles(MEASUREMENT), VOLUME_FLOW, MASS_FLOW),
    FUEL_PRESSURE(many(NUMBER), roles(MEASUREMENT), PRESSURE),
    AIR_PRESSURE(many(NUMBER), roles(MEASUREMENT), PRESSURE),
    FURNACE_PRESSURE(once(NUMBER), roles(MEASUREMENT), PRESSURE),
    FUEL_POSITION(many(NUMBER), roles(MEASUREMENT), ANGLE, RATIO),
    AIR_POSITION(many(NUMBER), roles(MEASUREMENT), ANGLE, RATIO),
    RECIRCULATION_POSITION(many(NUMBER), roles(MEASUREMENT), ANGLE, RATIO),
    FAN_SPEED(many(NUMBER), roles(MEASUREMENT), ROTATIONAL_SPEED, FREQUENCY, RATIO),
    FLAME_SIGNAL(many(NUMBER), roles(MEASUREMENT), RATIO, CURRENT, VOLTAGE, NONE),
    OXYGEN(once(NUMBER), roles(MEASUREMENT), RATIO),
    CARBON_MONOXIDE(once(NUMBER), roles(MEASUREMENT), RATIO, CONCENTRATION, EMISSION),
    CARBON_DIOXIDE(once(NUMBER), roles(MEASUREMENT), RATIO),
    NITROGEN_OXIDES(once(NUMBER), roles(MEASUREMENT), RATIO, CONCENTRATION, EMISSION),
    COMBUSTION_EFFICIENCY(once(NUMBER), roles(MEASUREMENT), RATIO),
    FUEL_FLOW(many(NUMBER), roles(MEASUREMENT), VOLUME_FLOW, MASS_FLOW),
    FUEL_USED(many(NUMBER), roles(COUNTER), VOLUME, MASS, ENERGY),
    HEAT_DELIVERED(once(NUMBER), roles(COUNTER), ENERGY),
    STARTS(once(NUMBER), roles(COUNTER), NONE),
    LOCKOUTS(once(NUMBER), roles(COUNTER), NONE),
    RUN_HOURS(once(NUMBER), roles(COUNTER), Quantity.TIME),
    SERIAL_NUMBER(once(TEXT, NUMBER), roles(IDENTITY), NONE),
    MODEL(once(TEXT, STATE, NUMBER), roles(IDENTITY), NONE),
    FIRMWARE(many(TEXT, NUMBER), roles(IDENTITY), NONE),
    CLOCK_TIME(once(TIME), roles(CLOCK)),
    ALIVE(once(BIT, NUMBER), roles(HEARTBEAT), NONE);

    /** What kind of value a point has. */
    public enum Kind {
        BIT,
        /** A number with texts. */
        STATE,
        NUMBER,
        TEXT,
        TIME;

        /** What a format holds. */
        public static Kind of(PointFormat format, States states) {
            if (format.isBit()) {
                return BIT;
            }
            if (format instanceof PointFormat.Text) {
                return TEXT;
            }
            if (format instanceof PointFormat.Epoch32 || format instanceof PointFormat.Calendar) {
                return TIME;
            }
            return states.isEmpty() ? NUMBER : STATE;
        }

        /** The word used in the table of meanings. */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }

        /** For sentences: {@code a point with states}. */
        public String withArticle() {
            return this == STATE ? "a point with states" : "a " + word();
        }
    }

    /** The kinds of value, and whether a type has at most one. */
    private record Form(Set<Kind> kinds, boolean once) {}

    private final Form form;
    private final Set<Role> roles;
    private final Set<Quantity> quantities;

    Meaning(Form form, Set<Role> roles, Quantity... quantities) {
        this.form = form;
        this.roles = roles;
        this.quantities = copy(quantities, Quantity.class);
    }

    private static Form once(Kind... kinds) {
        return new Form(copy(kinds, Kind.class), true);
    }

    private static Form many(Kind... kinds) {
        return new Form(copy(kinds, Kind.class), false);
    }

    private static Set<Role> roles(Role... roles) {
        return copy(roles, Role.class);
    }

    /** In the order of the enumeration, for messages. */
    private static <E extends Enum<E>> Set<E> copy(E[] some, Class<E> type) {
        Set<E> all = EnumSet.noneOf(type);
        all.addAll(Arrays.asList(some));
        return Collections.unmodifiableSet(all);
    }

    public static Optional<Meaning> ofWord(String word) {
        return Arrays.stream(values()).filter(m -> m.word().equals(word)).findFirst();
    }

    public static List<String> words() {
        return Arrays.stream(values()).map(Meaning::word).toList();
    }

    /** The word used in the point list: {@code flue-temperature}. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    public Set<Kind> kinds() {
        return form.kinds();
    }

    public Set<Role> roles() {
        return roles;
    }

    /** Of the unit of a number; {@link Quantity#NONE} stands for no unit. Empty where no number can tell it. */
    public Set<Quantity> quantities() {
        return quantities;
    }

    /** Whether a type has at most one point with it. */
    public boolean isOnce() {
        return form.once();
    }
}
