package foilproof.language;

/**
 * The short way for the lines that programs mostly consist of: {@code G1 X.. Y.. Z.. F..}, in any order and any part,
 * nothing else on the line. It reads such a line straight to its move; whatever it does not know it leaves, untouched,
 * to {@link BlockReader} and {@link BlockRunner}, which would do the same with it.
 */
final class PlainMoves {
    private static final double[] POWERS_OF_TEN = {
        1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15
    };
    private static final int X = 1;
    private static final int Y = 2;
    private static final int Z = 4;
    private static final int F = 8;
    private static final int G = 16;

    private final byte[] bytes;
    private final Controller c;
    private int at;
    private double number;

    PlainMoves(byte[] bytes, Controller controller) {
        this.bytes = bytes;
        this.c = controller;
    }

    /** Runs bytes {@code from} to {@code to} if they are a plain move; else does nothing and says so. */
    boolean run(int from, int to, int line) throws ProgramException {
        if (c.comp != CutterComp.OFF || c.feedMode != FeedMode.UNITS_PER_MINUTE) {
            return false;
        }
        int first = skipSpace(from, to);
        if (first >= to) {
            return false;
        }
        at = first;
        if ((bytes[first] | 0x20) == 'n' && !lineNumber(to)) {
            return false;
        }
        double x = 0;
        double y = 0;
        double z = 0;
        double f = 0;
        int code = c.motion;
        int seen = 0;
        for (int i = skipSpace(at, to); i < to; i = skipSpace(at, to)) {
            int letter = bytes[i] | 0x20;
            int bit = letter == 'x'
                    ? X
                    : letter == 'y' ? Y : letter == 'z' ? Z : letter == 'f' ? F : letter == 'g' ? G : 0;
            at = i + 1;
            if (bit == 0 || (seen & bit) != 0 || !number(to)) {
                return false;
            }
            seen |= bit;
            switch (bit) {
                case X -> x = number;
                case Y -> y = number;
                case Z -> z = number;
                case F -> f = number;
                default -> {
                    if (number != 0 && number != 1) {
                        return false;
                    }
                    code = number == 0 ? 0 : 10;
                }
            }
        }
        if (code != 0 && code != 10 || (seen & (X | Y | Z)) == 0 || f < 0) {
            return false;
        }
        c.begin(line, first - from + 1 << 16 | to - from + 1);
        if ((seen & F) != 0) {
            c.setFeed(f, c.scale());
        }
        move(code, seen, x, y, z);
        return true;
    }

    private void move(int code, int seen, double x, double y, double z) throws ProgramException {
        double[] p = c.position;
        double toX;
        double toY;
        double toZ;
        if (c.incremental) {
            toX = (seen & X) != 0 ? p[0] + x : p[0];
            toY = (seen & Y) != 0 ? p[1] + y : p[1];
            toZ = (seen & Z) != 0 ? p[2] + z : p[2];
        } else {
            toX = (seen & X) != 0 ? x : p[0];
            toY = (seen & Y) != 0 ? y : p[1];
            toZ = (seen & Z) != 0 ? z : p[2];
            c.unknownAxes &= ~seen;
        }
        if (code == 0) {
            c.traverse(toX, toY, toZ, 0);
        } else {
            c.feed(toX, toY, toZ, 0);
        }
        c.setMotion(code);
    }

    private int skipSpace(int from, int to) {
        int i = from;
        while (i < to && (bytes[i] == ' ' || bytes[i] == '\t')) {
            i++;
        }
        return i;
    }

    /** Up to five digits right behind the N. */
    private boolean lineNumber(int to) {
        int start = at + 1;
        int i = start;
        while (i < to && bytes[i] >= '0' && bytes[i] <= '9') {
            i++;
        }
        at = i;
        return i > start && i - start <= 5;
    }

    /** Sign, at most 15 digits and a point, no white space within; the next word's letter must follow, or the end. */
    private boolean number(int to) {
        int i = at;
        boolean negative = false;
        if (i < to && (bytes[i] == '-' || bytes[i] == '+')) {
            negative = bytes[i] == '-';
            i++;
        }
        long mantissa = 0;
        int start = i;
        int point = -1;
        for (; i < to; i++) {
            int digit = bytes[i] - '0';
            if (digit >= 0 && digit <= 9) {
                mantissa = 10 * mantissa + digit;
            } else if (bytes[i] == '.' && point < 0) {
                point = i;
            } else {
                break;
            }
        }
        int digits = i - start - (point < 0 ? 0 : 1);
        if (digits < 1 || digits > 15) {
            return false;
        }
        at = i;
        double magnitude = point < 0 ? mantissa : mantissa / POWERS_OF_TEN[i - 1 - point];
        number = negative ? -magnitude : magnitude;
        return true;
    }
}
