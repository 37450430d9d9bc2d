/** Secrets that lie in files of their own: read whole, watched for another, and never shown. */
@NullMarked
package burnerbridge.secret;

import org.jspecify.annotations.NullMarked;
