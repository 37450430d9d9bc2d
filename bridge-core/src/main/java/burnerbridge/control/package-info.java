/** The control socket: how the practitioner's verbs ask a running bridge; it knows no stage and no request by itself. */
@NullMarked
package burnerbridge.control;

import org.jspecify.annotations.NullMarked;
