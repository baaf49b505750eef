package foilproof.source;

/**
 * Declared limits of the inputs: what is over them is refused with an error of its own, before memory is spent.
 *
 * @param fileBytes largest input file, bytes
 * @param lineChars longest program line in the common language, characters (strict: 256, NISTIR 6556 section 3.3)
 * @param numberChars longest number, characters
 * @param nesting deepest bracket nesting
 * @param motions most motions that one program may make
 * @param flashes most graphic objects of one layer image
 */
public record InputLimits(int fileBytes, int lineChars, int numberChars, int nesting, int motions, int flashes) {
    /** The limits in force unless a caller says otherwise. */
    public static final InputLimits DEFAULT = new InputLimits(64 * 1024 * 1024, 4096, 64, 64, 2_000_000, 2_000_000);
}
