/** Layer images, drill files, netlists, outlines: what was intended. */
@NullMarked
package foilproof.design;

import org.jspecify.annotations.NullMarked;
