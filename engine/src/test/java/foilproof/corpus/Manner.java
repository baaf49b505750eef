package foilproof.corpus;

import java.util.Locale;

/**
 * A manner of writing programs: unit, letters, line numbers, where the work zero lies. A planter says what is cut where
 * on the blank, in mm; each manner writes it in its own way, so that one fault stands in quite different texts.
 */
record Manner(String name, boolean inch, boolean small, boolean numbered, double zeroXMm, double zeroYMm) {
    /** The manners of the planted corpus. */
    static Manner[] all() {
        return new Manner[] {
            new Manner("millimetres, zero at the corner", false, false, false, 0, 0),
            new Manner("inches, zero inside the blank", true, false, false, 2.54, 1.27),
            new Manner("small letters and line numbers, zero in the middle", false, true, true, 10, 7.5),
        };
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
            String turn = "G3 " + xy(x + r, y) + " I" + z(-r) + " J" + z(0);
            for (double at = -0.35; at > height + 1e-9; at -= 0.35) {
                line(turn + " Z" + z(at) + " F" + z(180));
            }
            return line(turn + " Z" + z(height) + " F" + z(180)).line(turn).up();
        }

        String xy(double x, double y) {
            return "X" + z(x - manner.zeroXMm) + " Y" + z(y - manner.zeroYMm);
        }

        /** A length in the manner's unit. */
        String z(double mm) {
            String s = String.format(Locale.ROOT, manner.inch ? "%.5f" : "%.4f", manner.inch ? mm / 25.4 : mm);
            return s;
        }

        @Override
        public String toString() {
            return lines.toString();
        }
    }
}
