/** Health and metrics over HTTP: two pages, and everything else is refused. */
@NullMarked
package burnerbridge.web;

import org.jspecify.annotations.NullMarked;
