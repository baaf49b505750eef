/** Small generators of the sample jobs: they write the programs and design files that lie in {@code sample-jobs}. */
@NullMarked
package foilproof.samples;

import org.jspecify.annotations.NullMarked;
