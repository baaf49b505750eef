/** The catalogue of findings, one class a check, and the layering of causes. */
@NullMarked
package foilproof.findings;

import org.jspecify.annotations.NullMarked;
