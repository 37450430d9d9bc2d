/** The log of a bridge that runs for years: bounded, with repeats counted, as text or as JSON, and kept in part for the report on what is wrong. */
@NullMarked
package burnerbridge.daemon.log;

import org.jspecify.annotations.NullMarked;
