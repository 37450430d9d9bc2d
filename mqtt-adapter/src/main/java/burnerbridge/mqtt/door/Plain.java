package burnerbridge.mqtt.door;

/** Texts of strangers, before people, files or terminals see them. */
final class Plain {
    private Plain() {}

    /** Whether it is one line of characters that can be seen: none controls a terminal, turns a line round or is half. */
    static boolean isPlain(String text) {
        return text.codePoints().allMatch(Plain::isPlain);
    }

    private static boolean isPlain(int point) {
        return switch (Character.getType(point)) {
            case Character.CONTROL,
                    Character.FORMAT,
                    Character.SURROGATE,
                    Character.PRIVATE_USE,
                    Character.UNASSIGNED,
                    Character.LINE_SEPARATOR,
                    Character.PARAGRAPH_SEPARATOR -> false;
            default -> true;
        };
    }

    /** With a question mark for each that is not plain, and cut to a number of characters. */
    static String of(String text, int longest) {
        StringBuilder plain = new StringBuilder();
        text.codePoints().limit(longest + 1L).forEach(point -> plain.appendCodePoint(isPlain(point) ? point : '?'));
        boolean fits = plain.codePointCount(0, plain.length()) <= longest;
        return fits ? plain.toString() : plain.substring(0, plain.offsetByCodePoints(0, longest - 1)) + "…";
    }
}
