package burnerbridge.config.point;

/**
 * Where a point stands, and what of its row the loaded point does not keep.
 *
 * @param file relative to the site folder
 * @param line from 1
 * @param unit of the value as the controller has it, as written; empty where there is none
 * @param source page or table of the manual; empty where the row does not say
 */
public record PointOrigin(String file, int line, String unit, String source) {

    /** For messages: {@code line 13 of points/hot-water.csv}. */
    public String text() {
        return "line " + line + " of " + file;
    }
}
