package foilproof.language;

import java.util.Arrays;

/** One line as it was read, before anything of it runs; used again for every line. */
final class Block {
    int line;
    int firstColumn;
    int endColumn;
    boolean slash;
    boolean blank;

    /** Bit n set: the word of letter 'A' + n is there. */
    private int present;

    private final double[] values = new double[26];
    private final int[] columns = new int[26];
    private final int[] endColumns = new int[26];

    final int[] g = new int[Codes.GROUPS];
    final int[] gColumn = new int[Codes.GROUPS];
    final int[] m = new int[Codes.M_GROUPS];
    final int[] mColumn = new int[Codes.M_GROUPS];
    int gCount;
    int mCount;

    int settings;
    int[] settingNumber = new int[8];
    double[] settingValue = new double[8];

    /** First byte of the comment's text in the file, -1 where there is no comment. */
    int commentStart;

    int commentEnd;

    /** The motion code that runs with this line, -1 for none. */
    int motion;

    void clear(int newLine) {
        line = newLine;
        present = 0;
        slash = false;
        blank = true;
        if (gCount > 0) {
            Arrays.fill(g, -1);
            gCount = 0;
        }
        if (mCount > 0) {
            Arrays.fill(m, -1);
            mCount = 0;
        }
        settings = 0;
        commentStart = -1;
        firstColumn = 1;
        endColumn = 1;
        motion = -1;
    }

    Block() {
        Arrays.fill(g, -1);
        Arrays.fill(m, -1);
        clear(0);
    }

    boolean has(char letter) {
        return (present >> (letter - 'A') & 1) != 0;
    }

    double value(char letter) {
        return values[letter - 'A'];
    }

    double value(char letter, double otherwise) {
        return has(letter) ? values[letter - 'A'] : otherwise;
    }

    int column(char letter) {
        return has(letter) ? columns[letter - 'A'] : firstColumn;
    }

    int endColumn(char letter) {
        return has(letter) ? endColumns[letter - 'A'] : endColumn;
    }

    void set(char letter, double value, int column, int end) {
        int index = letter - 'A';
        present |= 1 << index;
        values[index] = value;
        columns[index] = column;
        endColumns[index] = end;
    }

    /** Whether any of X, Y, Z is there. */
    boolean hasAxis() {
        return (present & XYZ) != 0;
    }

    boolean hasAxis(int axis) {
        return has((char) ('X' + axis));
    }

    double axis(int axis) {
        return values['X' - 'A' + axis];
    }

    /** The letters that are there, a bit each. */
    int letters() {
        return present;
    }

    int span() {
        return firstColumn << 16 | Math.min(endColumn, 0xffff);
    }

    void setParameter(int number, double value) {
        if (settings == settingNumber.length) {
            settingNumber = Arrays.copyOf(settingNumber, 2 * settings);
            settingValue = Arrays.copyOf(settingValue, 2 * settings);
        }
        settingNumber[settings] = number;
        settingValue[settings++] = value;
    }

    ProgramException error(String code, String problem) {
        return new ProgramException(code, firstColumn, endColumn, problem);
    }

    ProgramException error(String code, char letter, String problem) {
        return new ProgramException(code, column(letter), endColumn(letter), problem);
    }

    ProgramException errorAtG(String code, int group, String problem) {
        int column = g[group] >= 0 ? gColumn[group] : firstColumn;
        return new ProgramException(code, column, g[group] >= 0 ? column + 1 : endColumn, problem);
    }

    private static final int XYZ = 7 << ('X' - 'A');
}
