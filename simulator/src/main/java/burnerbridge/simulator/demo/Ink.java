package burnerbridge.simulator.demo;

/**
 * Colours for a terminal that shows them, nothing for one that does not.
 *
 * @param shown whether escape sequences are written
 */
record Ink(boolean shown) {

    String good(String text) {
        return painted("32", text);
    }

    String doubtful(String text) {
        return painted("33", text);
    }

    String bad(String text) {
        return painted("31", text);
    }

    String strong(String text) {
        return painted("1", text);
    }

    /** By the quality of a point. */
    String quality(String quality, String text) {
        return switch (quality) {
            case "good" -> good(text);
            case "bad" -> bad(text);
            default -> doubtful(text);
        };
    }

    private String painted(String code, String text) {
        return shown ? "\u001b[" + code + "m" + text + "\u001b[0m" : text;
    }
}
