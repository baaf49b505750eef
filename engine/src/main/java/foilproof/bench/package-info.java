/** What is on the table: job file, blank, foil, spoil board, tools, machine, sides, hold-down, keep-outs. */
@NullMarked
package foilproof.bench;

import org.jspecify.annotations.NullMarked;
