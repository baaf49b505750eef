/** RS274/NGC text to canonical commands. Modal state lives only here; tool lengths and diameters are asked for through an interface of this package. */
@NullMarked
package foilproof.language;

import org.jspecify.annotations.NullMarked;
