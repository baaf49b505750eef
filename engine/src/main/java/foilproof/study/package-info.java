/** What-ifs over whole runs: swaps, spreads, comparisons. */
@NullMarked
package foilproof.study;

import org.jspecify.annotations.NullMarked;
