/** Source spans (file, line, column), diagnostics, input limits. */
@NullMarked
package foilproof.source;

import org.jspecify.annotations.NullMarked;
