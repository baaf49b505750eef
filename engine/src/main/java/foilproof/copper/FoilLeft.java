package foilproof.copper;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleBinaryOperator;
import org.jspecify.annotations.Nullable;

/**
 * Foil that stays under the middle of a groove: the finished surface there is not t + 5 um below the foil's top.
 *
 * @param xMm where most is left, blank's frame
 * @param yMm likewise
 * @param x0Mm box of the strip
 * @param y0Mm likewise
 * @param x1Mm likewise
 * @param y1Mm likewise
 * @param lengthMm length along the groove over which it is left
 * @param leftMm foil left where most is left, mm above the glue plane; not above 0 where the foil is cut but by less
 *     than 5 um too much
 * @param missingMm how much deeper the cut had to be there to clear the foil and 5 um more, mm
 * @param program index of the program
 * @param line physical line where most is left, from 1
 */
public record FoilLeft(
        double xMm,
        double yMm,
        double x0Mm,
        double y0Mm,
        double x1Mm,
        double y1Mm,
        double lengthMm,
        double leftMm,
        double missingMm,
        int program,
        int line) {
    /** A cut that goes this much deeper than the foil counts as clearing it, mm (needs.md; editable default). */
    public static final double CLEARED_BELOW_FOIL_MM = 0.005;
    /** Contiguous lengths not above this are not told, mm (needs.md D1). */
    public static final double LEAST_LENGTH_MM = 0.2;

    /**
     * Finds the strips of foil left under the judged stretches of some centre lines, longest first.
     *
     * @param lines one tool run's centre lines
     * @param margin the finished surface above the glue plane at any place, all runs together, mm
     * @param widthMm the blank's width: places outside are not asked
     * @param heightMm the blank's height
     * @param extraMm how far below the foil counts as cleared
     */
    public static List<FoilLeft> find(
            CutLines lines, DoubleBinaryOperator margin, double widthMm, double heightMm, double extraMm) {
        List<FoilLeft> strips = new ArrayList<>();
        Strip strip = null;
        for (int i = 1; i < lines.size(); i++) {
            if (!lines.judged(i)) {
                strip = close(strip, strips);
                continue;
            }
            double dx = lines.xMm(i) - lines.xMm(i - 1);
            double dy = lines.yMm(i) - lines.yMm(i - 1);
            double length = Math.sqrt(dx * dx + dy * dy);
            int steps = Math.max(1, (int) StrictMath.ceil(length / 0.02));
            for (int k = 0; k < steps; k++) {
                // The middle of each step stands for it, so that no end is counted twice.
                double f = (k + 0.5) / steps;
                double x = lines.xMm(i - 1) + f * dx;
                double y = lines.yMm(i - 1) + f * dy;
                boolean on = x >= 0 && y >= 0 && x <= widthMm && y <= heightMm;
                double m = on ? margin.applyAsDouble(x, y) : Double.NEGATIVE_INFINITY;
                if (m + extraMm > 1e-9) {
                    strip = strip == null ? new Strip() : strip;
                    strip.add(x, y, m, length / steps, extraMm, lines.program(i), lines.line(i));
                } else {
                    strip = close(strip, strips);
                }
            }
        }
        close(strip, strips);
        strips.sort((a, b) -> Double.compare(b.lengthMm(), a.lengthMm()));
        return strips;
    }

    private static @Nullable Strip close(@Nullable Strip strip, List<FoilLeft> strips) {
        if (strip != null && strip.length > LEAST_LENGTH_MM) {
            strips.add(strip.toFoilLeft());
        }
        return null;
    }

    /**
     * The least Z error at which one run clears the foil and a little more all along its judged centre lines, wherever
     * the other runs have not done so.
     *
     * @return null where the run has no judged line on the blank, or the other runs clear all of it
     */
    public static @Nullable ZLimit limit(CutLines lines, ToolRunField field, double extraMm) {
        double worst = Double.NEGATIVE_INFINITY;
        double atX = 0;
        double atY = 0;
        int at = -1;
        for (int i = 1; i < lines.size(); i++) {
            if (!lines.judged(i)) {
                continue;
            }
            double dx = lines.xMm(i) - lines.xMm(i - 1);
            double dy = lines.yMm(i) - lines.yMm(i - 1);
            int steps = Math.max(1, (int) StrictMath.ceil(Math.sqrt(dx * dx + dy * dy) / 0.1));
            for (int k = 0; k <= steps; k++) {
                double x = lines.xMm(i - 1) + dx * k / steps;
                double y = lines.yMm(i - 1) + dy * k / steps;
                double e = needed(field, x, y, extraMm);
                if (e > worst + 1e-9) {
                    worst = e;
                    atX = x;
                    atY = y;
                    at = i;
                }
            }
        }
        if (at < 0) {
            return null;
        }
        // The surface bends between samples: climb along the line to where most is needed.
        double dx = lines.xMm(at) - lines.xMm(at - 1);
        double dy = lines.yMm(at) - lines.yMm(at - 1);
        double length = Math.sqrt(dx * dx + dy * dy);
        for (double step = 0.05; length > 0 && step > 1e-4; step *= 0.5) {
            for (int side = -1; side <= 1; side += 2) {
                double x = atX + side * step * dx / length;
                double y = atY + side * step * dy / length;
                boolean within = (x - lines.xMm(at - 1)) * (x - lines.xMm(at)) <= 0
                        && (y - lines.yMm(at - 1)) * (y - lines.yMm(at)) <= 0;
                double e = within ? needed(field, x, y, extraMm) : Double.NEGATIVE_INFINITY;
                if (e > worst + 1e-9) {
                    worst = e;
                    atX = x;
                    atY = y;
                }
            }
        }
        return new ZLimit(ZLimit.Kind.FOIL_LEFT, worst, 1e-4, atX, atY, lines.program(at), lines.line(at));
    }

    private static double needed(ToolRunField field, double x, double y, double extraMm) {
        if (x < 0 || y < 0 || x > field.widthMm() || y > field.heightMm()) {
            return Double.NEGATIVE_INFINITY;
        }
        if (field.hasOthers() && field.exactOthersMm(x, y) <= -extraMm) {
            return Double.NEGATIVE_INFINITY;
        }
        return field.exactMarginMm(x, y) + extraMm;
    }

    private static final class Strip {
        private double length;
        private double most = Double.NEGATIVE_INFINITY;
        private double x;
        private double y;
        private double missing;
        private int program;
        private int line;
        private double x0 = Double.POSITIVE_INFINITY;
        private double y0 = Double.POSITIVE_INFINITY;
        private double x1 = Double.NEGATIVE_INFINITY;
        private double y1 = Double.NEGATIVE_INFINITY;

        void add(double atX, double atY, double margin, double step, double extraMm, int atProgram, int atLine) {
            length += step;
            x0 = Math.min(x0, atX);
            y0 = Math.min(y0, atY);
            x1 = Math.max(x1, atX);
            y1 = Math.max(y1, atY);
            if (margin > most) {
                most = margin;
                missing = margin + extraMm;
                x = atX;
                y = atY;
                program = atProgram;
                line = atLine;
            }
        }

        FoilLeft toFoilLeft() {
            return new FoilLeft(x, y, x0, y0, x1, y1, length, most, missing, program, line);
        }
    }
}
