/** What stands around a data unit on each kind of line, and the checks that make bytes a reply. */
@NullMarked
package burnerbridge.line.frame;

import org.jspecify.annotations.NullMarked;
