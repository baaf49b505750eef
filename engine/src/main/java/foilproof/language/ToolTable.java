package foilproof.language;

/**
 * The tools that a program can name, asked for by the interpreter; the bench answers. Numbers are the T, H and D
 * numbers of the program.
 */
public interface ToolTable {
    /** A table without tools. */
    ToolTable EMPTY = new ToolTable() {
        @Override
        public boolean exists(int number) {
            return false;
        }

        @Override
        public double lengthMm(int number) {
            return Double.NaN;
        }

        @Override
        public double diameterMm(int number) {
            return Double.NaN;
        }
    };

    /** Whether the bench has a tool of that number. */
    boolean exists(int number);

    /** The length offset that H{@code number} names, millimetres, or NaN where it is not known. */
    double lengthMm(int number);

    /** The diameter that D{@code number} names, millimetres, or NaN where it is not known. */
    double diameterMm(int number);
}
