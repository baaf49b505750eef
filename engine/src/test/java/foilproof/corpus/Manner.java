package foilproof.corpus;

import foilproof.findings.Bench;
import java.util.Locale;

/**
 * A manner of writing programs and of laying the board: unit, letters, line numbers, where the work zero lies, and by
 * how many quarter turns the board is laid on the table. A planter says what is cut where on a blank of 20 x 15 mm (or
 * the size it asks for), in mm; each manner writes it in its own way, so that one fault stands in quite different texts
 * and on quite different boards: other coordinates, other axes, other corners.
 *
 * @param name what is told of it
 * @param inch inches, else millimetres
 * @param small small letters
 * @param numbered N words
 * @param zeroXMm where the work zero lies, from the lower-left corner of the blank as it lies, mm
 * @param zeroYMm the same in Y, mm
 * @param turns quarter turns of the board, counter-clockwise: 0, 1 or 2
 * @param boardXMm width of the planter's blank, mm
 * @param boardYMm height of the planter's blank, mm
 */
record Manner(
        String name,
        boolean inch,
        boolean small,
        boolean numbered,
        double zeroXMm,
        double zeroYMm,
        int turns,
        double boardXMm,
        double boardYMm) {
    /** The manners of the planted corpus. */
    static Manner[] all() {
        return new Manner[] {
            new Manner("millimetres, zero at the corner", false, false, false, 0, 0, 0, 20, 15),
            new Manner("inches, half a turn, zero inside the blank", true, false, false, 2.54, 1.27, 2, 20, 15),
            new Manner("small letters and line numbers, a quarter turn", false, true, true, 10, 7.5, 1, 20, 15),
        };
    }

    /** The same manner on a blank of another size. */
    Manner sized(double xMm, double yMm) {
        return new Manner(name, inch, small, numbered, zeroXMm, zeroYMm, turns, xMm, yMm);
    }

    /** The same manner without line numbers. */
    Manner plain() {
        return new Manner(name, inch, small, false, zeroXMm, zeroYMm, turns, boardXMm, boardYMm);
    }

    /** Width of the blank as it lies, mm. */
    double widthMm() {
        return turns == 1 ? boardYMm : boardXMm;
    }

    /** Height of the blank as it lies, mm. */
    double heightMm() {
        return turns == 1 ? boardXMm : boardYMm;
    }

    /** Where a place of the planter's board lies on the blank as it lies, mm. */
    double[] place(double x, double y) {
        return switch (turns) {
            case 1 -> new double[] {boardYMm - y, x};
            case 2 -> new double[] {boardXMm - x, boardYMm - y};
            default -> new double[] {x, y};
        };
    }

    /** A place as the job file writes it. */
    String point(double x, double y) {
        double[] p = place(x, y);
        return "[\"" + mm(p[0]) + " mm\", \"" + mm(p[1]) + " mm\"]";
    }

    /** A box as the job file writes it. */
    String box(double x0, double y0, double x1, double y1) {
        double[] b = corners(x0, y0, x1, y1);
        return "[\"" + mm(b[0]) + " mm\", \"" + mm(b[1]) + " mm\", \"" + mm(b[2]) + " mm\", \"" + mm(b[3]) + " mm\"]";
    }

    /** A finished size as the job file writes it. */
    String size(double x, double y) {
        return "[\"" + mm(turns == 1 ? y : x) + " mm\", \"" + mm(turns == 1 ? x : y) + " mm\"]";
    }

    /** Touched points x, y, height as the job file writes them. */
    String surface(double... xyz) {
        StringBuilder s = new StringBuilder("[");
        for (int i = 0; i < xyz.length; i += 3) {
            double[] p = place(xyz[i], xyz[i + 1]);
            s.append(i == 0 ? "" : ",").append("[\"").append(mm(p[0])).append(" mm\",\"");
            s.append(mm(p[1])).append(" mm\",\"").append(mm(xyz[i + 2])).append(" mm\"]");
        }
        return s.append(']').toString();
    }

    /** The work zero as the job file writes it. */
    String workZero() {
        return "[\"" + zeroXMm + " mm\", \"" + zeroYMm + " mm\"]";
    }

    /** How the planter's turning of the blank is said of the blank as it lies. */
    String turned(String planters) {
        boolean other = turns == 1;
        return planters.equals("about Y") == other ? "about X" : "about Y";
    }

    /** Adds a keep-out box. */
    Bench keepOut(Bench bench, String name, double x0, double y0, double x1, double y1, double top) {
        double[] b = corners(x0, y0, x1, y1);
        return bench.keepOut(name, b[0], b[1], b[2], b[3], top);
    }

    /** Lays a design that is drawn in the planter's frame on the blank as it lies. */
    Bench placed(Bench bench) {
        double[] zero = place(0, 0);
        return bench.designKeys(
                "placed_at", "[\"" + zero[0] + " mm\", \"" + zero[1] + " mm\"]", "rotated", turns * 90 + " deg");
    }

    private double[] corners(double x0, double y0, double x1, double y1) {
        double[] a = place(x0, y0);
        double[] b = place(x1, y1);
        return new double[] {Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[0], b[0]), Math.max(a[1], b[1])};
    }

    private static String mm(double v) {
        return String.format(Locale.ROOT, "%.6f", v);
    }

    /** A program that is being written. */
    Text text() {
        return new Text(this);
    }

    /** The lines of a program, with the number of the last one. */
    static final class Text {
        private final Manner manner;
        private final StringBuilder lines = new StringBuilder();
        private int count;

        private Text(Manner manner) {
            this.manner = manner;
        }

        /** One line as it stands, in this manner's letters. */
        Text line(String words) {
            count++;
            String text = manner.numbered ? "N" + 10 * count + " " + words : words;
            lines.append(manner.small ? text.toLowerCase(Locale.ROOT) : text).append('\n');
            return this;
        }

        /** The number of the last line. */
        int last() {
            return count;
        }

        Text head() {
            return line((manner.inch ? "G20" : "G21") + " G90 G91.1 G94 G17 G40 G49 G80 G54 G61");
        }

        /** Lift, change, stop, spindle, dwell. */
        Text change(int tool) {
            return line("M5").line("G0 Z" + z(25)).line("T" + tool + " M6").line("M0");
        }

        Text spin() {
            return line("S16000 M3").line("G4 P3").line("G0 Z" + z(5));
        }

        Text start(int tool) {
            return head().change(tool).spin();
        }

        Text to(double x, double y) {
            return line("G0 " + xy(x, y)).line("G0 Z" + z(1));
        }

        Text down(double height, double feed) {
            return line("G1 Z" + z(height) + " F" + z(feed));
        }

        Text cut(double x, double y, double feed) {
            return line("G1 " + xy(x, y) + " F" + z(feed));
        }

        Text up() {
            return line("G0 Z" + z(5));
        }

        Text end() {
            return line("G0 Z" + z(10)).line("M5").line("M2");
        }

        /** One straight groove, from above to above. */
        Text groove(double x0, double y0, double x1, double y1, double height) {
            return to(x0, y0).down(height, 90).cut(x1, y1, 300).up();
        }

        /** A closed rectangle, begun and ended at its lower-left corner with 0.4 mm of lead-over. */
        Text box(double x0, double y0, double x1, double y1, double height) {
            return to(x0, y0)
                    .down(height, 90)
                    .cut(x1, y0, 300)
                    .cut(x1, y1, 300)
                    .cut(x0, y1, 300)
                    .cut(x0, y0, 300)
                    .cut(x0 + 0.4, y0, 300)
                    .up();
        }

        /** A bore by a helix in steps of 0.35 mm down to a height, with a level turn. */
        Text bore(double x, double y, double holeMm, double cutterMm, double height) {
            double r = (holeMm - cutterMm) / 2;
            line("G0 " + xy(x + r, y)).line("G0 Z" + z(0.5)).down(0, 90);
            String turn = "G3 " + xy(x + r, y) + " " + ij(-r, 0);
            for (double at = -0.35; at > height + 1e-9; at -= 0.35) {
                line(turn + " Z" + z(at) + " F" + z(180));
            }
            return line(turn + " Z" + z(height) + " F" + z(180)).line(turn).up();
        }

        /** A straight plunge. */
        Text plunge(double x, double y, double height, double feed) {
            return to(x, y).down(height, feed).up();
        }

        /** A place of the planter's board in the manner's coordinates. */
        String xy(double x, double y) {
            double[] p = manner.place(x, y);
            return "X" + z(p[0] - manner.zeroXMm) + " Y" + z(p[1] - manner.zeroYMm);
        }

        /** A way of the planter's board in the manner's axes, as X and Y words. */
        String way(double x, double y) {
            double[] v = turned(x, y);
            return "X" + z(v[0]) + " Y" + z(v[1]);
        }

        /** From an arc's start to its centre. */
        String ij(double i, double j) {
            double[] v = turned(i, j);
            return "I" + z(v[0]) + " J" + z(v[1]);
        }

        private double[] turned(double x, double y) {
            return switch (manner.turns) {
                case 1 -> new double[] {-y, x};
                case 2 -> new double[] {-x, -y};
                default -> new double[] {x, y};
            };
        }

        /** A length in the manner's unit. */
        String z(double mm) {
            double v = manner.inch ? mm / 25.4 : mm;
            String s = String.format(Locale.ROOT, manner.inch ? "%.6f" : "%.4f", v);
            return s.startsWith("-") && s.matches("-0\\.0+") ? s.substring(1) : s;
        }

        @Override
        public String toString() {
            return lines.toString();
        }
    }
}
