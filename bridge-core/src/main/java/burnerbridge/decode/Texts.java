package burnerbridge.decode;

import burnerbridge.model.Registers;
import burnerbridge.model.TextValue;
import burnerbridge.site.PointFormat;
import java.util.Optional;

/** Reads text: up to the first NUL, without the spaces at its end. A control character makes it unreadable. */
final class Texts {
    private Texts() {}

    static Optional<TextValue> read(PointFormat.Text format, Registers raw) {
        StringBuilder text = new StringBuilder(2 * raw.count());
        for (int i = 0; i < 2 * raw.count(); i++) {
            int word = Words.word(raw, i / 2, format.order());
            int character = i % 2 == 0 ? word >> 8 : word & 0xFF;
            if (character == 0) {
                break;
            }
            if (Character.isISOControl(character)) {
                return Optional.empty();
            }
            text.append((char) character);
        }
        return Optional.of(new TextValue(text.toString().stripTrailing()));
    }
}
