package foilproof.language;

import foilproof.source.InputLimits;
import foilproof.source.Spelling;
import java.util.List;
import java.util.Locale;

/**
 * Reads one line into a {@link Block}: the grammar of NISTIR 6556 section 3.3 and appendix E. All expressions are
 * evaluated here, before anything of the line runs (section 3.3.2.3).
 */
final class BlockReader {
    private static final List<String> FUNCTIONS =
            List.of("abs", "acos", "asin", "atan", "cos", "exp", "fix", "fup", "ln", "round", "sin", "sqrt", "tan");
    private static final double[] POWERS_OF_TEN = {
        1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19,
        1e20, 1e21, 1e22
    };
    /** Near-integer rule: section 3.3.2.1. */
    static final double INTEGER_TOLERANCE = 0.0001;

    private final byte[] bytes;
    private final Dialect dialect;
    private final InputLimits limits;
    private final Parameters parameters;
    private int at;
    private int lineStart;
    private int end;
    private int depth;

    BlockReader(byte[] bytes, Dialect dialect, InputLimits limits, Parameters parameters) {
        this.bytes = bytes;
        this.dialect = dialect;
        this.limits = limits;
        this.parameters = parameters;
    }

    /** Reads bytes {@code from} to {@code to} (without the line end). With {@code skip}, a line after a slash is left. */
    void read(Block block, int from, int to, boolean skipSlashed) throws ProgramException {
        at = from;
        lineStart = from;
        end = to;
        depth = 0;
        int c = peek();
        if (c < 0) {
            return;
        }
        block.blank = false;
        block.firstColumn = column();
        block.endColumn = to - from + 1;
        if (c == '/') {
            block.slash = true;
            at++;
            if (skipSlashed) {
                return;
            }
            c = peek();
        }
        if (c == 'n' || c == 'N') {
            readLineNumber();
            c = peek();
        }
        while (c >= 0) {
            readItem(block, c);
            c = peek();
        }
    }

    private void readItem(Block block, int c) throws ProgramException {
        if (c == '(') {
            readComment(block);
        } else if (c == '#') {
            readSetting(block);
        } else if (c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z') {
            readWord(block, (char) (c & 0x5f));
        } else if (c == ';' && dialect == Dialect.COMMON) {
            checkComment(at + 1, end);
            block.commentStart = at + 1;
            block.commentEnd = end;
            at = end;
        } else {
            throw strangeCharacter(c);
        }
    }

    private void readLineNumber() throws ProgramException {
        int start = at;
        at++;
        int digits = 0;
        boolean point = false;
        int c = peek();
        while (c >= '0' && c <= '9' || c == '.' && dialect == Dialect.COMMON && !point && digits > 0) {
            point |= c == '.';
            digits++;
            at++;
            c = peek();
        }
        if (digits == 0) {
            throw error("line-number", start, at, "a line number without digits")
                    .expecting("Expected N and up to 5 digits.");
        }
        if (digits > 5 && dialect == Dialect.STRICT) {
            throw error("line-number", start, at, "a line number of more than 5 digits")
                    .expecting("Expected N0 to N99999 (NISTIR 6556 section 3.3.1).");
        }
    }

    private void readComment(Block block) throws ProgramException {
        int start = at;
        int i = at + 1;
        while (i < end && bytes[i] != ')') {
            if (bytes[i] == '(') {
                throw error("comment-nested", i, i + 1, "a comment within a comment")
                        .expecting("Expected ) first.");
            }
            i++;
        }
        if (i >= end) {
            throw error("comment-open", start, end, "a comment that is not closed")
                    .expecting("Expected ) on the same line.");
        }
        checkComment(start + 1, i);
        block.commentStart = start + 1;
        block.commentEnd = i;
        at = i + 1;
    }

    private void checkComment(int from, int to) throws ProgramException {
        for (int i = from; i < to; i++) {
            byte b = bytes[i];
            if (b >= 0 && b < 32 && b != '\t' || b == 127) {
                throw controlCharacter(i, b);
            }
        }
    }

    private void readSetting(Block block) throws ProgramException {
        int start = at;
        at++;
        int number = parameterNumber(start, false);
        int c = peek();
        if (c != '=') {
            throw error("parameter-setting", start, at, "a parameter that is neither set nor part of a word")
                    .expecting("Expected = and a value, such as #3=15.");
        }
        at++;
        block.setParameter(number, readValue());
    }

    private void readWord(Block block, char letter) throws ProgramException {
        int start = at;
        at++;
        switch (letter) {
            case 'G' -> readG(block, start);
            case 'M' -> readM(block, start);
            case 'E', 'O', 'U', 'V', 'W' -> throw unknownWord(letter, start);
            case 'N' ->
                throw error("line-number", start, at, "a line number that is not first on its line")
                        .expecting("Expected N only at the start of a line.");
            default -> {
                if (block.has(letter)) {
                    throw error("word-twice", start, at, "a second " + letter + " word on one line")
                            .expecting("Expected each letter once (G and M aside).");
                }
                double value = readWordValue(letter, start);
                block.set(letter, value, start - lineStart + 1, column());
            }
        }
    }

    /** A value after a word's letter: a letter right behind it that begins no function makes the whole an unknown word. */
    private double readWordValue(char letter, int start) throws ProgramException {
        int c = peek();
        if (c < 0) {
            throw error("number-missing", start, at, "the word " + letter + " has no number")
                    .expecting("Expected a number, such as " + letter + "1.5.");
        }
        return readValue();
    }

    private void readG(Block block, int start) throws ProgramException {
        double tenths = 10 * readWordValue('G', start);
        int code = nearInteger(tenths);
        int group = code == Integer.MIN_VALUE ? -1 : Codes.groupOfG(code, dialect);
        if (group < 0) {
            String written = written(start);
            ProgramException unknown = error("unknown-g", start, at, "unknown code " + written);
            if (code != Integer.MIN_VALUE && Codes.isCommonOnly(code)) {
                throw unknown.expecting("This code is in the common language only; the job says \"strict\".");
            }
            throw unknown.expecting("Expected one of " + String.join(" ", Codes.namesOfG(dialect)) + ".")
                    .near(Spelling.nearest(written, Codes.namesOfG(dialect)));
        }
        if (block.g[group] >= 0) {
            throw error(
                            "modal-group",
                            start,
                            at,
                            written(start) + " and " + Codes.nameOfG(block.g[group])
                                    + " are both of the modal group of " + Codes.nameOfGroup(group))
                    .expecting("Expected one of them on a line.");
        }
        block.g[group] = code;
        block.gColumn[group] = start - lineStart + 1;
        block.gCount++;
    }

    private void readM(Block block, int start) throws ProgramException {
        int code = nearInteger(readWordValue('M', start));
        int group = Codes.groupOfM(code);
        if (group < 0) {
            throw error("unknown-m", start, at, "unknown code " + written(start))
                    .expecting("Expected one of M0 M1 M2 M3 M4 M5 M6 M7 M8 M9 M30 M48 M49 M60.");
        }
        if (block.mCount == 4) {
            throw error("five-m", start, at, "five M words on one line").expecting("Expected at most four.");
        }
        if (block.m[group] >= 0) {
            throw error(
                            "modal-group",
                            start,
                            at,
                            "M" + code + " and M" + block.m[group] + " are both of the modal group of "
                                    + Codes.nameOfMGroup(group))
                    .expecting("Expected one of them on a line.");
        }
        block.m[group] = code;
        block.mColumn[group] = start - lineStart + 1;
        block.mCount++;
    }

    /** The integer that {@code value} is near, or {@code Integer.MIN_VALUE}. */
    static int nearInteger(double value) {
        double nearest = Math.rint(value);
        return Math.abs(value - nearest) <= INTEGER_TOLERANCE && Math.abs(nearest) < 1e9
                ? (int) nearest
                : Integer.MIN_VALUE;
    }

    private double readValue() throws ProgramException {
        int c = peek();
        if (c >= '0' && c <= '9' || c == '.' || c == '-' || c == '+') {
            return readNumber();
        }
        if (c == '[') {
            return readExpression();
        }
        if (c == '#') {
            int start = at;
            at++;
            return parameters.read(parameterNumber(start, true));
        }
        if (c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z') {
            return readFunction();
        }
        if (c < 0) {
            throw error("number-missing", end, end, "a number is missing at the end of the line")
                    .expecting("Expected a number, [expression], #parameter or function.");
        }
        throw strangeCharacter(c);
    }

    private double readNumber() throws ProgramException {
        int start = at;
        boolean negative = false;
        int c = bytes[at];
        if (c == '-' || c == '+') {
            negative = c == '-';
            at++;
        }
        long mantissa = 0;
        int digits = 0;
        int decimals = 0;
        boolean point = false;
        int chars = 0;
        for (c = peek(); ; c = peek()) {
            if (c >= '0' && c <= '9') {
                digits++;
                if (digits <= 18) {
                    mantissa = 10 * mantissa + (c - '0');
                }
                if (point) {
                    decimals++;
                }
            } else if (c == '.' && !point) {
                point = true;
            } else {
                break;
            }
            at++;
            if (++chars > limits.numberChars()) {
                throw error(
                                "number-too-long",
                                start,
                                at,
                                "a number of more than " + limits.numberChars() + " characters")
                        .expecting("Expected about 17 significant figures at most.");
            }
        }
        checkNumberEnd(start, c, digits);
        double magnitude;
        if (digits <= 15 || digits <= 18 && mantissa < 1L << 53) {
            magnitude = mantissa / POWERS_OF_TEN[decimals];
        } else {
            magnitude = slowNumber(start);
        }
        return negative ? -magnitude : magnitude;
    }

    private void checkNumberEnd(int start, int c, int digits) throws ProgramException {
        if (digits == 0 && c != ',' && !isDash(at)) {
            throw error("number-missing", start, Math.max(at, start + 1), "a number without digits")
                    .expecting("Expected a sign, digits and at most one point.");
        }
        if (c == ',') {
            throw error("decimal-comma", at, at + 1, "a comma in a number")
                    .expecting("Expected a decimal point: 1.25, not 1,25.");
        }
        if (c == '.') {
            throw error("number", at, at + 1, "a second decimal point in a number")
                    .expecting("Expected one point at most.");
        }
    }

    private double slowNumber(int start) {
        StringBuilder text = new StringBuilder();
        for (int i = start; i < at; i++) {
            char c = (char) bytes[i];
            if (c >= '0' && c <= '9' || c == '.') {
                text.append(c);
            }
        }
        return Double.parseDouble(text.toString());
    }

    /** Reads the number of a parameter after its #. */
    private int parameterNumber(int start, boolean reading) throws ProgramException {
        enter(start);
        double value = readValue();
        depth--;
        int number = nearInteger(value);
        if (number < 1 || number > Parameters.LAST) {
            throw error(
                            "parameter-number",
                            start,
                            at,
                            (reading ? "reading" : "setting") + " a parameter that does not exist")
                    .expecting("Expected # and a whole number, 1 to " + Parameters.LAST + ".");
        }
        return number;
    }

    private void enter(int start) throws ProgramException {
        if (++depth > limits.nesting()) {
            throw error("nesting", start, start + 1, "brackets or # more than " + limits.nesting() + " deep")
                    .expecting("Expected a simpler expression.");
        }
    }

    private double readExpression() throws ProgramException {
        int start = at;
        enter(start);
        at++;
        double value = readLogicalSum();
        if (peek() != ']') {
            int c = peek();
            if (c < 0) {
                throw error("bracket-open", start, end, "a bracket that is not closed")
                        .expecting("Expected ] on the same line.");
            }
            throw unknownOperator(c);
        }
        at++;
        depth--;
        return finite(value, start);
    }

    private double finite(double value, int start) throws ProgramException {
        if (!Double.isFinite(value)) {
            throw error("arithmetic", start, at, "the value is no finite number")
                    .expecting("Expected a value within reason.");
        }
        return value;
    }

    /** Group 3: + - OR XOR AND, left to right (section 3.3.2.3). */
    private double readLogicalSum() throws ProgramException {
        double left = readProduct();
        while (true) {
            int c = peek();
            int lower = c | 0x20;
            if (c == '+') {
                at++;
                left += readProduct();
            } else if (c == '-') {
                at++;
                left -= readProduct();
            } else if (lower == 'o' && takeName("or")) {
                double right = readProduct();
                left = left != 0 || right != 0 ? 1 : 0;
            } else if (lower == 'x' && takeName("xor")) {
                double right = readProduct();
                left = left != 0 != (right != 0) ? 1 : 0;
            } else if (lower == 'a' && takeName("and")) {
                double right = readProduct();
                left = left != 0 && right != 0 ? 1 : 0;
            } else {
                return left;
            }
        }
    }

    /** Group 2: * / MOD, left to right. */
    private double readProduct() throws ProgramException {
        int start = at;
        double left = readPower();
        while (true) {
            int c = peek();
            if (c == '*') {
                at++;
                left *= readPower();
            } else if (c == '/') {
                at++;
                double right = readPower();
                if (right == 0) {
                    throw error("arithmetic", start, at, "division by zero").expecting("Expected another divisor.");
                }
                left /= right;
            } else if ((c | 0x20) == 'm' && takeName("mod")) {
                double right = readPower();
                if (right == 0) {
                    throw error("arithmetic", start, at, "MOD by zero").expecting("Expected another divisor.");
                }
                left %= right;
                left = left < 0 ? left + Math.abs(right) : left;
            } else {
                return left;
            }
        }
    }

    /** Group 1: **, left to right. */
    private double readPower() throws ProgramException {
        int start = at;
        double left = readValue();
        while (peek() == '*' && peekSecond() == '*') {
            at++;
            peek();
            at++;
            double right = readValue();
            if (left < 0 && nearInteger(right) == Integer.MIN_VALUE || left == 0 && right <= 0) {
                throw error("arithmetic", start, at, "a power that is no real number")
                        .expecting("Expected a positive base, or a whole exponent.");
            }
            left = finite(StrictMath.pow(left, left < 0 ? Math.rint(right) : right), start);
        }
        return left;
    }

    private double readFunction() throws ProgramException {
        int start = at;
        StringBuilder letters = new StringBuilder();
        int c = peek();
        while ((c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z') && letters.length() < 12) {
            letters.append((char) (c | 0x20));
            at++;
            c = peek();
        }
        String name = letters.toString();
        if (!FUNCTIONS.contains(name)) {
            throw error("unknown-word", start, at, "unknown word starting with " + name.charAt(0))
                    .expecting("Expected a number, [expression], #parameter, or one of "
                            + String.join(" ", FUNCTIONS).toUpperCase(Locale.ROOT) + " with [ ].")
                    .near(Spelling.nearest(name, FUNCTIONS));
        }
        if (c != '[') {
            throw error("function", start, at, "the function " + name.toUpperCase(Locale.ROOT) + " has no bracket")
                    .expecting("Expected [ after it.");
        }
        double value = readExpression();
        if (name.equals("atan")) {
            if (peek() != '/') {
                throw error("function", start, at, "ATAN has one value").expecting("Expected ATAN[y]/[x].");
            }
            at++;
            if (peek() != '[') {
                throw error("function", start, at, "ATAN has one value").expecting("Expected ATAN[y]/[x].");
            }
            return Math.toDegrees(StrictMath.atan2(value, readExpression()));
        }
        return finite(apply(name, value, start), start);
    }

    private double apply(String name, double x, int start) throws ProgramException {
        boolean outside =
                switch (name) {
                    case "acos", "asin" -> x < -1 || x > 1;
                    case "ln" -> x <= 0;
                    case "sqrt" -> x < 0;
                    default -> false;
                };
        if (outside) {
            throw error("arithmetic", start, at, name.toUpperCase(Locale.ROOT) + " of a value outside its domain")
                    .expecting("Expected "
                            + (name.equals("ln")
                                    ? "a value above 0."
                                    : name.equals("sqrt") ? "0 or more." : "-1 to 1."));
        }
        return switch (name) {
            case "abs" -> Math.abs(x);
            case "acos" -> Math.toDegrees(StrictMath.acos(x));
            case "asin" -> Math.toDegrees(StrictMath.asin(x));
            case "cos" -> StrictMath.cos(Math.toRadians(x));
            case "exp" -> StrictMath.exp(x);
            case "fix" -> Math.floor(x);
            case "fup" -> Math.ceil(x);
            case "ln" -> StrictMath.log(x);
            case "round" -> x < 0 ? Math.ceil(x - 0.5) : Math.floor(x + 0.5);
            case "sin" -> StrictMath.sin(Math.toRadians(x));
            case "sqrt" -> Math.sqrt(x);
            default -> StrictMath.tan(Math.toRadians(x));
        };
    }

    /** Takes the letters of an operator, white space between them allowed, or leaves the place as it was. */
    private boolean takeName(String name) {
        int back = at;
        for (int i = 0; i < name.length(); i++) {
            if ((peek() | 0x20) != name.charAt(i)) {
                at = back;
                return false;
            }
            at++;
        }
        return true;
    }

    /** The next byte that is no white space, 0 to 255, or -1 at the line's end; stays on it. */
    private int peek() {
        while (at < end) {
            int c = bytes[at];
            if (c != ' ' && c != '\t') {
                return c & 0xff;
            }
            at++;
        }
        return -1;
    }

    private int peekSecond() {
        for (int i = at + 1; i < end; i++) {
            if (bytes[i] != ' ' && bytes[i] != '\t') {
                return bytes[i] & 0xff;
            }
        }
        return -1;
    }

    private int column() {
        return at - lineStart + 1;
    }

    private String written(int start) {
        StringBuilder text = new StringBuilder();
        for (int i = start; i < at && text.length() < 24; i++) {
            if (bytes[i] > ' ') {
                text.append((char) bytes[i]);
            }
        }
        return text.toString().toUpperCase(Locale.ROOT);
    }

    private ProgramException unknownWord(char letter, int start) {
        String why = letter == 'O'
                ? "program numbers, subprograms and loops are not in the language"
                : letter == 'E'
                        ? "no exponents and no E words are in the language"
                        : "the letter is not in the language";
        return error("unknown-word", start, at, "unknown word starting with " + letter + ": " + why)
                .expecting("Expected a word of A B C D F G H I J K L M N P Q R S T X Y Z.");
    }

    private ProgramException unknownOperator(int c) throws ProgramException {
        if (c > 127 || c < 32) {
            return strangeCharacter(c);
        }
        return error("operator", at, at + 1, "no operator: '" + (char) c + "'")
                .expecting("Expected ] or one of ** * / MOD + - OR XOR AND.");
    }

    private boolean isDash(int i) {
        if (i + 2 < end && bytes[i] == (byte) 0xe2) {
            return bytes[i + 1] == (byte) 0x88 && bytes[i + 2] == (byte) 0x92
                    || bytes[i + 1] == (byte) 0x80 && bytes[i + 2] >= (byte) 0x90 && bytes[i + 2] <= (byte) 0x95;
        }
        return i < end && (bytes[i] == (byte) 0x96 || bytes[i] == (byte) 0x97);
    }

    private ProgramException strangeCharacter(int c) {
        if (c < 32 || c == 127) {
            return controlCharacter(at, c);
        }
        if (isDash(at)) {
            return error(
                            "not-a-minus",
                            at,
                            at + (bytes[at] == (byte) 0xe2 ? 3 : 1),
                            "a dash that is not the minus sign of the keyboard")
                    .expecting("Expected -.");
        }
        if (c > 127) {
            return error("unknown-character", at, at + 1, "a character outside the language (byte " + c + ")")
                    .expecting("Expected plain letters, digits, and . + - * / = # [ ] ( ).");
        }
        return switch (c) {
            case ';' ->
                error("unknown-character", at, at + 1, "a ; comment, which the strict language does not have")
                        .expecting("Expected ( ) around comments.");
            case ')' -> error("comment-open", at, at + 1, "a ) without its (").expecting("Expected ( first.");
            case '%' -> error("percent", at, at + 1, "a % in a line").expecting("Expected % alone on its line.");
            case '/' ->
                error("block-delete", at, at + 1, "a / that is not first on its line")
                        .expecting("Expected / only at the start of a line.");
            case ',' -> error("decimal-comma", at, at + 1, "a comma").expecting("Expected a decimal point in numbers.");
            default ->
                error("unknown-character", at, at + 1, "a character outside the language: '" + (char) c + "'")
                        .expecting("Expected a word, a (comment) or a parameter setting.");
        };
    }

    private ProgramException controlCharacter(int where, int c) {
        return error(
                        "control-character",
                        where,
                        where + 1,
                        "a control character (code " + c + "): this is no plain text")
                .expecting("Expected plain text; send the file again, or export it as ASCII.");
    }

    private ProgramException error(String code, int from, int to, String problem) {
        return new ProgramException(code, from - lineStart + 1, to - lineStart + 1, problem);
    }
}
