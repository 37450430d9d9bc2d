/** Makes a point list in CSV of a workbook; the running bridge never comes here. */
@NullMarked
package burnerbridge.config.workbook;

import org.jspecify.annotations.NullMarked;
