package burnerbridge.daemon;

/**
 * A permitted point of the plant of many units.
 *
 * @param load whether it is a demand in tenths of a percent; else an enable
 */
record AskTarget(int unit, boolean load) {
    static final int LOAD_ADDRESS = 44;
    static final int ENABLE_ADDRESS = 16;
    static final int LOWEST = 200;
    static final int HIGHEST = 900;
    /** The largest change of one write, in tenths of a percent. */
    static final int STEP = 100;

    int address() {
        return load ? LOAD_ADDRESS : ENABLE_ADDRESS;
    }

    String row() {
        return load ? "load-demand" : "enable";
    }

    String topic() {
        return "plant/asked/boiler-" + unit + "/" + row();
    }

    /** What silence writes. */
    int silent() {
        return load ? LOWEST : 0;
    }
}
