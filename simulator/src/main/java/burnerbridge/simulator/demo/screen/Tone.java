package burnerbridge.simulator.demo.screen;

/** How a line is to be seen. */
enum Tone {
    PLAIN(""),
    STRONG("1"),
    GOOD("32"),
    DOUBTFUL("33"),
    BAD("31");

    /** Of "select graphic rendition" (ECMA-48, 8.3.117; from memory). */
    private final String code;

    Tone(String code) {
        this.code = code;
    }

    String paint(String text) {
        return code.isEmpty() ? text : "\u001b[" + code + "m" + text + "\u001b[0m";
    }

    static Tone ofQuality(String quality) {
        return switch (quality) {
            case "good" -> GOOD;
            case "bad" -> BAD;
            default -> DOUBTFUL;
        };
    }
}
