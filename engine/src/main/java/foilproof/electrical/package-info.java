/** Nets, opens, shorts, resistance, current, spacing. */
@NullMarked
package foilproof.electrical;

import org.jspecify.annotations.NullMarked;
