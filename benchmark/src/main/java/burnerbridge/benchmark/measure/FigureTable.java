package burnerbridge.benchmark.measure;

import java.util.ArrayList;
import java.util.List;

/** Figures as a table of Markdown, for people. */
public final class FigureTable {
    private static final String HEADER = "| run | what | median | spread | reference | ratio | aim |";
    private static final String RULE = "|---|---|---|---|---|---|---|";

    private FigureTable() {}

    /** Its lines; a run is named in its first row only. */
    public static List<String> lines(List<Figure> figures) {
        List<String> lines = new ArrayList<>(List.of(HEADER, RULE));
        String before = "";
        for (Figure figure : figures) {
            lines.add(row(figure, figure.run().equals(before) ? "" : figure.run()));
            before = figure.run();
        }
        return lines;
    }

    private static String row(Figure figure, String run) {
        boolean alone = figure.reference().isEmpty();
        return "| "
                + String.join(
                        " | ",
                        text(run),
                        text(figure.what() + (figure.unit().isEmpty() ? "" : ", " + figure.unit())),
                        Digits.text(figure.seen().median()),
                        figure.seen().spreadText(),
                        alone ? "" : text(figure.reference()) + ": " + Digits.text(figure.referenceMedian()),
                        alone ? "" : Digits.ratio(figure.ratio()),
                        figure.aim().told(figure))
                + " |";
    }

    private static String text(String text) {
        return text.replace("|", "\\|");
    }
}
