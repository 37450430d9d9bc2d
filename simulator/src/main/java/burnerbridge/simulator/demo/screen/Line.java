package burnerbridge.simulator.demo.screen;

/** A line of the screen. */
record Line(String text, Tone tone) {

    static Line plain(String text) {
        return new Line(text, Tone.PLAIN);
    }

    /** As it is written: cut off at the edge, and painted where there are colours. */
    String written(int columns, boolean colours) {
        String cut = text.length() <= columns ? text : text.substring(0, columns);
        return colours ? tone.paint(cut) : cut;
    }
}
