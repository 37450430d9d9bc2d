/** Tests: what is installed on a box, as the build has packed it: the archive, its launcher, and the image made of it. */
@NullMarked
package burnerbridge.daemon.box;

import org.jspecify.annotations.NullMarked;
