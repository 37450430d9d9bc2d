/** Files of keys and values, with the place of each. */
@NullMarked
package burnerbridge.config.yaml;

import org.jspecify.annotations.NullMarked;
