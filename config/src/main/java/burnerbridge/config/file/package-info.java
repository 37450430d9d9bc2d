/** The site file, and what becomes of it together with the point lists. */
@NullMarked
package burnerbridge.config.file;

import org.jspecify.annotations.NullMarked;
