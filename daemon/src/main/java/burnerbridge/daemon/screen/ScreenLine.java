package burnerbridge.daemon.screen;

import burnerbridge.model.Quality;
import org.jspecify.annotations.Nullable;

/**
 * One line of a terminal.
 *
 * @param from where the part that has a colour begins, in characters
 * @param to where it ends
 * @param quality which gives the colour; null for none
 */
record ScreenLine(String text, int from, int to, @Nullable Quality quality) {

    static ScreenLine plain(String text) {
        return new ScreenLine(text, 0, 0, null);
    }

    /** The quality that colours a character; null where none does. */
    @Nullable
    Quality at(int index) {
        return index >= from && index < to ? quality : null;
    }

    char charAt(int index) {
        return index < text.length() ? text.charAt(index) : ' ';
    }

    /** Whether every character takes one cell, so that characters and cells can be counted alike. */
    boolean isSimple() {
        return TextWidth.of(text) == text.length();
    }
}
