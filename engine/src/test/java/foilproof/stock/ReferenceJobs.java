package foilproof.stock;

import java.util.Random;

/**
 * Seeded generators of the reference jobs for speed and size: R (100 x 80 mm, about 1,200 closed loops, 12.6 m in some
 * 61,500 segments of 0.2 mm) and the same in other sizes. A third of the loops have a second loop 0.16 mm beside.
 */
final class ReferenceJobs {
    private static final double SEGMENT_MM = 0.205;

    private ReferenceJobs() {}

    /** The bit of the reference job: 30 degrees, tip 0.10 mm. */
    static ToolProfile bit() {
        return ToolProfile.vFlatTip(StrictMath.toRadians(30), 0.1, 3.175, 0);
    }

    /** Reference job R, depth 0.100 mm. */
    static CutPath r() {
        return loops(100, 80, 1200, 20261125L, 0.1);
    }

    /** Reference job S: four times the area and length of R. */
    static CutPath s() {
        return loops(200, 160, 4800, 20261125L, 0.1);
    }

    /**
     * Closed loops: rounded rectangles and curvy outlines on a jittered grid, so that neighbours lie 0.3 to 2 mm apart.
     *
     * @param count how many loops; a third of them have a partner
     */
    static CutPath loops(double widthMm, double heightMm, int count, long seed, double depthMm) {
        Random random = new Random(seed);
        int places = count * 3 / 4;
        int columns = (int) Math.round(Math.sqrt(places * widthMm / heightMm));
        int rows = (places + columns - 1) / columns;
        double px = widthMm / columns;
        double py = heightMm / rows;
        CutPath.Builder b = CutPath.builder();
        double[] at = {0, 0};
        for (int k = 0; k < places; k++) {
            double cx = (k % columns + 0.5) * px + (random.nextDouble() - 0.5) * 0.3;
            double cy = (k / columns + 0.5) * py + (random.nextDouble() - 0.5) * 0.3;
            double rx = px * (0.36 + 0.09 * random.nextDouble());
            double ry = py * (0.36 + 0.09 * random.nextDouble());
            double wave = random.nextInt(3) == 0 ? 0 : 0.27 + 0.25 * random.nextDouble();
            int lobes = 6 + random.nextInt(8);
            loop(b, at, new double[] {cx, cy, rx, ry, wave, lobes}, depthMm);
            if (k % 3 == 0) {
                loop(b, at, new double[] {cx, cy, rx - 0.16, ry - 0.16, wave, lobes}, depthMm);
            }
        }
        return b.build();
    }

    private static void loop(CutPath.Builder b, double[] at, double[] shape, double depthMm) {
        double length = 0;
        double[] p = point(shape, 0);
        for (int i = 1; i <= 720; i++) {
            double[] q = point(shape, i / 720.0);
            length += Math.hypot(q[0] - p[0], q[1] - p[1]);
            p = q;
        }
        int n = Math.max(12, (int) Math.round(length / SEGMENT_MM));
        p = point(shape, 0);
        b.rapid(at[0], at[1], 2, p[0], p[1], 2);
        b.line(p[0], p[1], 2, p[0], p[1], -depthMm);
        for (int i = 1; i <= n; i++) {
            double[] q = point(shape, i == n ? 0 : (double) i / n);
            b.line(p[0], p[1], -depthMm, q[0], q[1], -depthMm);
            p = q;
        }
        b.rapid(p[0], p[1], -depthMm, p[0], p[1], 2);
        at[0] = p[0];
        at[1] = p[1];
    }

    /** A rounded rectangle (a superellipse of power 4) with a wave on it. */
    private static double[] point(double[] shape, double f) {
        double a = 2 * Math.PI * f;
        double c = StrictMath.cos(a);
        double s = StrictMath.sin(a);
        double r = 1 / Math.sqrt(Math.sqrt(c * c * c * c + s * s * s * s));
        r *= 1 - shape[4] * (0.5 + 0.5 * StrictMath.cos(shape[5] * a));
        return new double[] {shape[0] + shape[2] * r * c, shape[1] + shape[3] * r * s};
    }
}
