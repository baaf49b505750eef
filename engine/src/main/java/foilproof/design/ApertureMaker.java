package foilproof.design;

import foilproof.source.InputException;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Reads aperture definitions (AD) and macros (AM): Gerber Layer Format 2021.02, 4.3 to 4.5. */
final class ApertureMaker {
    private final TextPlaces places;
    private final Map<String, MacroTemplate> macros = new HashMap<>();

    ApertureMaker(TextPlaces places) {
        this.places = places;
    }

    /** A macro definition, from its name to its last block. */
    void macro(String name, MacroTemplate template, int at) {
        if (macros.put(name, template) != null) {
            places.warn(
                    at,
                    at + name.length(),
                    "layer-macro",
                    "The macro " + name + " is defined a second time; later apertures use the second one.",
                    null);
        }
    }

    /**
     * Reads {@code C,0.5X0.2} and the like.
     *
     * @param text the definition after {@code ADDnn}
     * @param at its place
     * @param unitMm millimetres in the file's unit
     * @param attributes aperture attributes in force
     */
    Aperture define(String text, int at, double unitMm, Map<String, List<String>> attributes) throws InputException {
        int comma = text.indexOf(',');
        String name = comma < 0 ? text : text.substring(0, comma);
        double[] v = comma < 0 ? new double[0] : numbers(text.substring(comma + 1), at + comma + 1);
        MacroTemplate macro = macros.get(name);
        if (macro != null) {
            return new Aperture(Pad.Shape.MACRO, macro.instantiate(v, unitMm), -1, null, null, attributes);
        }
        double[] mm = v.clone();
        for (int i = 0; i < v.length; i++) {
            mm[i] = v[i] * unitMm;
        }
        int end = at + text.length();
        switch (name) {
            case "C":
                count(v, 1, 3, at, end);
                return circle(v, mm, at, end, attributes);
            case "R", "O":
                count(v, 2, 4, at, end);
                return box(name, v, mm, at, end, attributes);
            case "P":
                count(v, 2, 5, at, end);
                return polygon(v, mm, at, end, attributes);
            default:
                throw places.error(
                        at,
                        end,
                        "layer-aperture-undefined",
                        "The aperture uses " + name + ", which is neither C, R, O, P nor a macro defined before.",
                        "Define the macro with AM before its first use.");
        }
    }

    private void count(double[] v, int least, int most, int at, int end) throws InputException {
        if (v.length < least || v.length > most) {
            throw places.error(
                    at,
                    end,
                    "layer-aperture",
                    "This aperture takes " + least + " to " + most + " values, " + v.length + " are given.",
                    null);
        }
    }

    private InputException badSize(int at, int end) {
        return places.error(at, end, "layer-aperture", "A size of this aperture is not above 0.", null);
    }

    private Aperture circle(double[] v, double[] mm, int at, int end, Map<String, List<String>> attributes)
            throws InputException {
        if (!(v[0] >= 0)) {
            throw badSize(at, end);
        }
        double r = mm[0] / 2;
        Figure figure = r == 0
                ? new CompoundFigure(List.of(), new boolean[0])
                : Figures.withHole(List.of(PathEdge.circle(0, 0, r)), r, hole(mm, 1, at, end), reach(mm, 1));
        return new Aperture(Pad.Shape.CIRCLE, figure, r, null, null, attributes);
    }

    private Aperture box(String name, double[] v, double[] mm, int at, int end, Map<String, List<String>> attributes)
            throws InputException {
        if (!(v[0] > 0) || !(v[1] > 0)) {
            throw badSize(at, end);
        }
        boolean rectangle = name.equals("R");
        List<PathEdge> contour =
                rectangle ? Figures.rectangleContour(mm[0], mm[1]) : Figures.obroundContour(mm[0], mm[1]);
        Figure figure = Figures.withHole(contour, Math.min(mm[0], mm[1]) / 2, hole(mm, 2, at, end), reach(mm, 2));
        double a = mm[0] / 2;
        double b = mm[1] / 2;
        double[] corners = rectangle ? new double[] {-a, -b, a, -b, a, b, -a, b} : null;
        return new Aperture(rectangle ? Pad.Shape.RECTANGLE : Pad.Shape.OBROUND, figure, -1, corners, null, attributes);
    }

    private Aperture polygon(double[] v, double[] mm, int at, int end, Map<String, List<String>> attributes)
            throws InputException {
        int n = (int) v[1];
        if (!(v[0] > 0) || n != v[1] || n < 3 || n > 12) {
            throw places.error(
                    at,
                    end,
                    "layer-aperture",
                    "A polygon aperture has an outer diameter above 0 and 3 to 12 corners.",
                    null);
        }
        double r = mm[0] / 2;
        double[] corners = Figures.regularCorners(0, 0, r, n, v.length > 2 ? v[2] : 0);
        List<PathEdge> contour = Figures.polygon(corners).contours.get(0);
        double inscribed = r * StrictMath.cos(StrictMath.PI / n);
        Figure figure = Figures.withHole(contour, inscribed, hole(mm, 3, at, end), reach(mm, 3));
        return new Aperture(Pad.Shape.POLYGON, figure, -1, corners, null, attributes);
    }

    private @Nullable List<PathEdge> hole(double[] mm, int from, int at, int end) throws InputException {
        if (mm.length <= from) {
            return null;
        }
        if (!(mm[from] >= 0)) {
            throw badSize(at, end);
        }
        if (mm[from] == 0) {
            return null;
        }
        if (mm.length > from + 1 && mm[from + 1] > 0) {
            places.warnOnce(
                    "rectangular-hole",
                    at,
                    end,
                    "layer-deprecated",
                    "Rectangular holes in apertures are deprecated; the hole is read.",
                    null);
            return Figures.rectangleContour(mm[from], mm[from + 1]);
        }
        return List.of(PathEdge.circle(0, 0, mm[from] / 2));
    }

    private static double reach(double[] mm, int from) {
        return mm.length <= from
                ? 0
                : mm.length > from + 1 ? StrictMath.hypot(mm[from], mm[from + 1]) / 2 : mm[from] / 2;
    }

    private double[] numbers(String text, int at) throws InputException {
        if (text.isEmpty()) {
            return new double[0];
        }
        String[] fields = text.split("[Xx]", -1);
        double[] v = new double[fields.length];
        int place = at;
        for (int i = 0; i < fields.length; i++) {
            v[i] = number(fields[i], place);
            place += fields[i].length() + 1;
        }
        return v;
    }

    private double number(String text, int at) throws InputException {
        String t = text.trim();
        boolean plain = !t.isEmpty() && t.length() <= 40;
        for (int i = 0; i < t.length() && plain; i++) {
            char c = t.charAt(i);
            plain = c >= '0' && c <= '9' || c == '.' || (c == '-' || c == '+') && i == 0;
        }
        try {
            if (plain) {
                return Double.parseDouble(t);
            }
        } catch (NumberFormatException e) {
            plain = false;
        }
        throw places.error(
                at,
                at + Math.max(1, text.length()),
                "layer-number",
                "\"" + text + "\" is not a number as layer images write them.",
                "A point as decimal sign, no exponent.");
    }
}
