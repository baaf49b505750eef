/** Corpora of seeded jobs: good boards in many manners of writing, and boards with one planted fault each. */
@NullMarked
package foilproof.corpus;

import org.jspecify.annotations.NullMarked;
