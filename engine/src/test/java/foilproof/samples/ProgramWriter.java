package foilproof.samples;

import java.math.BigDecimal;
import java.math.RoundingMode;

/** Writes a program line by line, so that a generator can ask where it is. Coordinates have three decimals, mm. */
final class ProgramWriter {
    /** The header of every sample: a safe start, nothing left over from the program before. */
    static final String HEADER = "G21 G90 G91.1 G94 G17 G40 G49 G80 G54 G61";

    /** How near both radii of an arc must agree, mm: NISTIR 6556 section 3.5.3.2. */
    private static final double RADII_AGREE_MM = 0.002;

    private final StringBuilder text = new StringBuilder();
    private int lines;
    private double xMm = Double.NaN;
    private double yMm = Double.NaN;

    /** Adds a line as it is; returns its number, from 1. */
    int line(String line) {
        text.append(line).append('\n');
        lines++;
        return lines;
    }

    /** Number of the next line. */
    int next() {
        return lines + 1;
    }

    /** Adds a comment line. */
    void comment(String words) {
        line("(" + words + ")");
    }

    /** Stops, retracts, changes to tool {@code number}, waits for the touch-off, starts the spindle and lets it run up. */
    void change(int number, boolean stop) {
        line("M5");
        line("G0 Z25");
        line("T" + number + " M6");
        if (stop) {
            line("M0 (TOUCH OFF T" + number + ")");
        }
        line("S16000 M3");
        line("G4 P3");
        line("G0 Z2");
    }

    /** The program's end: up, spindle off. */
    void end() {
        line("G0 Z25");
        line("M5");
        line("M2");
    }

    /** Rapid above a place. */
    void rapid(double toXMm, double toYMm) {
        line("G0 X" + n(toXMm) + " Y" + n(toYMm));
        at(toXMm, toYMm);
    }

    /** Straight down (or up) at feed. */
    int plunge(double zMm, int feed) {
        return line("G1 Z" + n(zMm) + " F" + feed);
    }

    /** Straight cut; the feed is written where it is above 0. */
    int cut(double toXMm, double toYMm, int feed) {
        int number = line("G1 X" + n(toXMm) + " Y" + n(toYMm) + (feed > 0 ? " F" + feed : ""));
        at(toXMm, toYMm);
        return number;
    }

    /** An arc about a centre; both radii, as rounded, are checked to agree. */
    int arc(boolean clockwise, double toXMm, double toYMm, double centreXMm, double centreYMm, String more) {
        double i = r(centreXMm - r(xMm));
        double j = r(centreYMm - r(yMm));
        double startMm = Math.hypot(i, j);
        double endMm = Math.hypot(r(xMm) + i - r(toXMm), r(yMm) + j - r(toYMm));
        if (Math.abs(startMm - endMm) > RADII_AGREE_MM) {
            throw new IllegalStateException("radii " + startMm + " and " + endMm + " disagree after rounding");
        }
        int number =
                line((clockwise ? "G2" : "G3") + " X" + n(toXMm) + " Y" + n(toYMm) + " I" + n(i) + " J" + n(j) + more);
        at(toXMm, toYMm);
        return number;
    }

    /** Up to the clearance height. */
    void up() {
        line("G0 Z2");
    }

    /**
     * A hole by circular milling, counter-clockwise from its right-hand side: helix in steps, then a flat round.
     *
     * @return the first line that goes below Z 0
     */
    int bore(double centreXMm, double centreYMm, double radiusMm, double stepMm, double bottomMm, int feed) {
        double startXMm = centreXMm + radiusMm;
        rapid(startXMm, centreYMm);
        line("G0 Z0.5");
        line("G1 Z0.0 F90");
        int first = next();
        String round = "G3 X" + n(startXMm) + " Y" + n(centreYMm) + " I" + n(-radiusMm) + " J0";
        String feedWord = " F" + feed;
        for (double z = -stepMm; z > bottomMm + 1e-9; z -= stepMm) {
            line(round + " Z" + z2(z) + feedWord);
            feedWord = "";
        }
        line(round + " Z" + z2(bottomMm) + feedWord);
        line(round);
        up();
        return first;
    }

    String text() {
        return text.toString();
    }

    private void at(double newXMm, double newYMm) {
        xMm = newXMm;
        yMm = newYMm;
    }

    private static double r(double value) {
        return new BigDecimal(value).setScale(3, RoundingMode.HALF_EVEN).doubleValue();
    }

    /** Three decimals. */
    static String n(double value) {
        BigDecimal rounded = new BigDecimal(value).setScale(3, RoundingMode.HALF_EVEN);
        return rounded.signum() == 0 ? "0.000" : rounded.toPlainString();
    }

    private static String z2(double value) {
        return new BigDecimal(value).setScale(2, RoundingMode.HALF_EVEN).toPlainString();
    }
}
