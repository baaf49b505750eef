package foilproof.stock;

import java.util.Arrays;

/**
 * The inner loops of the sweep, on blocks of 16 x 16 cells.
 *
 * <pre>
 *  tile 64 x 64 = 4 x 4 blocks          one block, for all level pieces of one height z:
 *  +----+----+----+----+                  d2[c] = min over pieces of squared distance   (float, no branches)
 *  |    |    |    |    |                  h[c]  = min(h[c], z + rise(sqrt(d2[c])))      (once a block and height)
 *  +----+----+----+----+
 *  |    | ## | ## |    |                The loops are plain, over whole blocks, without branches: the compiler turns
 *  +----+----+----+----+                them into vector code. Coordinates are relative to the block's centre, so
 *  ..                                   single precision is good to about 1e-8 mm.
 * </pre>
 */
final class BlockKernel {
    /** Cells along one side of a block. */
    static final int BLOCK = 16;
    /** Cells of a block. */
    static final int CELLS = BLOCK * BLOCK;

    /** Makes walls upright: a ulp beyond the radius (3e-8 mm) rises 30 mm and more. */
    private static final float WALL = 1e9f;
    /**
     * Helices that climb no more than this, mm a radian (0.3 mm a turn), are taken in single precision: where a rim just
     * touches, a point's rounding of 1e-7 mm turns the touch by 3e-4 rad, here 0.015 um of height.
     */
    private static final double GENTLE = 0.05;
    /** A squared distance that no cutter reaches, mm2. */
    private static final float FAR = 1e12f;

    private final float[] offX = new float[CELLS];
    private final float[] offY = new float[CELLS];
    private final float[] off2 = new float[CELLS];
    private static final int LINE_VALUES = 7;
    private float[] lines = new float[LINE_VALUES * 64];
    private int lineCount;
    /** Least squared distance so far, mm2. */
    final float[] d2 = new float[CELLS];

    private final float[] lead = new float[CELLS];
    private final float[] beside2 = new float[CELLS];
    private final float[] along = new float[CELLS];
    private final float[] away = new float[CELLS];
    private final double cellMm;
    private final double halfMm;
    private final float core;
    private final float nose;
    private final float nose2;
    private final float tangent;
    private final float coneRise;
    private final float maxRadius;
    private final boolean noseOnly;

    BlockKernel(double cellMm, ToolProfile profile) {
        this.cellMm = cellMm;
        halfMm = cellMm * BLOCK / 2;
        for (int j = 0; j < BLOCK; j++) {
            for (int i = 0; i < BLOCK; i++) {
                int c = j * BLOCK + i;
                offX[c] = (float) ((i + 0.5) * cellMm - halfMm);
                offY[c] = (float) ((j + 0.5) * cellMm - halfMm);
                off2[c] = offX[c] * offX[c] + offY[c] * offY[c];
            }
        }
        core = (float) profile.coreMm();
        nose = (float) profile.noseMm();
        nose2 = nose * nose;
        tangent = Math.min((float) profile.tangentMm(), nose);
        coneRise = (float) profile.coneRise();
        maxRadius = (float) Math.min(profile.maxRadiusMm() + ToolProfile.TOUCH_MM, 1e6);
        noseOnly = nose > 0;
    }

    /** Half the side of a block, mm. */
    double halfMm() {
        return halfMm;
    }

    void reset() {
        Arrays.fill(d2, FAR);
    }

    /** Takes in a point piece; (bx, by) is the block's centre, mm. */
    void point(Pieces pieces, int p, double bx, double by) {
        pointAt(pieces.x0[p] - bx, pieces.y0[p] - by);
    }

    private void pointAt(double px, double py) {
        pointLoop(d2, offX, offY, (float) px, (float) py);
    }

    private static void pointLoop(float[] d2, float[] offX, float[] offY, float px, float py) {
        for (int c = 0; c < CELLS; c++) {
            float dx = offX[c] - px;
            float dy = offY[c] - py;
            d2[c] = Math.min(d2[c], dx * dx + dy * dy);
        }
    }

    /** Notes a level line, to be taken in by {@link #takeLines}; (bx, by) is the block's centre, mm. */
    void line(Pieces pieces, int p, double bx, double by) {
        double ux = pieces.ux[p];
        double uy = pieces.uy[p];
        double dx = bx - pieces.x0[p];
        double dy = by - pieces.y0[p];
        double foot = dx * ux + dy * uy;
        // Only the stretch beside the block counts: cut to it, a long line loses no precision.
        double low = Math.min(Math.max(0, foot - 3 * halfMm), pieces.length[p]);
        double high = Math.max(Math.min(pieces.length[p], foot + 3 * halfMm), 0);
        double half = (high - low) / 2;
        if (lineCount * LINE_VALUES == lines.length) {
            lines = Arrays.copyOf(lines, lines.length * 2);
        }
        int o = lineCount++ * LINE_VALUES;
        lines[o] = (float) (dx * uy - dy * ux);
        lines[o + 1] = (float) uy;
        lines[o + 2] = (float) -ux;
        // Halved, so that q + |q| is the distance beyond the ends.
        lines[o + 3] = (float) ((foot - (low + high) / 2) / 2);
        lines[o + 4] = (float) (ux / 2);
        lines[o + 5] = (float) (uy / 2);
        lines[o + 6] = (float) (half / 2);
    }

    /** Takes in the lines noted since the last time. */
    void takeLines() {
        linesLoop(d2, offX, offY, lines, lineCount);
        lineCount = 0;
    }

    // Values come from an array, many lines a call: with values as arguments, one line a call, the compiler of JDK 17
    // draws the loop into its caller and no longer makes vector code of it (measured: 540 ns a line against 90).
    private static void linesLoop(float[] d2, float[] offX, float[] offY, float[] lines, int count) {
        for (int k = 0; k < count; k++) {
            int o = k * LINE_VALUES;
            float s0 = lines[o];
            float sx = lines[o + 1];
            float sy = lines[o + 2];
            float t0 = lines[o + 3];
            float tx = lines[o + 4];
            float ty = lines[o + 5];
            float half = lines[o + 6];
            for (int c = 0; c < CELLS; c++) {
                float s = s0 + sx * offX[c] + sy * offY[c];
                float q = Math.abs(t0 + tx * offX[c] + ty * offY[c]) - half;
                float beyond = q + Math.abs(q);
                d2[c] = Math.min(d2[c], s * s + beyond * beyond);
            }
        }
    }

    /** Takes in a level arc; (bx, by) is the block's centre, mm. */
    void arc(Pieces pieces, int p, double bx, double by) {
        pointAt(pieces.x0[p] - bx, pieces.y0[p] - by);
        pointAt(pieces.x1[p] - bx, pieces.y1[p] - by);
        double px = bx - pieces.cx[p];
        double py = by - pieces.cy[p];
        double r = pieces.length[p];
        double sign = Math.signum(pieces.turn[p]);
        double ux = pieces.ux[p] * sign;
        double uy = pieces.uy[p] * sign;
        double ex = (pieces.x1[p] - pieces.cx[p]) * sign / r;
        double ey = (pieces.y1[p] - pieces.cy[p]) * sign / r;
        float[] k = {
            (float) (px * px + py * py - r * r),
            (float) (2 * px),
            (float) (2 * py),
            (float) r,
            (float) (r * r),
            (float) (ux * py - uy * px),
            (float) -uy,
            (float) ux,
            (float) (px * ey - py * ex),
            (float) ey,
            (float) -ex
        };
        arcLoop(d2, offX, offY, off2, k);
    }

    /**
     * Distance to a circle without cancellation: rho - r = (rho2 - r2) / (rho + r). Outside the wedge between the ends
     * a steep penalty hands over to the ends' own distances.
     */
    private static void arcLoop(float[] d2, float[] offX, float[] offY, float[] off2, float[] k) {
        float w0 = k[0];
        float wx = k[1];
        float wy = k[2];
        float r = k[3];
        float r2 = k[4];
        float a0 = k[5];
        float ax = k[6];
        float ay = k[7];
        float b0 = k[8];
        float bx = k[9];
        float by = k[10];
        for (int c = 0; c < CELLS; c++) {
            float w = w0 + wx * offX[c] + wy * offY[c] + off2[c];
            float rho = (float) Math.sqrt(Math.max(w + r2, 0f));
            float d = w / (rho + r);
            float a = a0 + ax * offX[c] + ay * offY[c];
            float b = b0 + bx * offX[c] + by * offY[c];
            float outside = (Math.abs(a) - a) + (Math.abs(b) - b);
            d2[c] = Math.min(d2[c], d * d + WALL * outside);
        }
    }

    /**
     * Turns the least distances into heights: {@code h = min(h, z + rise)}.
     *
     * @param h heights of the block, mm
     * @param z tip height of all pieces taken in since {@link #reset}, mm
     */
    void lower(float[] h, float z) {
        heights(z);
        minLoop(h, d2);
    }

    /** Turns the least distances into heights of their own, in {@link #d2}. */
    void heights(float z) {
        if (lineCount > 0) {
            takeLines();
        }
        rootLoop(d2);
        if (noseOnly) {
            noseLoop(d2, z);
        } else {
            coneLoop(d2, z, core, 0.5f * coneRise, maxRadius);
        }
    }

    // One step a loop: the compiler of JDK 17 does not turn root and minimum in one loop into vector code (measured:
    // 550 ns a block together, 110 ns apart).

    private static void rootLoop(float[] d) {
        for (int c = 0; c < CELLS; c++) {
            d[c] = (float) Math.sqrt(d[c]);
        }
    }

    private static void coneLoop(float[] d, float z, float core, float halfRise, float maxRadius) {
        for (int c = 0; c < CELLS; c++) {
            float g = d[c] - core;
            float w = d[c] - maxRadius;
            // x + |x| is twice the positive part.
            d[c] = z + halfRise * (g + Math.abs(g)) + WALL * (w + Math.abs(w));
        }
    }

    private void noseLoop(float[] d, float z) {
        for (int c = 0; c < CELLS; c++) {
            float g = Math.max(d[c] - core, 0f);
            float q = Math.min(g, tangent);
            float w = Math.max(d[c] - maxRadius, 0f);
            float rise = (q * q) / (nose + (float) Math.sqrt(nose2 - q * q)) + coneRise * (g - q) + WALL * w;
            d[c] = z + rise;
        }
    }

    private static void minLoop(float[] h, float[] d) {
        for (int c = 0; c < CELLS; c++) {
            h[c] = Math.min(h[c], d[c]);
        }
    }

    /** Takes a piece that is not level straight into heights, exactly: {@code h = min(h, what it leaves)}. */
    void sloped(Pieces pieces, int p, ToolProfile profile, double bx, double by, float[] h) {
        if (pieces.kind[p] == Pieces.LINE && !noseOnly) {
            ramp(pieces, p, bx, by);
            minLoop(h, lead);
            return;
        }
        if (pieces.kind[p] == Pieces.ARC && profile.isFlat() && climb(pieces, p) <= GENTLE) {
            flatHelix(pieces, p, bx, by);
            minLoop(h, lead);
            return;
        }
        float lowest = (float) pieces.lowest(p);
        for (int c = 0; c < CELLS; c++) {
            if (h[c] > lowest) {
                double x = bx + ((c % BLOCK + 0.5) * cellMm - halfMm);
                double y = by + ((c / BLOCK + 0.5) * cellMm - halfMm);
                h[c] = Math.min(h[c], (float) PieceShape.heightMm(pieces, p, profile, x, y));
            }
        }
    }

    private static double climb(Pieces pieces, int p) {
        return Math.abs((pieces.z1[p] - pieces.z0[p]) / pieces.turn[p]);
    }

    /** Heights under a flat cutter on a helix piece, into {@link #lead}; as {@link PieceShape} has it for flat ends. */
    private void flatHelix(Pieces pieces, int p, double bx, double by) {
        boolean falls = pieces.z1[p] < pieces.z0[p];
        double r = pieces.length[p];
        double lowX = falls ? pieces.x1[p] : pieces.x0[p];
        double lowY = falls ? pieces.y1[p] : pieces.y0[p];
        float[] k = {
            (float) (bx - pieces.cx[p]),
            (float) (by - pieces.cy[p]),
            (float) r,
            maxRadius,
            (float) (Math.signum(pieces.turn[p]) * (falls ? -1 : 1)),
            (float) ((lowX - pieces.cx[p]) / r),
            (float) ((lowY - pieces.cy[p]) / r),
            (float) pieces.lowest(p),
            (float) climb(pieces, p),
            (float) (Math.abs(pieces.turn[p]) * 1.000001),
            (float) (lowX - bx),
            (float) (lowY - by)
        };
        rhoLoop(offX, offY, beside2, k);
        rootLoop(beside2);
        cosLoop(beside2, along, lead, away, k);
        rootLoop(lead);
        entryLoop(offX, offY, beside2, along, lead, away, k);
        rootLoop(along);
        turnLoop(offX, offY, along, lead, away, k);
    }

    private static void rhoLoop(float[] offX, float[] offY, float[] rho2, float[] k) {
        float cx = k[0];
        float cy = k[1];
        for (int c = 0; c < CELLS; c++) {
            float px = offX[c] + cx;
            float py = offY[c] + cy;
            rho2[c] = px * px + py * py + 1e-12f;
        }
    }

    /** Cosine and squared sine of the angle between point and first touch; above 0 in {@code away} where out of reach. */
    private static void cosLoop(float[] rho, float[] cos, float[] sin2, float[] away, float[] k) {
        float r = k[2];
        float rim = k[3];
        for (int c = 0; c < CELLS; c++) {
            float d = rho[c] - r;
            float less = (rim - d) * (rim + d) / (2 * r * rho[c]);
            away[c] = Math.abs(less) - less;
            float held = Math.min(Math.max(less, 0f), 2f);
            cos[c] = 1 - held;
            sin2[c] = held * (2 - held);
        }
    }

    /** Tangent of half the turn from the low end to the first touch into {@code half}; 1 + its square into {@code cos}. */
    private static void entryLoop(
            float[] offX, float[] offY, float[] rho, float[] cos, float[] half, float[] away, float[] k) {
        float cx = k[0];
        float cy = k[1];
        float up = k[4];
        float lx = k[5];
        float ly = k[6];
        for (int c = 0; c < CELLS; c++) {
            float px = (offX[c] + cx) / rho[c];
            float py = (offY[c] + cy) / rho[c];
            float sin = up * half[c];
            float ex = px * cos[c] + py * sin;
            float ey = py * cos[c] - px * sin;
            float cross = up * (lx * ey - ly * ex);
            float dot = lx * ex + ly * ey;
            away[c] += (Math.abs(cross) - cross) + (Math.abs(dot) - dot);
            float u = cross / (1 + Math.abs(dot));
            half[c] = u;
            cos[c] = 1 + u * u;
        }
    }

    /** Turn = 4 atan(u / (1 + sqrt(1 + u2))), by its series to 2e-8; then the lower of the climb and the low end. */
    private static void turnLoop(float[] offX, float[] offY, float[] root, float[] half, float[] away, float[] k) {
        float rim2 = k[3] * k[3] * 1.000004f;
        float z = k[7];
        float rise = k[8];
        float span = k[9];
        float lowX = k[10];
        float lowY = k[11];
        for (int c = 0; c < CELLS; c++) {
            float w = half[c] / (1 + root[c]);
            float q = w * w;
            float series =
                    1 - q * (1 / 3f - q * (1 / 5f - q * (1 / 7f - q * (1 / 9f - q * (1 / 11f - q * (1 / 13f))))));
            float turn = 4 * w * series;
            float beyond = turn - span;
            float climbed = z + rise * turn + WALL * (away[c] + beyond + Math.abs(beyond));
            float dx = offX[c] - lowX;
            float dy = offY[c] - lowY;
            float out = dx * dx + dy * dy - rim2;
            half[c] = Math.min(climbed, z + WALL * (out + Math.abs(out)));
        }
    }

    /** Heights under a ramped line of a cutter without a nose, into {@link #lead}; as {@link PieceShape#lineFoot} says. */
    private void ramp(Pieces pieces, int p, double bx, double by) {
        double ux = pieces.ux[p];
        double uy = pieces.uy[p];
        double dx = bx - pieces.x0[p];
        double dy = by - pieces.y0[p];
        double foot = dx * ux + dy * uy;
        double m = (pieces.z1[p] - pieces.z0[p]) / pieces.length[p];
        double steep = coneRise > Math.abs(m) ? m * m / ((double) coneRise * coneRise - m * m) : 0;
        // Along is counted from the block's foot on the line, so that long lines lose no precision.
        float[] k = {
            (float) (dx * uy - dy * ux),
            (float) uy,
            (float) -ux,
            (float) ux,
            (float) uy,
            core * core,
            (float) steep,
            maxRadius * maxRadius
        };
        boolean toWall = coneRise > 0 && coneRise <= Math.abs(m);
        leadLoop(offX, offY, beside2, along, lead, k);
        if (toWall) {
            wallLoop(beside2, lead, maxRadius * maxRadius);
        }
        rootLoop(lead);
        float[] ends = {(float) -foot, (float) (pieces.length[p] - foot), (float) Math.signum(m)};
        float z = (float) (pieces.z0[p] + m * foot);
        footLoop(beside2, along, lead, ends, z, (float) m);
        rootLoop(beside2);
        // A point that the rim just holds must not fall outside by rounding: the wall stands 2 millionths wider here.
        riseLoop(lead, beside2, along, core, 0.5f * coneRise, maxRadius * 1.000002f);
    }

    /** Squares of how far beside the line a cell lies and of how far ahead of its foot the lowest place is. */
    private static void leadLoop(float[] offX, float[] offY, float[] beside2, float[] along, float[] lead2, float[] k) {
        float s0 = k[0];
        float sx = k[1];
        float sy = k[2];
        float tx = k[3];
        float ty = k[4];
        float core2 = k[5];
        float steep = k[6];
        float max2 = k[7];
        for (int c = 0; c < CELLS; c++) {
            float s = s0 + sx * offX[c] + sy * offY[c];
            float s2 = s * s;
            along[c] = tx * offX[c] + ty * offY[c];
            beside2[c] = s2;
            float onCore = core2 - s2;
            float inWall = max2 - s2;
            float lead = Math.max(0.5f * (onCore + Math.abs(onCore)), steep * s2);
            lead2[c] = Math.min(lead, 0.5f * (inWall + Math.abs(inWall)));
        }
    }

    /** A ramp steeper than the cone: the wall is the lowest place. */
    private static void wallLoop(float[] beside2, float[] lead2, float max2) {
        for (int c = 0; c < CELLS; c++) {
            float inWall = max2 - beside2[c];
            lead2[c] = 0.5f * (inWall + Math.abs(inWall));
        }
    }

    /** Tip height at the lowest place into {@code along}, squared distance from there into {@code beside2}. */
    private static void footLoop(float[] beside2, float[] along, float[] lead, float[] ends, float z, float m) {
        float low = ends[0];
        float high = ends[1];
        float sign = ends[2];
        for (int c = 0; c < CELLS; c++) {
            float at = Math.max(low, Math.min(high, along[c] - sign * lead[c]));
            float d = along[c] - at;
            along[c] = z + m * at;
            beside2[c] += d * d;
        }
    }

    private static void riseLoop(float[] h, float[] r, float[] z, float core, float halfRise, float maxRadius) {
        for (int c = 0; c < CELLS; c++) {
            float g = r[c] - core;
            float w = r[c] - maxRadius;
            h[c] = z[c] + halfRise * (g + Math.abs(g)) + WALL * (w + Math.abs(w));
        }
    }
}
