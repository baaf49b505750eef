/** The exercises: planted faults to be found before a blank pays for them. */
@NullMarked
package foilproof.app.practice;

import org.jspecify.annotations.NullMarked;
