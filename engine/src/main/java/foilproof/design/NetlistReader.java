package foilproof.design;

import foilproof.geom.Length;
import foilproof.source.InputException;
import foilproof.source.InputLimits;
import foilproof.source.SourceFile;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Reads bare-board netlists in the fixed columns of IPC-D-356A. */
final class NetlistReader {
    private final TextPlaces places;
    private final InputLimits limits;
    private final Map<String, String> aliases = new HashMap<>();
    private final List<Netlist.TestPoint> points = new ArrayList<>();
    private double unitMm;
    private boolean radians;
    private String lastNet = "";
    private Netlist.@Nullable Kind lastKind;
    private String line = "";
    private int lineNumber;
    private int lineAt;
    private boolean known;

    NetlistReader(SourceFile source, InputLimits limits) {
        places = new TextPlaces(source);
        this.limits = limits;
    }

    Reading<Netlist> read() throws InputException {
        places.readable("An IPC-D-356A netlist");
        boolean ended = false;
        boolean anything = false;
        int at = 0;
        for (int n = 1; n <= places.lineCount() && !ended; n++) {
            line = places.lineText(n);
            lineNumber = n;
            lineAt = places.text.isEmpty() ? 0 : at;
            at = nextLine(at);
            if (line.isBlank()) {
                continue;
            }
            anything = true;
            if (line.startsWith("999")) {
                ended = true;
            } else {
                record();
            }
        }
        if (!anything) {
            throw places.fileError("netlist-empty", "The netlist is empty.", "Export it again.");
        }
        if (!known) {
            throw places.fileError(
                    "netlist-not-known",
                    "No line of this file is a record of a netlist.",
                    "An IPC-D-356A netlist was expected.");
        }
        if (!ended) {
            places.warn(
                    Math.max(0, places.text.length() - 1),
                    places.text.length(),
                    "netlist-cut-short",
                    "The end of the netlist (999) is missing: the file may be cut short, and nets may lack places.",
                    null);
        }
        List<Netlist.TestPoint> named = new ArrayList<>(points.size());
        for (Netlist.TestPoint p : points) {
            String full = aliases.get(p.net().toUpperCase(Locale.ROOT));
            named.add(
                    full == null
                            ? p
                            : new Netlist.TestPoint(
                                    full,
                                    p.kind(),
                                    p.reference(),
                                    p.pin(),
                                    p.midNet(),
                                    p.holeMm(),
                                    p.plated(),
                                    p.access(),
                                    p.xMm(),
                                    p.yMm(),
                                    p.sizeXMm(),
                                    p.sizeYMm(),
                                    p.round(),
                                    p.rotationDeg(),
                                    p.line()));
        }
        return new Reading<>(new Netlist(named), places.warnings());
    }

    private int nextLine(int at) {
        String text = places.text;
        int p = at;
        while (p < text.length() && text.charAt(p) != '\n' && text.charAt(p) != '\r') {
            p++;
        }
        return p + 1 < text.length() && text.charAt(p) == '\r' && text.charAt(p + 1) == '\n' ? p + 2 : p + 1;
    }

    private InputException error(int column, int end, String code, String message, @Nullable String expected) {
        return places.error(lineAt + column - 1, lineAt + end, code, message, expected);
    }

    private void record() throws InputException {
        char first = at(1);
        boolean remark = first == 'C' || first == 'P';
        known |= remark || line.matches("[0-9]{3}.*");
        if (first == 'C') {
            return;
        }
        if (first == 'P') {
            parameter();
            return;
        }
        String op = line.length() < 3 ? line : line.substring(0, 3);
        switch (op) {
            case "317", "327", "367", "307" -> {
                lastKind = kind(op.charAt(1));
                point(lastKind);
            }
            case "017", "027", "007", "067" -> {
                if (lastKind == null) {
                    throw error(1, 3, "netlist-record", "A continuation record follows no record.", null);
                }
                point(lastKind);
            }
            case "378", "078", "389", "089", "379", "079", "370", "070", "390", "090" ->
                places.warnOnce(
                        op,
                        lineAt,
                        lineAt + 3,
                        "netlist-not-read",
                        "Records " + op + " (conductors, outlines) are not used.",
                        null);
            default ->
                places.warn(
                        lineAt,
                        lineAt + Math.max(1, op.length()),
                        "netlist-unknown",
                        "The record " + op + " is not known and is left out.",
                        null);
        }
    }

    private static Netlist.Kind kind(char c) {
        return switch (c) {
            case '1' -> Netlist.Kind.THROUGH_HOLE;
            case '2' -> Netlist.Kind.SURFACE_PAD;
            case '6' -> Netlist.Kind.TOOLING_HOLE;
            default -> Netlist.Kind.BLIND_VIA;
        };
    }

    private void parameter() throws InputException {
        String[] w = line.substring(1).trim().split("\\s+");
        String what = w[0].toUpperCase(Locale.ROOT);
        if (what.equals("UNITS") && w.length > 1) {
            String kind = w[1].toUpperCase(Locale.ROOT);
            String unit = kind.equals("CUST") && w.length > 2 ? "CUST " + w[2] : kind;
            double before = unitMm;
            switch (unit) {
                case "CUST 0", "CUST" -> unitMm = Length.MM_PER_INCH / 10_000;
                case "CUST 1", "SI" -> unitMm = 0.001;
                case "CUST 2" -> {
                    unitMm = Length.MM_PER_INCH / 10_000;
                    radians = true;
                }
                default ->
                    throw error(
                            1,
                            line.length(),
                            "netlist-units",
                            "The unit " + unit + " is not known.",
                            "P  UNITS CUST 0 (inch), CUST 1 or SI (mm), CUST 2 (inch, radians).");
            }
            if (before != 0 && before != unitMm && !points.isEmpty()) {
                throw error(
                        1,
                        line.length(),
                        "netlist-units",
                        "The unit changes after the first record: which places are in which unit is not certain.",
                        "A netlist has one unit, stated before its first record.");
            }
        } else if (what.startsWith("NNAME") && w.length > 1) {
            String other = aliases.put(what, w[1]);
            if (other != null && !other.equals(w[1])) {
                throw error(
                        1,
                        line.length(),
                        "netlist-alias",
                        "The alias " + what + " stands for " + other + " before and for " + w[1] + " here.",
                        "One alias, one net: export the netlist again.");
            }
        } else if (what.equals("IMAGE") && !(w.length > 1 && w[1].equals("PRIMARY"))) {
            places.warnOnce(
                    "image",
                    lineAt,
                    lineAt + line.length(),
                    "netlist-not-read",
                    "Stepped images are not read; the nets are those of the first image.",
                    null);
        }
    }

    private String field(int from, int to) {
        return line.length() < from
                ? ""
                : line.substring(from - 1, Math.min(to, line.length())).trim();
    }

    /** A marker, which may be written in lower case. */
    private char at(int column) {
        return line.length() < column ? ' ' : Character.toUpperCase(line.charAt(column - 1));
    }

    private void point(Netlist.Kind kind) throws InputException {
        if (unitMm == 0) {
            throw places.error(
                    lineAt,
                    lineAt + line.length(),
                    "netlist-units",
                    "The netlist does not state its unit before its first record.",
                    "P  UNITS CUST 0, CUST 1 or SI.");
        }
        if (points.size() >= limits.flashes()) {
            throw error(1, 3, "over-limit", "The netlist has more than " + limits.flashes() + " records.", null);
        }
        boolean continued = at(1) == '0';
        Netlist.TestPoint before = points.isEmpty() ? null : points.get(points.size() - 1);
        // a continuation may say more of the place of the record before it, and name no place of its own
        boolean sameplace = continued && before != null && field(42, 57).isEmpty();
        if (!sameplace && (at(42) != 'X' || at(50) != 'Y')) {
            throw error(
                    Math.min(42, line.length() + 1),
                    Math.max(43, line.length()),
                    "netlist-record",
                    "The record is cut short or its columns are shifted.",
                    "X stands in column 42 and Y in column 50.");
        }
        String net = field(4, 17);
        if (!field(18, 20).isEmpty()) {
            places.warn(
                    lineAt + 17,
                    lineAt + 20,
                    "netlist-name-long",
                    "The name of the net goes on beyond its 14 columns; it is read as " + net + ".",
                    "Longer names come by aliases: P  NNAME1  LONG_NAME.");
        }
        if (net.isEmpty() && continued) {
            net = lastNet;
        }
        if (net.isEmpty()) {
            throw error(4, 17, "netlist-record", "The record names no net.", "N/C for a place of its own.");
        }
        lastNet = net;
        Double hole = null;
        Boolean plated = null;
        if (at(33) == 'D') {
            hole = number(34, 37) * unitMm;
            plated = at(38) == 'P' ? Boolean.TRUE : at(38) == 'U' ? Boolean.FALSE : null;
        }
        double sizeX = at(58) == 'X' ? number(59, 62) * unitMm : 0;
        double sizeY = at(63) == 'Y' && !field(64, 67).isEmpty() ? number(64, 67) * unitMm : 0;
        double rotation = at(68) == 'R' && !field(69, 71).isEmpty() ? number(69, 71) : 0;
        String reference = field(21, 26);
        String pin = field(28, 31);
        if (continued && before != null && reference.isEmpty() && pin.isEmpty() && (sameplace || hole != null)) {
            reference = before.reference() == null ? "" : before.reference();
            pin = before.pin() == null ? "" : before.pin();
        }
        points.add(new Netlist.TestPoint(
                net,
                kind,
                reference.isEmpty() ? null : reference,
                pin.isEmpty() ? null : pin,
                at(32) == 'M',
                hole,
                plated,
                access(),
                sameplace && before != null ? before.xMm() : signed(43) * unitMm,
                sameplace && before != null ? before.yMm() : signed(51) * unitMm,
                sizeX,
                sizeY == 0 ? sizeX : sizeY,
                sizeY == 0,
                radians ? StrictMath.toDegrees(rotation / 100) : rotation,
                lineNumber));
    }

    private Netlist.Access access() throws InputException {
        String s = field(40, 41);
        if (at(39) != 'A' || s.isEmpty()) {
            return Netlist.Access.BOTH;
        }
        int layer = (int) number(40, 41);
        return layer == 0 ? Netlist.Access.BOTH : layer == 1 ? Netlist.Access.TOP : Netlist.Access.BOTTOM;
    }

    private double signed(int column) throws InputException {
        char sign = at(column);
        if (sign != '+' && sign != '-' && sign != ' ') {
            throw error(column, column, "netlist-record", "A sign or a blank was expected here.", null);
        }
        double v = number(column + 1, column + 6);
        return sign == '-' ? -v : v;
    }

    private double number(int from, int to) throws InputException {
        String s = field(from, to);
        if (s.isEmpty() || !s.matches("[0-9]+")) {
            throw error(
                    from,
                    to,
                    "netlist-record",
                    "Digits were expected in columns " + from + " to " + to + ", not \"" + s + "\".",
                    null);
        }
        return Double.parseDouble(s);
    }
}
