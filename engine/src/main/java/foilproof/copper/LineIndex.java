package foilproof.copper;

import java.util.List;

/** Centre lines of all runs of a side, in bins: which stretch of which path passes nearest to a wall. */
final class LineIndex {
    private static final double BIN_MM = 0.5;

    private final List<CutLines> lines;
    private final IntList owner = new IntList(256);
    private final IntList end = new IntList(256);
    private final DoubleList along = new DoubleList(256);
    private final int binsX;
    private final int binsY;
    private final IntList[] bins;

    /** What was found: index of the lines, of the segment's end point, and how far along its path. */
    int foundLines;

    int foundPoint;
    double foundAlongMm;

    LineIndex(List<CutLines> lines, double widthMm, double heightMm) {
        this.lines = lines;
        binsX = (int) (widthMm / BIN_MM) + 1;
        binsY = (int) (heightMm / BIN_MM) + 1;
        bins = new IntList[binsX * binsY];
        for (int l = 0; l < lines.size(); l++) {
            CutLines cut = lines.get(l);
            double gone = 0;
            for (int i = 1; i < cut.size(); i++) {
                if (cut.path(i) != cut.path(i - 1)) {
                    gone = 0;
                    continue;
                }
                double dx = cut.xMm(i) - cut.xMm(i - 1);
                double dy = cut.yMm(i) - cut.yMm(i - 1);
                int segment = owner.size;
                owner.add(l);
                end.add(i);
                along.add(gone);
                double length = Math.sqrt(dx * dx + dy * dy);
                gone += length;
                int steps = 1 + (int) (length / (0.5 * BIN_MM));
                int last = -1;
                for (int k = 0; k <= steps; k++) {
                    double f = (double) k / steps;
                    int bx = (int) ((cut.xMm(i - 1) + f * dx) / BIN_MM);
                    int by = (int) ((cut.yMm(i - 1) + f * dy) / BIN_MM);
                    if (bx < 0 || by < 0 || bx >= binsX || by >= binsY || by * binsX + bx == last) {
                        continue;
                    }
                    last = by * binsX + bx;
                    if (bins[last] == null) {
                        bins[last] = new IntList(8);
                    }
                    bins[last].add(segment);
                }
            }
        }
    }

    /** Finds the nearest stretch within about two bins; false where there is none. */
    boolean nearest(double x, double y, double reachMm) {
        double best = reachMm * reachMm;
        boolean any = false;
        int r = 1 + (int) (reachMm / BIN_MM);
        int cx = (int) (x / BIN_MM);
        int cy = (int) (y / BIN_MM);
        for (int by = Math.max(0, cy - r); by <= Math.min(binsY - 1, cy + r); by++) {
            for (int bx = Math.max(0, cx - r); bx <= Math.min(binsX - 1, cx + r); bx++) {
                IntList bin = bins[by * binsX + bx];
                for (int k = 0; bin != null && k < bin.size; k++) {
                    int s = bin.data[k];
                    CutLines cut = lines.get(owner.data[s]);
                    int i = end.data[s];
                    double dx = cut.xMm(i) - cut.xMm(i - 1);
                    double dy = cut.yMm(i) - cut.yMm(i - 1);
                    double l2 = dx * dx + dy * dy;
                    double t = l2 == 0
                            ? 0
                            : Math.max(0, Math.min(1, ((x - cut.xMm(i - 1)) * dx + (y - cut.yMm(i - 1)) * dy) / l2));
                    double ex = x - cut.xMm(i - 1) - t * dx;
                    double ey = y - cut.yMm(i - 1) - t * dy;
                    double d = ex * ex + ey * ey;
                    if (d < best) {
                        best = d;
                        foundLines = owner.data[s];
                        foundPoint = i;
                        foundAlongMm = along.data[s] + t * Math.sqrt(l2);
                        any = true;
                    }
                }
            }
        }
        return any;
    }
}
