/** As much of HTTP as two pages need, on one thread, with a bound on everything; knows no page. */
@NullMarked
package burnerbridge.web.http;

import org.jspecify.annotations.NullMarked;
