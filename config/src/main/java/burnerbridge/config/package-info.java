/** How a site is described in files, and everything that can be wrong with the description. */
@NullMarked
package burnerbridge.config;

import org.jspecify.annotations.NullMarked;
