/** The command line: the only console output and exit codes. */
@NullMarked
package foilproof.app.cli;

import org.jspecify.annotations.NullMarked;
