/** Tiles, sweeps, envelopes, composition under conditions, keyframes for scrubbing. */
@NullMarked
package foilproof.stock;

import org.jspecify.annotations.NullMarked;
