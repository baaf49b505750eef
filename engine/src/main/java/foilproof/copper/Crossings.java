package foilproof.copper;

import foilproof.stock.Parallel;
import java.util.Arrays;

/**
 * For samples along the contours the wall right across, within a limit: the medial discs that touch two opposite walls.
 *
 * <p>Local thickness is the diameter of the largest disc inside the set that contains the point (Hildebrand and
 * Ruegsegger, J. Microscopy 185, 1997; check-values Q25). Along a strip that is the disc which touches both walls at
 * opposite ends of a diameter; so from each sample the nearest facing wall within 15 degrees of the normal is sought,
 * and the disc over the two is kept where no other wall enters it. Wedges wider than 30 degrees (the corners of a pad)
 * are no strips. Distances are to the contour's edges, whose places are interpolated, not to cells.
 */
final class Crossings {
    /** Walls face each other where their directions differ from opposite by less than 30 degrees. */
    private static final double FACING = -0.8660254;

    private static final double LATERAL = 0.2679492;
    private static final int BLOCK = 1 << 10;

    /** Vertex of each sample, rising. */
    final int[] vertex;
    /** Length of contour that the sample stands for, mm. */
    final double[] lengthMm;
    /** Distance to the wall across, mm; infinite where there is none within the limit. */
    final double[] widthMm;
    /** The vertex across; -1 for none. */
    final int[] across;

    private final VertexIndex index;
    private final Contours c;
    private final double limitMm;
    private final int inward;

    /**
     * Searches all contours.
     *
     * @param index the vertices
     * @param limitMm widest strip wanted
     * @param throughCopper true for copper between gaps, false for gaps between copper
     */
    Crossings(VertexIndex index, double limitMm, boolean throughCopper) {
        this.index = index;
        this.limitMm = limitMm;
        c = index.contours;
        inward = throughCopper ? 1 : -1;
        IntList chosen = new IntList(c.x.length / 3 + 16);
        DoubleList lengths = new DoubleList(c.x.length / 3 + 16);
        double spacing = Math.max(0.03, 3 * c.cellMm);
        for (int l = 0; l < c.loops(); l++) {
            sampleLoop(c.loopStart[l], c.loopStart[l + 1], spacing, chosen, lengths);
        }
        vertex = chosen.toArray();
        lengthMm = Arrays.copyOf(lengths.data, lengths.size);
        widthMm = new double[vertex.length];
        across = new int[vertex.length];
        int blocks = (vertex.length + BLOCK - 1) / BLOCK;
        Parallel.run(blocks, index.threads(), () -> {
            Search search = new Search();
            return b -> {
                for (int s = b * BLOCK; s < Math.min(vertex.length, (b + 1) * BLOCK); s++) {
                    search.run(s);
                }
            };
        });
    }

    /** The same search with a lower limit: wider strips are left out. */
    private Crossings(Crossings wider, double limitMm) {
        index = wider.index;
        c = wider.c;
        inward = wider.inward;
        this.limitMm = limitMm;
        vertex = wider.vertex;
        lengthMm = wider.lengthMm;
        widthMm = wider.widthMm.clone();
        across = wider.across.clone();
        for (int s = 0; s < across.length; s++) {
            if (across[s] >= 0 && widthMm[s] >= limitMm) {
                across[s] = -1;
                widthMm[s] = Double.POSITIVE_INFINITY;
            }
        }
    }

    /** What a search with a lower limit would find; a copy. */
    Crossings within(double newLimitMm) {
        return new Crossings(this, newLimitMm);
    }

    double limitMm() {
        return limitMm;
    }

    private void sampleLoop(int from, int to, double spacing, IntList chosen, DoubleList lengths) {
        double gone = 0;
        int last = -1;
        for (int k = from; k < to; k++) {
            if (last < 0 || gone >= spacing) {
                chosen.add(k);
                lengths.add(0);
                last = lengths.size - 1;
                gone = 0;
            }
            int n = k + 1 == to ? from : k + 1;
            double dx = c.x[n] - c.x[k];
            double dy = c.y[n] - c.y[k];
            double step = Math.sqrt(dx * dx + dy * dy);
            gone += step;
            lengths.data[last] += step;
        }
    }

    /** The sample of the same loop nearest in order to a vertex. */
    int sampleNear(int atVertex) {
        int at = Arrays.binarySearch(vertex, atVertex);
        if (at >= 0) {
            return at;
        }
        int after = -at - 1;
        int before = after - 1;
        if (after >= vertex.length || index.loopOf[vertex[after]] != index.loopOf[atVertex]) {
            return before;
        }
        return before < 0 || vertex[after] - atVertex < atVertex - vertex[before] ? after : before;
    }

    /** One thread's search: no allocation per sample. */
    private final class Search implements VertexIndex.Visitor {
        private double px;
        private double py;
        private double nx;
        private double ny;
        private double best;
        private int found;
        private boolean emptying;
        private double clear;
        private boolean empty;

        void run(int sample) {
            int p = vertex[sample];
            across[sample] = -1;
            widthMm[sample] = Double.POSITIVE_INFINITY;
            nx = inward * index.normalX[p];
            ny = inward * index.normalY[p];
            if (c.kind[p] == MapStripe.OUTLINE || (nx == 0 && ny == 0)) {
                return;
            }
            px = c.x[p];
            py = c.y[p];
            best = limitMm * limitMm;
            found = -1;
            emptying = false;
            double ex = px + nx * limitMm;
            double ey = py + ny * limitMm;
            double side = LATERAL * limitMm;
            index.visit(
                    Math.min(px, ex) - side * Math.abs(ny),
                    Math.min(py, ey) - side * Math.abs(nx),
                    Math.max(px, ex) + side * Math.abs(ny),
                    Math.max(py, ey) + side * Math.abs(nx),
                    this);
            if (found < 0) {
                return;
            }
            double width = index.distanceToEdges(px, py, found);
            emptying = true;
            empty = true;
            double r = 0.5 * width;
            px += nx * r;
            py += ny * r;
            clear = 0.85 * r * 0.85 * r;
            index.visit(px - r, py - r, px + r, py + r, this);
            if (empty) {
                widthMm[sample] = width;
                across[sample] = found;
            }
        }

        @Override
        public void vertex(int k, float x, float y) {
            double dx = x - px;
            double dy = y - py;
            if (emptying) {
                empty &= dx * dx + dy * dy >= clear;
                return;
            }
            double d = dx * dx + dy * dy;
            if (d >= best) {
                return;
            }
            double along = dx * nx + dy * ny;
            double off = Math.abs(dx * ny - dy * nx);
            if (along <= 0 || off > LATERAL * along + 0.8 * c.cellMm || c.kind[k] == MapStripe.OUTLINE) {
                return;
            }
            if (inward * (nx * index.normalX[k] + ny * index.normalY[k]) < FACING) {
                best = d;
                found = k;
            }
        }
    }
}
