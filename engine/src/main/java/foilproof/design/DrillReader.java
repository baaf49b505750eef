package foilproof.design;

import foilproof.geom.Length;
import foilproof.source.InputException;
import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * Reads NC drill files: XNC, and older files of the IPC-NC-349 family without decimal points. Without a point the
 * digits are padded by the declared zero rule: LZ keeps leading zeros (digits count from the left), TZ keeps
 * trailing zeros (digits count from the right).
 */
final class DrillReader {
    private static final double ABSURD_MM = 2000;
    /** Header words and codes that change no hole. */
    private static final Set<String> HARMLESS = Set.of(
            "FMAT",
            "VER",
            "ATC",
            "DETECT",
            "BLKD",
            "SBK",
            "DN",
            "TCST",
            "AFS",
            "CCW",
            "CP",
            "OSTOP",
            "PCKPARAM",
            "OM48",
            "ULTRA",
            "SG",
            "UP",
            "ZA",
            "ZC",
            "ZS");

    private final TextPlaces places;
    private final InputLimits limits;
    private final Map<Integer, DrillFile.Tool> tools = new TreeMap<>();
    private final List<DrillFile.Hole> holes = new ArrayList<>();
    private final List<DrillFile.Slot> slots = new ArrayList<>();

    private double unitMm;
    private int zeroRule;
    private int integers;
    private int decimals;
    private boolean header;
    private boolean sawHeader;
    private boolean ended;
    private boolean incremental;
    private boolean routing;
    private boolean down;
    private int motion;
    private double x;
    private double y;
    private DrillFile.@Nullable Tool tool;
    private @Nullable Boolean platedFile;
    private @Nullable Boolean platedNext;
    private @Nullable String functionNext;
    private List<PathEdge> path = new ArrayList<>();
    private int pathLine;

    // the line at hand
    private String line = "";
    private int lineNumber;
    private int lineAt;

    DrillReader(SourceFile source, InputLimits limits) {
        places = new TextPlaces(source);
        this.limits = limits;
    }

    Reading<DrillFile> read() throws InputException {
        places.readable("An NC drill file");
        int at = 0;
        String text = places.text;
        boolean anything = false;
        while (at < text.length() && !ended) {
            int end = at;
            while (end < text.length() && text.charAt(end) != '\n' && text.charAt(end) != '\r') {
                end++;
            }
            line = text.substring(at, end).trim();
            lineAt = at + Math.max(0, text.substring(at, end).indexOf(line));
            if (!line.isEmpty()) {
                anything = true;
                lineNumber = places.line(lineAt);
                oneLine();
            }
            at = end + 1;
        }
        if (!anything) {
            throw places.fileError("drill-empty", "The drill file is empty.", null);
        }
        if (!ended) {
            places.warn(
                    Math.max(0, text.length() - 1),
                    text.length(),
                    "drill-cut-short",
                    "The end of the drill file (M30) is missing after " + holes.size() + " holes and " + slots.size()
                            + " slots: the file may be cut short.",
                    "Compare with the exported file.");
        }
        if (down) {
            throw error("drill-slot", "The file ends while a slot is being routed.", null);
        }
        if (!sawHeader && !holes.isEmpty()) {
            places.warnFile("drill-header", "The drill file has no header (M48).");
        }
        return new Reading<>(new DrillFile(List.copyOf(tools.values()), holes, slots, !ended), places.warnings());
    }

    private InputException error(String code, String message, @Nullable String expected) {
        return places.error(lineAt, lineAt + Math.max(1, line.length()), code, message, expected);
    }

    private void warn(String code, String message, @Nullable String expected) {
        places.warn(lineAt, lineAt + line.length(), code, message, expected);
    }

    private void oneLine() throws InputException {
        if (line.startsWith(";")) {
            comment(line.substring(1).trim());
            return;
        }
        int semicolon = line.indexOf(';');
        if (semicolon > 0) {
            line = line.substring(0, semicolon).trim();
        }
        String upper = line.toUpperCase(Locale.ROOT);
        if (!upper.equals(line) && !line.startsWith("(")) {
            places.warnOnce(
                    "lower case",
                    lineAt,
                    lineAt + line.length(),
                    "drill-lower-case",
                    "Words are written in lower case; they are read as if in upper case.",
                    null);
            line = upper;
        }
        if (line.equals("M48")) {
            header = true;
            sawHeader = true;
        } else if (line.equals("%") || line.equals("M95")) {
            header = false;
        } else if (line.startsWith("METRIC") || line.startsWith("INCH")) {
            unitsLine();
        } else if (line.startsWith("ICI")) {
            incremental = line.endsWith("ON");
        } else if (line.startsWith("T") && line.length() > 1 && Character.isDigit(line.charAt(1))) {
            toolLine();
        } else if (header && HARMLESS.contains(line.split(",", 2)[0])) {
            return;
        } else if (line.startsWith("M47") || line.startsWith("M45") || line.startsWith("(")) {
            // messages to the operator
            return;
        } else {
            words();
        }
    }

    private void comment(String text) {
        if (text.equals("TYPE=PLATED") || text.equals("TYPE=NON_PLATED")) {
            platedNext = text.equals("TYPE=PLATED");
            return;
        }
        if (!text.startsWith("#@!")) {
            return;
        }
        String s = text.substring(3).trim();
        String[] fields = s.split(",", -1);
        if (fields[0].equals("TF.FileFunction") && fields.length > 1) {
            platedFile =
                    fields[1].equals("Plated") ? Boolean.TRUE : fields[1].equals("NonPlated") ? Boolean.FALSE : null;
        } else if (fields[0].equals("TA.AperFunction") && fields.length > 1) {
            if (fields[1].equals("Plated") || fields[1].equals("NonPlated")) {
                platedNext = fields[1].equals("Plated");
            }
            functionNext = fields[fields.length - 1];
        } else if (fields[0].startsWith("TD")) {
            platedNext = null;
            functionNext = null;
        }
    }

    private void unitsLine() throws InputException {
        String[] fields = line.split(",", -1);
        boolean metric = fields[0].equals("METRIC");
        if (!metric && !fields[0].equals("INCH")) {
            throw error("drill-units", "The unit is METRIC or INCH.", null);
        }
        setUnit(metric);
        for (int k = 1; k < fields.length; k++) {
            String f = fields[k].trim();
            if (f.equals("LZ") || f.equals("TZ")) {
                zeroRule = f.equals("LZ") ? 1 : 2;
            } else if (f.matches("0+\\.0+")) {
                integers = f.indexOf('.');
                decimals = f.length() - 1 - integers;
            } else {
                warn(
                        "drill-unknown",
                        "The word " + f + " after the unit is not known and is left out.",
                        "LZ, TZ or a format such as 000.000.");
            }
        }
    }

    private void setUnit(boolean metric) {
        double unit = metric ? 1 : Length.MM_PER_INCH;
        if (unitMm != 0 && unitMm != unit) {
            warn("drill-units", "The unit changes within the file; from here on the new one is used.", null);
        }
        unitMm = unit;
        integers = metric ? 3 : 2;
        decimals = metric ? 3 : 4;
    }

    private void requireUnit() throws InputException {
        if (unitMm == 0) {
            throw error(
                    "drill-units",
                    "The drill file does not state its unit before it is needed.",
                    "Put METRIC or INCH into the header.");
        }
    }

    private void toolLine() throws InputException {
        int p = 1;
        while (p < line.length() && Character.isDigit(line.charAt(p))) {
            p++;
        }
        if (p > 7) {
            throw error("drill-tool", "A tool number has too many digits.", null);
        }
        int number = Integer.parseInt(line.substring(1, p));
        int c = line.indexOf('C', p);
        if (c < 0) {
            if (header && tools.containsKey(number)) {
                // a tool that is known already is not listed again: it is put to work
                header = false;
                warn(
                        "drill-header",
                        "The header does not end (% or M95) before tool T" + number
                                + " is chosen; it is taken to end here.",
                        null);
            }
            if (header) {
                warn("drill-tool", "Tool T" + number + " is listed without a diameter.", null);
                return;
            }
            finishPath();
            tool = number == 0 ? null : tools.get(number);
            if (number != 0 && tool == null) {
                throw error(
                        "drill-tool-undefined",
                        "Tool T" + number + " is chosen here and has no diameter in the header or before.",
                        "Write T" + number + "C and the diameter into the header.");
            }
            String rest = line.substring(p);
            // feed and speed words may follow the tool, and its first hole
            if (!rest.isEmpty() && !rest.matches("([FSBHZ][0-9.+-]*)*")) {
                lineAt += p;
                line = rest;
                words();
            }
            return;
        }
        requireUnit();
        int q = c + 1;
        while (q < line.length() && "0123456789.+-".indexOf(line.charAt(q)) >= 0) {
            q++;
        }
        double diameter = number(line.substring(c + 1, q));
        if (!(diameter > 0)) {
            throw error("drill-tool", "The diameter of tool T" + number + " is not above 0.", null);
        }
        Boolean plated = platedNext != null ? platedNext : platedFile;
        DrillFile.Tool made = new DrillFile.Tool(number, diameter, plated, functionNext, lineNumber);
        DrillFile.Tool before = tools.put(number, made);
        if (before != null && before.diameterMm() != diameter) {
            warn(
                    "drill-tool-redefined",
                    "Tool T" + number + " is defined a second time with another diameter; from here"
                            + " on the second one is used.",
                    null);
        }
        if (!header) {
            finishPath();
            tool = made;
        }
    }

    /** A number of this file in mm: with a point as it stands, else padded by the zero rule. */
    private double number(String s) throws InputException {
        boolean negative = s.startsWith("-");
        String d = negative || s.startsWith("+") ? s.substring(1) : s;
        if (d.isEmpty()
                || d.length() > 20
                || d.indexOf('+') >= 0
                || d.indexOf('-') >= 0
                || d.indexOf('.') != d.lastIndexOf('.')
                || d.equals(".")) {
            throw error("drill-number", "\"" + s + "\" is not a number.", null);
        }
        double v;
        if (d.indexOf('.') >= 0) {
            v = Double.parseDouble(d);
        } else {
            v = padded(d);
        }
        return (negative ? -v : v) * unitMm;
    }

    private double padded(String digits) throws InputException {
        int total = integers + decimals;
        if (digits.length() > total && zeroRule == 1) {
            throw error(
                    "drill-number",
                    "\"" + digits + "\" has more than the " + total + " digits of the format " + integers + "."
                            + decimals + ".",
                    null);
        }
        String full = digits;
        if (zeroRule == 0 && digits.length() != total && Long.parseLong(digits) != 0) {
            throw error(
                    "drill-zeros",
                    "Coordinates have no decimal point and the file does not say which zeros are left" + " out.",
                    "Put LZ or TZ after the unit, or write decimal points.");
        }
        if (zeroRule != 2) {
            full = digits + "0".repeat(Math.max(0, total - digits.length()));
        }
        places.warnOnce(
                "no point",
                lineAt,
                lineAt + line.length(),
                "drill-format-assumed",
                "Coordinates have no decimal point; they are read as " + integers + "." + decimals + " digits.",
                "Check one hole by hand.");
        double v = Long.parseLong(full);
        for (int i = 0; i < decimals; i++) {
            v /= 10;
        }
        return v;
    }

    // ---- body ----

    private double wx;
    private double wy;
    private boolean hasX;
    private boolean hasY;
    private double wa;
    private double wi;
    private double wj;
    private boolean hasA;
    private boolean hasIJ;
    private int repeat;

    private void clearWords() {
        hasX = false;
        hasY = false;
        hasA = false;
        hasIJ = false;
        wi = 0;
        wj = 0;
        repeat = 0;
    }

    private void words() throws InputException {
        clearWords();
        int p = 0;
        boolean slot = false;
        double slotX = 0;
        double slotY = 0;
        while (p < line.length()) {
            char c = line.charAt(p);
            if (c == ' ') {
                p++;
                continue;
            }
            int q = p + 1;
            while (q < line.length() && "0123456789.+-".indexOf(line.charAt(q)) >= 0) {
                q++;
            }
            String v = line.substring(p + 1, q);
            if (c == 'G' && (v.equals("85"))) {
                takePoint();
                slot = true;
                slotX = x;
                slotY = y;
                clearWords();
            } else if (!word(c, v)) {
                warn("drill-unknown", "\"" + line.substring(p) + "\" is not known and is left out.", null);
                return;
            }
            p = q;
            if (ended) {
                return;
            }
        }
        if (slot) {
            takePoint();
            addSlot(List.of(PathEdge.line(slotX, slotY, x, y)), lineNumber);
        } else if (repeat > 0) {
            repeatHole();
        } else if (hasX || hasY) {
            point();
        }
    }

    private boolean word(char c, String v) throws InputException {
        switch (c) {
            case 'X' -> {
                requireUnit();
                wx = number(v);
                hasX = true;
            }
            case 'Y' -> {
                requireUnit();
                wy = number(v);
                hasY = true;
            }
            case 'A' -> {
                wa = number(v);
                hasA = true;
            }
            case 'I' -> {
                wi = number(v);
                hasIJ = true;
            }
            case 'J' -> {
                wj = number(v);
                hasIJ = true;
            }
            case 'R' -> {
                if (!v.matches("[0-9]{1,5}")) {
                    return false;
                }
                repeat = Integer.parseInt(v);
            }
            case 'N', 'F', 'S', 'H', 'B', 'Z' -> {
                return true;
            }
            case 'G' -> {
                return general(v);
            }
            case 'M' -> {
                return misc(v);
            }
            default -> {
                return false;
            }
        }
        return true;
    }

    private boolean general(String v) throws InputException {
        String code = v.startsWith("0") && v.length() == 2 ? v.substring(1) : v;
        switch (code) {
            case "0" -> {
                routing = true;
                motion = 0;
            }
            case "1", "2", "3" -> motion = code.charAt(0) - '0';
            case "5", "81" -> {
                routing = false;
                motion = 0;
            }
            case "90" -> incremental = false;
            case "91" -> incremental = true;
            case "40" -> {
                return true;
            }
            case "82", "83", "84", "87", "32", "33", "34", "35", "36", "37" ->
                throw error(
                        "drill-pattern",
                        "The pattern or cycle G" + v + " is not read: its holes would be missing.",
                        "Export the drill file with every hole by its place.");
            case "93", "92" ->
                throw error(
                        "drill-zero",
                        "G" + v + " moves the file's zero, which is not read: all holes after it would lie elsewhere.",
                        "Export the drill file without a shifted zero.");
            default -> {
                return false;
            }
        }
        return true;
    }

    private boolean misc(String v) throws InputException {
        String code = v.startsWith("0") && v.length() == 2 ? v.substring(1) : v;
        switch (code) {
            case "30", "0" -> {
                finishPath();
                ended = true;
            }
            case "14", "15" -> {
                down = true;
                path = new ArrayList<>();
                pathLine = lineNumber;
            }
            case "16", "17" -> finishPath();
            case "71", "72" -> setUnit(code.equals("71"));
            case "9", "6" -> {
                return true;
            }
            case "70", "80", "90" ->
                throw error(
                        "drill-zero",
                        "M" + v
                                + " swaps or mirrors the axes, which is not read: all holes after it would lie elsewhere.",
                        "Export the drill file without it.");
            case "25", "1", "2", "8" ->
                throw error(
                        "drill-pattern",
                        "Step-and-repeat patterns (M25, M01, M02, M08) are not read: their holes would be missing.",
                        "Export the drill file without patterns.");
            default -> {
                return false;
            }
        }
        return true;
    }

    private void takePoint() throws InputException {
        if (hasX) {
            x = incremental ? x + wx : wx;
        }
        if (hasY) {
            y = incremental ? y + wy : wy;
        }
        if (Math.abs(x) > ABSURD_MM || Math.abs(y) > ABSURD_MM) {
            places.warnOnce(
                    "absurd",
                    lineAt,
                    lineAt + line.length(),
                    "drill-coordinate-absurd",
                    "A hole lies more than " + (int) ABSURD_MM + " mm from the zero.",
                    "Check the unit and the zero rule of the file.");
        }
    }

    private DrillFile.Tool needTool() throws InputException {
        DrillFile.Tool t = tool;
        if (t == null) {
            throw error("drill-tool-undefined", "A hole comes before any tool is chosen.", "A line T01 or the like.");
        }
        return t;
    }

    private void limit() throws InputException {
        if (holes.size() + slots.size() >= limits.flashes()) {
            throw error("over-limit", "The drill file has more than " + limits.flashes() + " holes.", null);
        }
    }

    private void addSlot(List<PathEdge> edges, int at) throws InputException {
        limit();
        slots.add(new DrillFile.Slot(edges, needTool(), at));
    }

    private void point() throws InputException {
        double fromX = x;
        double fromY = y;
        takePoint();
        if (!routing) {
            limit();
            holes.add(new DrillFile.Hole(x, y, needTool(), lineNumber));
            return;
        }
        if (!down) {
            if (motion != 0) {
                warn("drill-slot", "A routing move with the tool up cuts nothing.", "M15 lowers the tool.");
            }
            return;
        }
        if (motion == 0) {
            throw error("drill-slot", "A rapid move (G00) with the tool down.", "M16 raises the tool.");
        }
        path.add(motion == 1 ? PathEdge.line(fromX, fromY, x, y) : arc(fromX, fromY));
    }

    private PathEdge arc(double fromX, double fromY) throws InputException {
        boolean ccw = motion == 3;
        double cx;
        double cy;
        if (hasIJ) {
            cx = fromX + wi;
            cy = fromY + wj;
        } else if (hasA) {
            double dx = x - fromX;
            double dy = y - fromY;
            double chord = StrictMath.hypot(dx, dy);
            if (!(wa > 0) || chord == 0 || chord > 2 * wa * 1.001) {
                throw error("drill-arc", "No arc of this radius joins the two points.", null);
            }
            double h = Math.sqrt(Math.max(0, wa * wa - chord * chord / 4)) / chord * (ccw ? 1 : -1);
            cx = fromX + dx / 2 - dy * h;
            cy = fromY + dy / 2 + dx * h;
        } else {
            throw error("drill-arc", "A routed arc needs a radius (A) or a centre (I, J).", null);
        }
        double full = 2 * StrictMath.PI;
        double a0 = StrictMath.atan2(fromY - cy, fromX - cx);
        double a1 = StrictMath.atan2(y - cy, x - cx);
        double t = ccw ? a1 - a0 : a0 - a1;
        t -= full * Math.floor(t / full);
        t = t == 0 ? full : t;
        return new PathEdge(fromX, fromY, x, y, cx, cy, ccw ? t : -t);
    }

    private void finishPath() throws InputException {
        if (down && !path.isEmpty()) {
            addSlot(path, pathLine);
        } else if (down) {
            limit();
            holes.add(new DrillFile.Hole(x, y, needTool(), pathLine));
        }
        down = false;
        path = new ArrayList<>();
    }

    private void repeatHole() throws InputException {
        if (holes.isEmpty() || routing) {
            throw error("drill-repeat", "A repeat (R) that follows no hole.", null);
        }
        for (int k = 0; k < repeat; k++) {
            limit();
            x += hasX ? wx : 0;
            y += hasY ? wy : 0;
            holes.add(new DrillFile.Hole(x, y, needTool(), lineNumber));
        }
    }
}
