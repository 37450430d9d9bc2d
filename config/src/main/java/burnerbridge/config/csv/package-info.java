/** Files of rows and cells as spreadsheets write them, with the place of each cell. */
@NullMarked
package burnerbridge.config.csv;

import org.jspecify.annotations.NullMarked;
