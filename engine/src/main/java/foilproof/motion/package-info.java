/** Canonical commands to timed segments in the blank's frame, cut into tool runs. */
@NullMarked
package foilproof.motion;

import org.jspecify.annotations.NullMarked;
