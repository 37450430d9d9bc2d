/** What a site says of a controller type, with its list of causes. */
@NullMarked
package burnerbridge.config.type;

import org.jspecify.annotations.NullMarked;
