/** Mask at the foil bottom, pieces, merge tree and Z window, widths, gaps, hairs, foil left. */
@NullMarked
package foilproof.copper;

import org.jspecify.annotations.NullMarked;
