package foilproof.app.viewer;

import java.util.Arrays;

/** Triangles of everything that is no height field: clamps, touch points, clip, cutter. Ten floats a corner. */
final class Solids {
    /** Floats a corner: place, normal, colour and pattern. */
    static final int STRIDE = 10;

    private static final int ROUND = 40;

    private float[] data = new float[STRIDE * 3000];
    private int length;

    /** All corners, three a triangle. */
    float[] data() {
        return Arrays.copyOf(data, length);
    }

    /** Number of corners. */
    int corners() {
        return length / STRIDE;
    }

    /** Everything that stands on this board; seen straight from above, the cutter would hide its own work and is left out. */
    static Solids of(BoardSnapshot board, BoardSnapshot.Conditions c, double zFactor, boolean fromAbove) {
        Solids s = new Solids();
        for (BoardSnapshot.KeepOut k : board.keepOuts()) {
            // Clamps rise to their real height, but never so exaggerated that they hide the board.
            double top = Math.min(k.topMm(), 12) / zFactor;
            if (k.round()) {
                double r = (k.x1Mm() - k.x0Mm()) / 2;
                double z = board.spoilTopMm();
                s.lathe(
                        k.x0Mm() + r,
                        k.y0Mm() + r,
                        z,
                        new double[] {r, 0, r, top - z - r * 0.3 / zFactor, r * 0.7, top - z, 0, top - z},
                        new float[] {0.62f, 0.64f, 0.67f, 2},
                        99,
                        new float[4],
                        1);
                continue;
            }
            s.box(k.x0Mm(), k.y0Mm(), board.spoilTopMm(), k.x1Mm(), k.y1Mm(), top, new float[] {0.75f, 0.16f, 0.10f, 1
            });
        }
        for (BoardSnapshot.Place p : board.touchPoints()) {
            double z = board.blankSurfaceMm(c, p.xMm(), p.yMm());
            s.lathe(
                    p.xMm(),
                    p.yMm(),
                    z,
                    new double[] {0, 0, 0.12, 0.55 / zFactor, 0.42, 1.5 / zFactor, 0, 1.5 / zFactor},
                    new float[] {0.02f, 0.35f, 0.75f, 0},
                    99,
                    new float[4],
                    1);
        }
        BoardSnapshot.Place clip = board.clip();
        if (clip != null) {
            double z = board.blankSurfaceMm(c, clip.xMm(), clip.yMm());
            double h = 1.6 / zFactor;
            s.box(clip.xMm() - 1.6, clip.yMm() - 0.9, z, clip.xMm() + 1.6, clip.yMm() + 0.9, z + h, new float[] {
                0.02f, 0.02f, 0.02f, 0
            });
            s.box(
                    clip.xMm() - 1.1,
                    clip.yMm() - 0.5,
                    z + h,
                    clip.xMm() + 1.1,
                    clip.yMm() + 0.5,
                    z + 1.6 * h,
                    new float[] {0.8f, 0.66f, 0.05f, 0});
        }
        BoardSnapshot.Cutter t = board.cutter();
        if (t != null && !fromAbove) {
            s.lathe(
                    t.xMm(),
                    t.yMm(),
                    t.zMm(),
                    t.profileMm(),
                    new float[] {0.80f, 0.72f, 0.50f, 2},
                    t.cutsToMm(),
                    new float[] {0.55f, 0.57f, 0.60f, 2},
                    1);
        }
        return s;
    }

    private void corner(double x, double y, double z, double nx, double ny, double nz, float[] tint) {
        if (length + STRIDE > data.length) {
            data = Arrays.copyOf(data, data.length * 2);
        }
        float[] values = {
            (float) x, (float) y, (float) z, (float) nx, (float) ny, (float) nz, tint[0], tint[1], tint[2], tint[3]
        };
        System.arraycopy(values, 0, data, length, STRIDE);
        length += STRIDE;
    }

    private void quad(double[] a, double[] b, double[] c, double[] d, double[] n, float[] tint) {
        for (double[] p : new double[][] {a, b, c, a, c, d}) {
            corner(p[0], p[1], p[2], n[0], n[1], n[2], tint);
        }
    }

    private void box(double x0, double y0, double z0, double x1, double y1, double z1, float[] tint) {
        double[][] p = {
            {x0, y0, z0},
            {x1, y0, z0},
            {x1, y1, z0},
            {x0, y1, z0},
            {x0, y0, z1},
            {x1, y0, z1},
            {x1, y1, z1},
            {x0, y1, z1}
        };
        quad(p[4], p[5], p[6], p[7], new double[] {0, 0, 1}, tint);
        quad(p[0], p[1], p[5], p[4], new double[] {0, -1, 0}, tint);
        quad(p[1], p[2], p[6], p[5], new double[] {1, 0, 0}, tint);
        quad(p[2], p[3], p[7], p[6], new double[] {0, 1, 0}, tint);
        quad(p[3], p[0], p[4], p[7], new double[] {-1, 0, 0}, tint);
    }

    /** A turned body: radius, height pairs from below; another colour above changeMm. */
    private void lathe(
            double x,
            double y,
            double z,
            double[] profile,
            float[] tint,
            double changeMm,
            float[] above,
            double zScale) {
        for (int i = 0; i + 3 < profile.length; i += 2) {
            double r0 = profile[i];
            double h0 = profile[i + 1] * zScale;
            double r1 = profile[i + 2];
            double h1 = profile[i + 3] * zScale;
            double len = Math.max(1e-9, Math.sqrt((r1 - r0) * (r1 - r0) + (h1 - h0) * (h1 - h0)));
            double nr = (h1 - h0) / len;
            double nz = (r0 - r1) / len;
            float[] colour = profile[i + 1] >= changeMm - 1e-9 ? above : tint;
            if (changeMm < 90 && Math.max(r0, r1) > 3.2) {
                colour = new float[] {0.45f, 0.47f, 0.50f, 3};
            }
            for (int k = 0; k < ROUND; k++) {
                double a0 = 2 * Math.PI * k / ROUND;
                double a1 = 2 * Math.PI * (k + 1) / ROUND;
                double c0 = Math.cos(a0);
                double s0 = Math.sin(a0);
                double c1 = Math.cos(a1);
                double s1 = Math.sin(a1);
                corner(x + r0 * c0, y + r0 * s0, z + h0, nr * c0, nr * s0, nz, colour);
                corner(x + r0 * c1, y + r0 * s1, z + h0, nr * c1, nr * s1, nz, colour);
                corner(x + r1 * c1, y + r1 * s1, z + h1, nr * c1, nr * s1, nz, colour);
                corner(x + r0 * c0, y + r0 * s0, z + h0, nr * c0, nr * s0, nz, colour);
                corner(x + r1 * c1, y + r1 * s1, z + h1, nr * c1, nr * s1, nz, colour);
                corner(x + r1 * c0, y + r1 * s0, z + h1, nr * c0, nr * s0, nz, colour);
            }
        }
    }
}
