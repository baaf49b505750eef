package foilproof.source;

/**
 * A stretch of one line of an input file.
 *
 * @param file name of the file as the job names it
 * @param line physical line, from 1; 0 where the whole file is meant
 * @param column first column, from 1; 0 where the whole line is meant
 * @param endColumn one past the last column (exclusive); at least {@code column}
 */
public record SourceSpan(String file, int line, int column, int endColumn) {
    /** The whole file. */
    public static SourceSpan ofFile(String file) {
        return new SourceSpan(file, 0, 0, 0);
    }

    /** A whole line. */
    public static SourceSpan ofLine(String file, int line) {
        return new SourceSpan(file, line, 0, 0);
    }

    /** {@code file:line:column}, leaving out what is not known. */
    @Override
    public String toString() {
        return line == 0 ? file : column == 0 ? file + ":" + line : file + ":" + line + ":" + column;
    }
}
