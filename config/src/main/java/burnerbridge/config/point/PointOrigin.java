package burnerbridge.config.point;

/**
 * Where a point stands, and what of its row the loaded point does not keep.
 *
 * @param file relative to the site folder
 * @param line from 1
 * @param unit of the value as the controller has it, as written; empty where there is none
 */
public record PointOrigin(String file, int line, String unit) {}
