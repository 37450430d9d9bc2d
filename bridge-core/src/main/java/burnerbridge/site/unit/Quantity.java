package burnerbridge.site.unit;

import burnerbridge.site.unit.Basis.Word;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/**
 * What is measured. Units of one quantity can be shown as each other, units of two never, even where
 * their dimensions agree: a torque is no energy, revolutions are no hertz.
 */
public enum Quantity {
    TEMPERATURE(Word.DIFFERENCE),
    TEMPERATURE_RATE,
    PRESSURE(Word.GAUGE, Word.ABSOLUTE, Word.DIFFERENCE),
    POWER(Word.NET, Word.GROSS),
    APPARENT_POWER,
    REACTIVE_POWER,
    ENERGY(Word.NET, Word.GROSS),
    VOLUME(Word.WET, Word.DRY, Word.NORMAL, Word.STANDARD),
    VOLUME_FLOW(Word.WET, Word.DRY, Word.NORMAL, Word.STANDARD),
    MASS,
    MASS_FLOW,
    RATIO(Word.WET, Word.DRY, Word.NET, Word.GROSS),
    RELATIVE_HUMIDITY,
    CONCENTRATION(Word.WET, Word.DRY, Word.NORMAL, Word.STANDARD),
    DENSITY(Word.NORMAL, Word.STANDARD),
    HEATING_VALUE(Word.NET, Word.GROSS, Word.NORMAL, Word.STANDARD),
    SPECIFIC_ENERGY(Word.NET, Word.GROSS),
    EMISSION(Word.NET, Word.GROSS),
    HEAT_FLUX,
    CURRENT,
    VOLTAGE,
    RESISTANCE,
    CONDUCTANCE,
    CONDUCTIVITY,
    FREQUENCY,
    ROTATIONAL_SPEED,
    RATE,
    TIME,
    ANGLE,
    LENGTH,
    AREA,
    SPEED,
    TORQUE,
    VISCOSITY,
    ACIDITY,
    NONE;

    private final Set<Word> bases;

    Quantity(Word... bases) {
        Set<Word> all = EnumSet.noneOf(Word.class);
        all.addAll(Arrays.asList(bases));
        this.bases = Set.copyOf(all);
    }

    static Optional<Quantity> ofWord(String word) {
        return Arrays.stream(values()).filter(q -> q.word().equals(word)).findFirst();
    }

    /** The word used in the table: {@code volume-flow}. */
    public String word() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** For sentences: {@code a volume flow}. */
    public String withArticle() {
        String text = word().replace('-', ' ');
        return ("aeiou".indexOf(text.charAt(0)) < 0 ? "a " : "an ") + text;
    }

    /** What its basis may be. */
    public boolean allows(Word basis) {
        return bases.contains(basis);
    }

    /** The words of {@link #allows}, for messages, in the order in which a basis is written. */
    public String allowed() {
        return Basis.text(bases);
    }
}
