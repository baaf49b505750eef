package foilproof.bench;

import java.util.OptionalDouble;

/**
 * The board that is given up below the blank.
 *
 * @param thicknessMm mm, empty where not known: whether the table is reached is then not checked
 */
public record SpoilBoard(OptionalDouble thicknessMm) {}
