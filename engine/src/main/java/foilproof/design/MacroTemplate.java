package foilproof.design;

import foilproof.source.InputException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * An aperture macro: a list of primitives and variable definitions, worked out for each aperture that uses it.
 * Rotation is about the macro's zero; exposure acts inside the macro only (Gerber Layer Format 2021.02, 4.5).
 */
final class MacroTemplate {
    private static final int DEEPEST = 64;
    private static final int MOST_VERTICES = 5000;

    /** A block of the macro: its text and where it begins. */
    private record Statement(String text, int at) {}

    private final TextPlaces places;
    private final List<Statement> statements = new ArrayList<>();
    private final Map<Integer, Double> variables = new HashMap<>();
    private final List<PathFigure> parts = new ArrayList<>();
    private final List<Boolean> exposure = new ArrayList<>();
    private double unit;
    private String expr = "";
    private int pos;
    private int depth;
    private Statement current = new Statement("", 0);

    MacroTemplate(TextPlaces places) {
        this.places = places;
    }

    /** Adds a block, line ends removed. */
    void add(String text, int at) {
        statements.add(new Statement(text, at));
    }

    /**
     * Works the macro out.
     *
     * @param arguments values of $1, $2, ...
     * @param unitMm millimetres in the file's unit
     * @throws InputException where a primitive or expression is wrong
     */
    Figure instantiate(double[] arguments, double unitMm) throws InputException {
        variables.clear();
        parts.clear();
        exposure.clear();
        unit = unitMm;
        for (int i = 0; i < arguments.length; i++) {
            variables.put(i + 1, arguments[i]);
        }
        for (Statement statement : statements) {
            current = statement;
            String text = statement.text();
            if (text.isEmpty() || text.charAt(0) == '0') {
                continue;
            }
            if (text.charAt(0) == '$') {
                define(text);
            } else {
                primitive(text);
            }
        }
        boolean[] dark = new boolean[parts.size()];
        for (int i = 0; i < dark.length; i++) {
            dark[i] = exposure.get(i);
        }
        return new CompoundFigure(parts, dark);
    }

    private InputException error(String code, String message) {
        return places.error(
                current.at(), current.at() + Math.max(1, current.text().length()), code, message, null);
    }

    private void define(String text) throws InputException {
        int eq = text.indexOf('=');
        int number = eq < 2 ? -1 : wholeNumber(text.substring(1, eq));
        if (number < 1) {
            throw error("layer-macro", "A macro variable is defined as $n=expression.");
        }
        if (variables.containsKey(number)) {
            places.warn(
                    current.at(),
                    current.at() + text.length(),
                    "layer-macro",
                    "The macro variable $" + number + " is given a second value; the second one is used.",
                    null);
        }
        variables.put(number, value(text.substring(eq + 1)));
    }

    private static int wholeNumber(String text) {
        try {
            return Integer.parseInt(text.trim());
        } catch (NumberFormatException e) {
            return -1;
        }
    }

    private void primitive(String text) throws InputException {
        String[] fields = text.split(",", -1);
        int code = wholeNumber(fields[0]);
        if (fields.length > 2 * MOST_VERTICES + 8) {
            throw error("layer-macro", "A macro outline has at most " + MOST_VERTICES + " points.");
        }
        double[] v = new double[fields.length];
        for (int i = 1; i < fields.length; i++) {
            v[i] = value(fields[i]);
        }
        switch (code) {
            case 1 -> circle(v);
            case 2, 20 -> vectorLine(need(v, 7, 8));
            case 21 -> centreLine(need(v, 6, 7), false);
            case 22 -> centreLine(need(v, 6, 7), true);
            case 4 -> outline(v);
            case 5 -> polygon(need(v, 6, 7));
            case 6 -> moire(need(v, 9, 10));
            case 7 -> thermal(need(v, 6, 7));
            default ->
                places.warn(
                        current.at(),
                        current.at() + Math.max(1, text.length()),
                        "layer-unknown-command",
                        "The macro primitive " + fields[0] + " is not known and is left out.",
                        "Primitives are 1, 20, 21, 4, 5 and 7.");
        }
    }

    /** {@code v} with at least {@code full} fields, where only the last (the rotation) may be missing. */
    private double[] need(double[] v, int least, int full) throws InputException {
        if (v.length < least || v.length > full) {
            throw error(
                    "layer-macro",
                    "This macro primitive needs " + (full - 1) + " values, " + (v.length - 1) + " are given.");
        }
        return v.length == full ? v : java.util.Arrays.copyOf(v, full);
    }

    private boolean exposed(double value) throws InputException {
        if (value != 0 && value != 1 && value != 2) {
            throw error("layer-macro", "Exposure is 1 (on) or 0 (off), not " + value + ".");
        }
        return value != 0;
    }

    private void put(boolean dark, PathFigure figure, double rotationDeg) {
        exposure.add(dark);
        parts.add(rotationDeg == 0 ? figure : figure.mapped(PlaneMap.turnDeg(rotationDeg)));
    }

    private void circle(double[] given) throws InputException {
        if (given.length < 5 || given.length > 6) {
            throw error("layer-macro", "The circle primitive needs 4 or 5 values.");
        }
        double rotation = given.length == 6 ? given[5] : 0;
        double r = size(given[2]) / 2;
        if (r > 0) {
            put(exposed(given[1]), Figures.circle(given[3] * unit, given[4] * unit, r), rotation);
        }
    }

    private double size(double value) throws InputException {
        if (!(value >= 0)) {
            throw error("layer-macro", "A size of a macro primitive is below 0: " + value + ".");
        }
        return value * unit;
    }

    private void vectorLine(double[] v) throws InputException {
        double w = size(v[2]) / 2;
        double x0 = v[3] * unit;
        double y0 = v[4] * unit;
        double x1 = v[5] * unit;
        double y1 = v[6] * unit;
        double length = StrictMath.hypot(x1 - x0, y1 - y0);
        if (length == 0 || w == 0) {
            return;
        }
        double nx = -(y1 - y0) / length * w;
        double ny = (x1 - x0) / length * w;
        put(
                exposed(v[1]),
                Figures.polygon(new double[] {x0 - nx, y0 - ny, x1 - nx, y1 - ny, x1 + nx, y1 + ny, x0 + nx, y0 + ny}),
                v[7]);
    }

    private void centreLine(double[] v, boolean lowerLeft) throws InputException {
        double w = size(v[2]);
        double h = size(v[3]);
        double x = v[4] * unit - (lowerLeft ? 0 : w / 2);
        double y = v[5] * unit - (lowerLeft ? 0 : h / 2);
        if (w > 0 && h > 0) {
            put(exposed(v[1]), Figures.polygon(new double[] {x, y, x + w, y, x + w, y + h, x, y + h}), v[6]);
        }
    }

    private void outline(double[] v) throws InputException {
        int n = v.length > 2 ? (int) v[2] : -1;
        if (n < 3 || n != v[2] || v.length < 5 + 2 * n || v.length > 6 + 2 * n) {
            throw error("layer-macro", "An outline primitive names n >= 3 and gives n + 1 points and a rotation.");
        }
        double[] points = new double[2 * n];
        for (int i = 0; i < 2 * n; i++) {
            points[i] = v[3 + i] * unit;
        }
        if (v[3] != v[3 + 2 * n] || v[4] != v[4 + 2 * n]) {
            places.warn(
                    current.at(),
                    current.at() + current.text().length(),
                    "layer-contour-open",
                    "The outline primitive does not end where it begins; it is closed by a straight line.",
                    null);
            points = java.util.Arrays.copyOf(points, 2 * n + 2);
            points[2 * n] = v[3 + 2 * n] * unit;
            points[2 * n + 1] = v[4 + 2 * n] * unit;
        }
        double rotation = v.length == 6 + 2 * n ? v[5 + 2 * n] : 0;
        PathFigure figure = Figures.polygon(points);
        if (!figure.windsOnce()) {
            places.warn(
                    current.at(),
                    current.at() + current.text().length(),
                    "layer-region-crossing",
                    "The outline primitive crosses itself; every part that it goes round is filled.",
                    null);
            figure = new PathFigure(figure.contours, false);
        }
        put(exposed(v[1]), figure, rotation);
    }

    private void polygon(double[] v) throws InputException {
        int n = (int) v[2];
        if (n < 3 || n > 12 || n != v[2]) {
            throw error("layer-macro", "A polygon has 3 to 12 corners, not " + v[2] + ".");
        }
        double r = size(v[5]) / 2;
        if (r > 0) {
            put(exposed(v[1]), Figures.regularPolygon(v[3] * unit, v[4] * unit, r, n, 0), v[6]);
        }
    }

    private void moire(double[] v) throws InputException {
        places.warnOnce(
                "moire",
                current.at(),
                current.at() + current.text().length(),
                "layer-deprecated",
                "The moire primitive is deprecated; it is read.",
                null);
        double x = v[1] * unit;
        double y = v[2] * unit;
        double outer = size(v[3]);
        double ring = size(v[4]);
        double gap = size(v[5]);
        double hair = size(v[7]);
        double arm = size(v[8]);
        for (int k = 0; k < v[6] && outer > 0 && k < 1000; k++) {
            double inner = outer - 2 * ring;
            put(true, inner > 0 ? Figures.ring(x, y, outer / 2, inner / 2) : Figures.circle(x, y, outer / 2), v[9]);
            outer = inner - 2 * gap;
        }
        if (hair > 0 && arm > 0) {
            double a = arm / 2;
            double h = hair / 2;
            put(true, Figures.polygon(new double[] {x - a, y - h, x + a, y - h, x + a, y + h, x - a, y + h}), v[9]);
            put(true, Figures.polygon(new double[] {x - h, y - a, x + h, y - a, x + h, y + a, x - h, y + a}), v[9]);
        }
    }

    private void thermal(double[] v) throws InputException {
        double outer = size(v[3]) / 2;
        double inner = size(v[4]) / 2;
        double gap = size(v[5]) / 2;
        if (!(outer > inner) || !(gap < outer / Math.sqrt(2))) {
            throw error(
                    "layer-macro",
                    "A thermal needs an outer diameter above the inner one and a gap below the outer"
                            + " one divided by the square root of 2.");
        }
        for (int k = 0; k < 4; k++) {
            PathFigure quarter = Figures.thermalQuarter(outer, inner, gap);
            if (quarter != null) {
                PlaneMap map = PlaneMap.quarterTurns(k).then(PlaneMap.shift(v[1] * unit, v[2] * unit));
                put(true, quarter.mapped(map), v[6]);
            }
        }
    }

    // ---- expressions: + - x / ( ) $n numbers; x multiplies ----

    private double value(String text) throws InputException {
        expr = text;
        pos = 0;
        depth = 0;
        double result = sum();
        if (pos != expr.length()) {
            throw error(
                    "layer-macro",
                    "The macro expression " + text + " cannot be read at its character " + (pos + 1) + ".");
        }
        if (Double.isNaN(result) || Double.isInfinite(result)) {
            throw error("layer-macro", "The macro expression " + text + " has no finite value.");
        }
        return result;
    }

    private char peek() {
        while (pos < expr.length() && expr.charAt(pos) == ' ') {
            pos++;
        }
        return pos < expr.length() ? expr.charAt(pos) : 0;
    }

    private double sum() throws InputException {
        double left = product();
        while (peek() == '+' || peek() == '-') {
            char op = expr.charAt(pos++);
            double right = product();
            left = op == '+' ? left + right : left - right;
        }
        return left;
    }

    private double product() throws InputException {
        double left = factor();
        while (peek() == 'x' || peek() == 'X' || peek() == '/') {
            char op = expr.charAt(pos++);
            double right = factor();
            left = op == '/' ? left / right : left * right;
        }
        return left;
    }

    private double factor() throws InputException {
        if (++depth > DEEPEST) {
            throw error("layer-macro", "The macro expression is nested too deeply.");
        }
        try {
            char c = peek();
            if (c == '+' || c == '-') {
                pos++;
                double inner = factor();
                return c == '-' ? -inner : inner;
            }
            if (c == '(') {
                pos++;
                double inner = sum();
                if (peek() != ')') {
                    throw error("layer-macro", "A bracket of the macro expression is not closed.");
                }
                pos++;
                return inner;
            }
            boolean variable = c == '$';
            int from = variable ? ++pos : pos;
            while (pos < expr.length()
                    && (Character.isDigit(expr.charAt(pos)) || !variable && expr.charAt(pos) == '.')) {
                pos++;
            }
            String digits = expr.substring(from, pos);
            if (variable) {
                int number = wholeNumber(digits);
                if (number < 1) {
                    throw error("layer-macro", "A macro variable is written $n.");
                }
                return variables.getOrDefault(number, 0.0);
            }
            return Double.parseDouble(digits);
        } catch (NumberFormatException e) {
            throw error("layer-macro", "The macro expression " + expr + " has no number where one is needed.");
        } finally {
            depth--;
        }
    }
}
