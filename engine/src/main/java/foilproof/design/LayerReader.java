package foilproof.design;

import foilproof.geom.Length;
import foilproof.source.InputException;
import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/**
 * Reads a layer image (Gerber Layer Format specification 2021.02; deprecated forms that older files still use are
 * read and said once). A command that is not known is said and skipped, as the specification asks; what would
 * leave the image undefined is an error with its place.
 */
final class LayerReader {
    /** Standard attributes that this reader acts on. */
    private static final Set<String> STANDARD =
            Set.of("N", "P", "C", "AperFunction", "FileFunction", "FilePolarity", "Part");

    private final TextPlaces places;
    private final String text;
    private final LayerPlotter plot;
    private final ApertureMaker maker;
    private final Map<String, List<String>> fileAttributes = new HashMap<>();

    private double unitMm;
    private boolean formatKnown;
    private boolean omitTrailing;
    private boolean incremental;
    private int digitsX;
    private int digitsY;
    private int decimalsX;
    private int decimalsY;
    private long divisorX = 1;
    private long divisorY = 1;
    private boolean swapAxes;
    private double imageScaleX = 1;
    private double imageScaleY = 1;
    private double imageShiftX;
    private double imageShiftY;
    private int imageTurns;
    private boolean ended;
    private int lastOperation;

    // fields of the word command at hand
    private final long[] value = new long[4];
    private final int[] digits = new int[4];
    private final boolean[] given = new boolean[4];
    private int dCode;
    private double rawX;
    private double rawY;

    LayerReader(SourceFile source, InputLimits limits) {
        places = new TextPlaces(source);
        text = places.text;
        plot = new LayerPlotter(places, limits);
        maker = new ApertureMaker(places);
    }

    Reading<LayerImage> read() throws InputException {
        int p = 0;
        int n = text.length();
        places.readable("A layer image");
        if (text.indexOf('*') < 0 && !text.isBlank()) {
            throw places.fileError(
                    "layer-not-known",
                    "This is no layer image: no command ends in *.",
                    "A Gerber layer file was expected.");
        }
        boolean anything = false;
        while (p < n && !ended) {
            char c = text.charAt(p);
            if (c <= ' ') {
                p++;
            } else if (c == '%') {
                anything = true;
                p = extended(p);
            } else if (c == '*') {
                p++;
            } else {
                anything = true;
                p = word(p);
            }
        }
        if (!anything) {
            throw places.fileError("layer-empty", "The file is empty.", "A layer image was expected: export it again.");
        }
        finish(p);
        plot.target().fileAttributes.putAll(fileAttributes);
        LayerImage image = plot.target().build();
        if (imageTurns != 0) {
            image = image.mapped(PlaneMap.quarterTurns(imageTurns));
        }
        if (image.size() == 0) {
            places.warnFile("layer-no-objects", "The layer image shows nothing.");
        }
        return new Reading<>(image, places.warnings());
    }

    private void finish(int p) throws InputException {
        int n = text.length();
        int last = Math.max(0, n - 1);
        if (!ended) {
            if (plot.inRegion()) {
                throw places.error(
                        last,
                        n,
                        "layer-cut-short",
                        "The file ends inside a region.",
                        "The file was cut short; export it again.");
            }
            if (plot.inBlock()) {
                throw places.error(
                        last,
                        n,
                        "layer-cut-short",
                        "The file ends inside a block aperture.",
                        "The file was cut short; export it again.");
            }
            places.warn(
                    last,
                    n,
                    "layer-cut-short",
                    "The end of the file (M02) is missing: the file may be cut short.",
                    "Compare with the exported file.");
            plot.target().cutShort = true;
        }
        plot.endRepeat(last);
        for (int k = p; k < n && ended; k++) {
            if (text.charAt(k) > ' ') {
                places.warn(k, n, "layer-after-end", "Text after the end of the file (M02) is not read.", null);
                break;
            }
        }
    }

    // ---- extended commands ----

    private int extended(int from) throws InputException {
        int end = text.indexOf('%', from + 1);
        if (end < 0) {
            throw places.error(
                    from,
                    from + 1,
                    "layer-cut-short",
                    "An extended command (%...%) is not closed.",
                    "The file was cut short, or a % is missing.");
        }
        int p = from + 1;
        boolean any = false;
        while (p < end) {
            if (text.charAt(p) <= ' ') {
                p++;
                continue;
            }
            int star = text.indexOf('*', p);
            if (star < 0 || star > end) {
                throw places.error(p, end, "layer-syntax", "A command between % and % does not end in *.", null);
            }
            any = true;
            String block = stripped(p, star);
            if (block.startsWith("AM")) {
                macro(p, block, star, end);
                return end + 1;
            }
            command(block, p, star);
            p = star + 1;
        }
        if (!any) {
            places.warn(from, end + 1, "layer-syntax", "An empty extended command.", null);
        }
        return end + 1;
    }

    private String stripped(int from, int to) {
        String s = text.substring(from, to);
        return s.indexOf('\n') < 0 && s.indexOf('\r') < 0
                ? s
                : s.replace("\r", "").replace("\n", "");
    }

    private void macro(int at, String head, int star, int end) throws InputException {
        String name = head.substring(2);
        if (name.isEmpty()) {
            throw places.error(at, star, "layer-macro", "A macro without a name.", null);
        }
        MacroTemplate template = new MacroTemplate(places);
        int p = star + 1;
        while (p < end) {
            int next = text.indexOf('*', p);
            if (next < 0 || next > end) {
                if (!text.substring(p, end).isBlank()) {
                    throw places.error(p, end, "layer-macro", "A block of the macro does not end in *.", null);
                }
                break;
            }
            while (p < next && text.charAt(p) <= ' ') {
                p++;
            }
            template.add(stripped(p, next), p);
            p = next + 1;
        }
        maker.macro(name, template, at);
    }

    private void command(String s, int at, int end) throws InputException {
        String code = s.length() < 2 ? s : s.substring(0, 2);
        String rest = s.length() < 2 ? "" : s.substring(2);
        switch (code) {
            case "FS" -> format(rest, at, end);
            case "MO" -> units(rest, at, end);
            case "AD" -> aperture(rest, at, end);
            case "AB" -> block(rest, at, end);
            case "LP" -> polarity(rest, at, end);
            case "LM" -> mirror(rest, at, end);
            case "LR" -> plot.turnDeg = decimal(rest, at + 2);
            case "LS" -> layerScale(rest, at, end);
            case "SR" -> repeat(rest, at, end);
            case "TF" -> attribute(rest, fileAttributes, at, end);
            case "TA" -> attribute(rest, plot.apertureAttributes, at, end);
            case "TO" -> attribute(rest, plot.objectAttributes, at, end);
            case "TD" -> deleteAttribute(rest);
            default -> deprecated(code, rest, at, end);
        }
    }

    private void deprecated(String code, String rest, int at, int end) throws InputException {
        switch (code) {
            case "IP" -> {
                if (rest.equals("NEG")) {
                    throw places.error(
                            at,
                            end,
                            "layer-negative",
                            "The image is negative (IPNEG): what it shows has no bounds.",
                            "Export the layer with positive polarity.");
                }
                sayDeprecated(code, at, end);
                if (!rest.equals("POS") && !rest.equals("DARK")) {
                    unknown(code + rest, at, end);
                }
            }
            case "OF" -> {
                imageShiftX = axis(rest, 'A', 0, at) * requireUnit(at, end);
                imageShiftY = axis(rest, 'B', 0, at) * requireUnit(at, end);
                sayDeprecated(code, at, end);
            }
            case "MI" -> {
                imageScaleX = Math.abs(imageScaleX) * (axis(rest, 'A', 0, at) != 0 ? -1 : 1);
                imageScaleY = Math.abs(imageScaleY) * (axis(rest, 'B', 0, at) != 0 ? -1 : 1);
                sayDeprecated(code, at, end);
            }
            case "SF" -> {
                imageScaleX = Math.signum(imageScaleX) * axis(rest, 'A', 1, at);
                imageScaleY = Math.signum(imageScaleY) * axis(rest, 'B', 1, at);
                sayDeprecated(code, at, end);
            }
            case "AS" -> {
                swapAxes = rest.equals("AYBX");
                sayDeprecated(code, at, end);
            }
            case "IR" -> {
                double deg = decimal(rest, at + 2);
                if (deg % 90 != 0) {
                    throw places.error(at, end, "layer-syntax", "IR turns by 0, 90, 180 or 270 degrees.", null);
                }
                imageTurns = (int) (deg / 90);
                sayDeprecated(code, at, end);
            }
            case "IN", "LN" -> sayDeprecated(code, at, end);
            default -> unknown(code + rest, at, end);
        }
    }

    private void sayDeprecated(String code, int at, int end) {
        places.warnOnce(
                "deprecated " + code,
                at,
                end,
                "layer-deprecated",
                "The command " + code + " is deprecated; it is read.",
                null);
    }

    private void unknown(String s, int at, int end) {
        String shown = s.length() > 40 ? s.substring(0, 40) + "..." : s;
        places.warn(
                at,
                end,
                "layer-unknown-command",
                "The command " + shown + " is not known and is left out.",
                "The image may be incomplete.");
    }

    private void format(String s, int at, int end) throws InputException {
        int p = 0;
        boolean good = s.length() >= 6;
        if (good && (s.charAt(p) == 'L' || s.charAt(p) == 'T' || s.charAt(p) == 'D')) {
            omitTrailing = s.charAt(p) == 'T';
            p++;
        }
        if (good && (s.charAt(p) == 'A' || s.charAt(p) == 'I')) {
            incremental = s.charAt(p) == 'I';
            p++;
        }
        int x = s.indexOf('X', p);
        int y = s.indexOf('Y', p);
        good = good && x >= p && y == x + 3 && s.length() >= y + 3;
        for (int k = 1; k <= 2 && good; k++) {
            good = Character.isDigit(s.charAt(x + k)) && Character.isDigit(s.charAt(y + k));
        }
        if (!good) {
            throw places.error(
                    at,
                    end,
                    "layer-format",
                    "The coordinate format FS" + s + " cannot be read.",
                    "It is written FSLAX36Y36, integer and decimal digits for X and Y.");
        }
        if (formatKnown) {
            places.warn(at, end, "layer-format", "The coordinate format is given a second time.", null);
        }
        if (omitTrailing || incremental) {
            places.warnOnce(
                    "format",
                    at,
                    end,
                    "layer-deprecated",
                    "Trailing zeros left out or incremental coordinates are deprecated; they are read.",
                    null);
        }
        digitsX = s.charAt(x + 1) - '0' + s.charAt(x + 2) - '0';
        digitsY = s.charAt(y + 1) - '0' + s.charAt(y + 2) - '0';
        decimalsX = s.charAt(x + 2) - '0';
        decimalsY = s.charAt(y + 2) - '0';
        divisorX = power10(decimalsX);
        divisorY = power10(decimalsY);
        formatKnown = true;
        if (decimalsX < 3 || decimalsY < 3) {
            places.warn(
                    at,
                    end,
                    "layer-format-coarse",
                    "The coordinates have fewer than 3 decimals.",
                    "Export with 5 or 6 decimals.");
        }
    }

    private static long power10(int n) {
        long p = 1;
        for (int i = 0; i < n; i++) {
            p *= 10;
        }
        return p;
    }

    private void units(String s, int at, int end) throws InputException {
        double unit =
                switch (s) {
                    case "MM" -> 1;
                    case "IN" -> Length.MM_PER_INCH;
                    default ->
                        throw places.error(at, end, "layer-units", "The unit is MM or IN, not \"" + s + "\".", null);
                };
        setUnit(unit, at, end);
    }

    private void setUnit(double unit, int at, int end) {
        if (unitMm != 0 && unitMm != unit) {
            places.warn(
                    at,
                    end,
                    "layer-units",
                    "The unit changes within the file; from here on the new one is used.",
                    "A layer image has one unit.");
        }
        unitMm = unit;
    }

    private double requireUnit(int at, int end) throws InputException {
        if (unitMm == 0) {
            throw places.error(
                    at,
                    end,
                    "layer-units",
                    "The unit is not stated before it is needed.",
                    "Put %MOMM*% or %MOIN*% into the header.");
        }
        return unitMm;
    }

    private void aperture(String s, int at, int end) throws InputException {
        int p = s.startsWith("D") ? 1 : 0;
        int q = p;
        while (q < s.length() && Character.isDigit(s.charAt(q))) {
            q++;
        }
        int number = p == 1 && q > p && q - p < 10 ? Integer.parseInt(s.substring(p, q)) : -1;
        if (number < 10) {
            throw places.error(at, end, "layer-aperture", "An aperture is defined as ADDnn, nn from 10.", null);
        }
        Aperture made =
                maker.define(s.substring(q), at + 2 + q, requireUnit(at, end), Map.copyOf(plot.apertureAttributes));
        plot.define(number, made, at, end);
    }

    private void block(String s, int at, int end) throws InputException {
        if (s.isEmpty()) {
            plot.endBlock(at);
            return;
        }
        int number = -1;
        if (s.startsWith("D") && s.length() < 11) {
            try {
                number = Integer.parseInt(s.substring(1));
            } catch (NumberFormatException e) {
                number = -1;
            }
        }
        if (number < 10) {
            throw places.error(at, end, "layer-block", "A block aperture begins with ABDnn, nn from 10.", null);
        }
        plot.beginBlock(number, at);
    }

    private void polarity(String s, int at, int end) throws InputException {
        if (!s.equals("D") && !s.equals("C")) {
            throw places.error(at, end, "layer-syntax", "Polarity is LPD (dark) or LPC (clear).", null);
        }
        plot.dark = s.equals("D");
    }

    private void mirror(String s, int at, int end) throws InputException {
        switch (s) {
            case "N", "X", "Y", "XY" -> {
                plot.mirrorX = s.startsWith("X");
                plot.mirrorY = s.endsWith("Y");
            }
            default -> throw places.error(at, end, "layer-syntax", "Mirroring is LMN, LMX, LMY or LMXY.", null);
        }
    }

    private void layerScale(String s, int at, int end) throws InputException {
        double f = decimal(s, at + 2);
        if (!(f > 0)) {
            throw places.error(at, end, "layer-syntax", "A scale is above 0.", null);
        }
        plot.scale = f;
    }

    private void repeat(String s, int at, int end) throws InputException {
        plot.endRepeat(at);
        if (s.isEmpty()) {
            return;
        }
        double nx = axis(s, 'X', 1, at);
        double ny = axis(s, 'Y', 1, at);
        double di = axis(s, 'I', 0, at);
        double dj = axis(s, 'J', 0, at);
        if (nx != Math.rint(nx) || ny != Math.rint(ny) || nx < 1 || ny < 1 || nx * ny > 1e7) {
            throw places.error(at, end, "layer-repeat", "Step and repeat needs whole counts from 1 up.", null);
        }
        if (nx * ny > 1) {
            plot.beginRepeat((int) nx, (int) ny, di * requireUnit(at, end), dj * requireUnit(at, end), at);
        }
    }

    /** Value after a letter of an extended command, or {@code otherwise} where the letter is missing. */
    private double axis(String s, char letter, double otherwise, int at) throws InputException {
        int p = s.indexOf(letter);
        if (p < 0) {
            return otherwise;
        }
        int q = p + 1;
        while (q < s.length() && "+-.0123456789".indexOf(s.charAt(q)) >= 0) {
            q++;
        }
        return decimal(s.substring(p + 1, q), at + 3 + p);
    }

    private double decimal(String s, int at) throws InputException {
        boolean plain = !s.isEmpty() && s.length() <= 40;
        for (int i = 0; i < s.length() && plain; i++) {
            plain = "+-.0123456789".indexOf(s.charAt(i)) >= 0;
        }
        try {
            if (plain) {
                return Double.parseDouble(s);
            }
        } catch (NumberFormatException e) {
            plain = false;
        }
        throw places.error(at, at + Math.max(1, s.length()), "layer-number", "\"" + s + "\" is not a number.", null);
    }

    // ---- attributes ----

    private void attribute(String s, Map<String, List<String>> into, int at, int end) {
        List<String> fields = new ArrayList<>();
        for (String field : s.split(",", -1)) {
            fields.add(unescaped(field));
        }
        String name = keyOf(fields.get(0));
        if (name.isEmpty()) {
            places.warn(at, end, "layer-attribute", "An attribute without a name is left out.", null);
            return;
        }
        into.put(name, List.copyOf(fields.subList(1, fields.size())));
        if (into != fileAttributes) {
            plot.attributesChanged();
        }
    }

    /**
     * Names that begin with a point are the specification's, all others the user's own (5.1): a user's own attribute that
     * is called N is no net.
     */
    private static String keyOf(String name) {
        if (name.startsWith(".")) {
            return name.substring(1);
        }
        return STANDARD.contains(name) ? name + " (own)" : name;
    }

    private void deleteAttribute(String s) {
        String name = keyOf(s);
        if (name.isEmpty()) {
            plot.apertureAttributes.clear();
            plot.objectAttributes.clear();
        } else {
            plot.apertureAttributes.remove(name);
            plot.objectAttributes.remove(name);
        }
        plot.attributesChanged();
    }

    /** Characters beyond ASCII come as UTF-8 or as backslash, u and four hexadecimal digits. */
    private static String unescaped(String field) {
        String s = new String(field.getBytes(StandardCharsets.ISO_8859_1), StandardCharsets.UTF_8);
        int p = s.indexOf("\\u");
        if (p < 0) {
            return s;
        }
        StringBuilder out = new StringBuilder();
        for (int i = 0; i < s.length(); i++) {
            if (s.startsWith("\\u", i)
                    && i + 6 <= s.length()
                    && s.substring(i + 2, i + 6).matches("[0-9A-Fa-f]{4}")) {
                out.append((char) Integer.parseInt(s.substring(i + 2, i + 6), 16));
                i += 5;
            } else {
                out.append(s.charAt(i));
            }
        }
        return out.toString();
    }

    private void comment(int from, int end) throws InputException {
        // attributes in a comment: the specification's form for readers that know no attributes
        String s = stripped(from, end).trim();
        if (s.startsWith("#@!")) {
            String t = s.substring(3).trim();
            if (t.startsWith("TF") || t.startsWith("TA") || t.startsWith("TO") || t.startsWith("TD")) {
                command(t, from, end);
            }
        }
    }

    // ---- word commands ----

    private int word(int from) throws InputException {
        int n = text.length();
        int p = from;
        for (int k = 0; k < 4; k++) {
            given[k] = false;
        }
        dCode = -1;
        while (p < n && text.charAt(p) != '*') {
            char c = text.charAt(p);
            if (c <= ' ') {
                p++;
                continue;
            }
            if (c == '%') {
                throw places.error(from, p, "layer-syntax", "A command does not end in *.", null);
            }
            int at = p++;
            if (c >= 'a' && c <= 'z' && "gdmxyij".indexOf(c) >= 0) {
                c = raised(c, at);
            }
            switch (c) {
                case 'X' -> p = number(p, 0);
                case 'Y' -> p = number(p, 1);
                case 'I' -> p = number(p, 2);
                case 'J' -> p = number(p, 3);
                case 'D' -> {
                    int q = digitsEnd(p);
                    dCode = code(p, q, at);
                    p = q;
                }
                case 'G' -> {
                    int q = digitsEnd(p);
                    int g = code(p, q, at);
                    p = q;
                    if (g == 4) {
                        int star = text.indexOf('*', p);
                        int end = star < 0 ? n : star;
                        comment(p, end);
                        p = end;
                    } else {
                        generalCode(g, at, q);
                    }
                }
                case 'M' -> {
                    int q = digitsEnd(p);
                    int m = code(p, q, at);
                    p = q;
                    if (m == 2 || m == 0) {
                        ended = true;
                    } else if (m != 1) {
                        unknown("M" + m, at, q);
                    }
                }
                default -> {
                    int star = text.indexOf('*', p);
                    p = star < 0 ? n : star;
                    unknown(stripped(at, p), at, p);
                }
            }
        }
        if (p >= n && ended) {
            places.warn(from, n, "layer-syntax", "The end of the file (M02) has no * after it.", null);
        } else if (p >= n) {
            throw places.error(
                    from,
                    n,
                    "layer-cut-short",
                    "The last command does not end in *.",
                    "The file was cut short; export it again.");
        }
        if (ended && plot.inRegion()) {
            throw places.error(from, p, "layer-region", "The file ends inside a region.", null);
        }
        execute(from, p);
        return p + 1;
    }

    /** The upper case of a letter that should have been written so. */
    private char raised(char c, int at) {
        places.warnOnce(
                "lower case",
                at,
                at + 1,
                "layer-lower-case",
                "Commands are written in lower case; they are read as if in upper case.",
                "The specification knows upper case only.");
        return Character.toUpperCase(c);
    }

    private int digitsEnd(int from) {
        int q = from;
        while (q < text.length() && text.charAt(q) >= '0' && text.charAt(q) <= '9') {
            q++;
        }
        return q;
    }

    private int code(int from, int to, int at) throws InputException {
        if (to == from || to - from > 9) {
            throw places.error(at, to + 1, "layer-syntax", "A code letter without a usable number.", null);
        }
        int v = 0;
        for (int k = from; k < to; k++) {
            v = v * 10 + text.charAt(k) - '0';
        }
        return v;
    }

    private int number(int from, int which) throws InputException {
        int n = text.length();
        int p = from;
        boolean negative = false;
        if (p < n && (text.charAt(p) == '+' || text.charAt(p) == '-')) {
            negative = text.charAt(p) == '-';
            p++;
        }
        long v = 0;
        int count = 0;
        while (p < n) {
            char c = text.charAt(p);
            if (c == '.') {
                throw places.error(
                        from - 1,
                        p + 1,
                        "layer-number",
                        "Coordinates of a layer image are whole numbers without a point.",
                        null);
            }
            if (c < '0' || c > '9') {
                break;
            }
            v = v * 10 + (c - '0');
            if (++count > 15) {
                throw places.error(from - 1, p + 1, "layer-number", "A coordinate has more than 15 digits.", null);
            }
            p++;
        }
        if (count == 0) {
            throw places.error(from - 1, p + 1, "layer-number", "A coordinate without digits.", null);
        }
        value[which] = negative ? -v : v;
        digits[which] = count;
        given[which] = true;
        return p;
    }

    private void generalCode(int g, int at, int end) throws InputException {
        switch (g) {
            case 1, 2, 3 -> plot.interpolation = g;
            case 36 -> plot.beginRegion(at);
            case 37 -> plot.endRegion(at);
            case 74 -> {
                plot.quadrants = 74;
                places.warnOnce(
                        "G74",
                        at,
                        end,
                        "layer-deprecated",
                        "Single-quadrant arcs (G74) are deprecated; they are read.",
                        null);
            }
            case 75 -> plot.quadrants = 75;
            case 54, 55 ->
                places.warnOnce(
                        "G54", at, end, "layer-deprecated", "G54 and G55 are deprecated; they change nothing.", null);
            case 70, 71 -> {
                places.warnOnce(
                        "G70", at, end, "layer-deprecated", "G70 and G71 (units) are deprecated; they are read.", null);
                setUnit(g == 70 ? Length.MM_PER_INCH : 1, at, end);
            }
            case 90, 91 -> {
                places.warnOnce(
                        "G90",
                        at,
                        end,
                        "layer-deprecated",
                        "G90 and G91 (absolute, incremental) are deprecated; they are read.",
                        null);
                incremental = g == 91;
            }
            default -> unknown(String.format(Locale.ROOT, "G%02d", g), at, end);
        }
    }

    private double coordinate(int which) {
        long v = value[which];
        boolean alongX = which == 0 || which == 2;
        long divisor = alongX ? divisorX : divisorY;
        if (omitTrailing) {
            int missing = (alongX ? digitsX : digitsY) - digits[which];
            for (int k = 0; k < missing; k++) {
                v *= 10;
            }
        }
        return v * unitMm / divisor;
    }

    private void execute(int from, int end) throws InputException {
        boolean point = given[0] || given[1];
        if (dCode < 0 && !point && !given[2] && !given[3]) {
            return;
        }
        if (dCode >= 10) {
            if (point) {
                places.warn(
                        from, end, "layer-syntax", "Coordinates beside the choice of an aperture are not used.", null);
            }
            plot.select(dCode, from, end);
            return;
        }
        if (dCode == 0 || dCode > 3) {
            unknown("D" + dCode, from, end);
            return;
        }
        int operation = dCode;
        if (operation < 0) {
            if (lastOperation == 0) {
                throw places.error(from, end, "layer-syntax", "Coordinates without D01, D02 or D03.", null);
            }
            operation = lastOperation;
            places.warnOnce(
                    "modal operation",
                    from,
                    end,
                    "layer-deprecated",
                    "Coordinates without an operation code are deprecated; the last code (D0" + operation
                            + ") is used.",
                    null);
        }
        lastOperation = operation;
        requireUnit(from, end);
        if (!formatKnown) {
            throw places.error(
                    from,
                    end,
                    "layer-format",
                    "The coordinate format (FS) is not stated before it is needed.",
                    "Put %FSLAX36Y36*% or the like into the header.");
        }
        if (given[0]) {
            rawX = incremental ? rawX + coordinate(0) : coordinate(0);
        }
        if (given[1]) {
            rawY = incremental ? rawY + coordinate(1) : coordinate(1);
        }
        double x = imageShiftX + imageScaleX * (swapAxes ? rawY : rawX);
        double y = imageShiftY + imageScaleY * (swapAxes ? rawX : rawY);
        switch (operation) {
            case 1 -> {
                double i = given[2] ? coordinate(2) : 0;
                double j = given[3] ? coordinate(3) : 0;
                double oi = imageScaleX * (swapAxes ? j : i);
                double oj = imageScaleY * (swapAxes ? i : j);
                drawMirrored(x, y, oi, oj, from, end);
            }
            case 2 -> plot.move(x, y, from);
            default -> plot.flash(x, y, from, end);
        }
    }

    private void drawMirrored(double x, double y, double i, double j, int from, int end) throws InputException {
        int as = plot.interpolation;
        boolean flipped = (imageScaleX < 0) != (imageScaleY < 0) != swapAxes;
        if (flipped && as != 1) {
            plot.interpolation = 5 - as;
        }
        plot.draw(x, y, given[2] || given[3], i, j, from, end);
        plot.interpolation = as;
    }
}
