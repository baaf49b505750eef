/** Result JSON, SARIF, HTML, flat pictures, exports. */
@NullMarked
package foilproof.report;

import org.jspecify.annotations.NullMarked;
