/** What may be written: the permits of the site file, each held against the row that it names and all that is protected. */
@NullMarked
package burnerbridge.config.permit;

import org.jspecify.annotations.NullMarked;
