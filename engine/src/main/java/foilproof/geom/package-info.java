/** Frames, points, transforms, arcs, lengths with units, predicates. Knows nothing of files, programs or benches. */
@NullMarked
package foilproof.geom;

import org.jspecify.annotations.NullMarked;
