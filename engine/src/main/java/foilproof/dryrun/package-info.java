/** The face of the engine: one call runs a job with progress and cancel and returns an immutable result. */
@NullMarked
package foilproof.dryrun;

import org.jspecify.annotations.NullMarked;
