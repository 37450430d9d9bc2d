/** Who may ask: the token, how often one may be guessed, and by which names this machine is asked. */
@NullMarked
package burnerbridge.web.access;

import org.jspecify.annotations.NullMarked;
